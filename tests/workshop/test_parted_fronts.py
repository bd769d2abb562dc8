"""Fronts from one piece, told at the cut that parts them and on the map of their sheet, in any bank."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.front_choices import DrawerGrain, Front, FrontGrain, FrontKind, FrontLie
from casewright.casework.fronts_in_one_piece import fronts_in_one_piece
from casewright.casework.job import Bay, Construction, Job
from casewright.casework.project import Project, draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Plan
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from casewright.workshop.cut_wording import cut_words, from_one_piece
from casewright.workshop.order.batches import order
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.sheets.parted_fronts import parted_fronts
from casewright.workshop.sheets.sheet_findings import plan_findings
from casewright.workshop.sheets.sheet_marks import sheet_marks
from casewright.workshop.work import work
from samples import SHEETS, job, spec

DRAWER, DOOR, PAIR = Front(FrontKind.DRAWER), Front(FrontKind.DOOR), Front(FrontKind.TWO_DOORS)


def with_fronts(*fronts: Front, **made: object) -> Job:
    construction = replace(Construction(), **made)  # type: ignore[arg-type]
    return job(spec(bays=(Bay(fronts=fronts),), construction=construction), construction=construction)


def planned(made: Job) -> tuple[Project, dict[str, Plan]]:
    project = draw_up(made)
    return project, {key: solve(one, MaxIterations(60)) for key, one in cut_problems(project).items()}


def test_the_cut_that_parts_a_bank_says_what_to_number_and_the_map_of_its_sheet_too() -> None:
    project, plans = planned(with_fronts(DRAWER, DRAWER, DRAWER))
    done = work(project, plans)
    (first,) = [one for one in done.operations if one.fronts]
    says = "number B1-DF3, B1-DF2, B1-DF1 on the face, top to bottom: one piece"
    assert says in cut_words(project, first)
    assert set(first.parts) >= {"B1-DF1", "B1-DF2", "B1-DF3"}
    freed = {left.name for left in first.leaves}
    assert freed & {"B1-DF1", "B1-DF3"} and "B1-DF2" not in freed
    said = [
        from_one_piece(marks.fronts)
        for marks in sheet_marks(plans, order(done.operations).operations).values()
    ]
    assert sorted(said)[-1] == "From one piece, top to bottom: B1-DF3, B1-DF2, B1-DF1."
    assert said.count("") == len(said) - 1


def test_a_pair_of_doors_is_numbered_from_the_left() -> None:
    project, plans = planned(with_fronts(PAIR))
    (first,) = [one for one in work(project, plans).operations if one.fronts]
    assert "number B1-DO1, B1-DO2 on the face, left to right" in cut_words(project, first)


def test_nothing_is_said_of_fronts_each_by_itself() -> None:
    project, plans = planned(with_fronts(DRAWER, DRAWER, front_grain=FrontGrain.EACH_BY_ITSELF))
    assert not any(one.fronts for one in work(project, plans).operations)
    assert parted_fronts(project, plans) == ()


def test_a_bank_too_large_for_its_sheet_says_where_its_grain_breaks() -> None:
    """Two doors 15 1/8 in high, one over the other, are longer together than a sheet of 30 in."""
    made = with_fronts(DOOR, DOOR)
    small = replace(SHEETS["ply"], sheet_length=F(30), sheet_width=F(48))
    one = replace(made.runs[0].cases[0], materials=replace(made.runs[0].cases[0].materials, front="face"))
    made = replace(
        made,
        sheets={**SHEETS, "face": replace(small, key="face", name="face ply")},
        runs=(replace(made.runs[0], cases=(one,)),),
    )
    project, plans = planned(made)
    problem = cut_problems(project)["face"]
    (said,) = [
        one for one in plan_findings(project, "face", problem, plans["face"]) if one.code == "grain-broken"
    ]
    assert said.place == "face ply, B1-DO2 + B1-DO1"
    assert (
        "does not run on between B1-DO2 and B1-DO1: one piece for all its neighbours fits no sheet"
        in said.text
    )
    assert parted_fronts(project, plans) == ()


@settings(max_examples=15, deadline=None)
@given(
    st.lists(st.sampled_from([DRAWER, DOOR, PAIR, Front(FrontKind.FIXED)]), min_size=1, max_size=4),
    st.sampled_from([FrontLie.FULL_OVERLAY, FrontLie.INSET]),
    st.sampled_from(DrawerGrain),
    st.integers(0, 3),
)
def test_in_any_bay_all_that_runs_on_comes_of_one_piece_and_is_numbered_before_it_is_parted(
    fronts: list[Front], lie: FrontLie, grain: DrawerGrain, seed: int
) -> None:
    project = draw_up(with_fronts(*fronts, fronts=lie, drawer_grain=grain))
    problems = cut_problems(project)
    plans = {key: solve(one, MaxIterations(40), seed) for key, one in problems.items()}
    assert not any(verify(problems[key], plan) for key, plan in plans.items())
    banks = fronts_in_one_piece(project)
    assert tuple(one.fronts for one in parted_fronts(project, plans)) == banks
    cuts = order(work(project, plans).operations).operations
    turn = {one.key: number for number, one in enumerate(cuts)}
    for one in parted_fronts(project, plans):
        frees = [turn[cut.key] for cut in cuts if any(left.name in one.fronts.marks for left in cut.leaves)]
        assert turn[one.first_cut] <= min(frees)
