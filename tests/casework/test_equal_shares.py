"""Cases with equal shares of an opening are equally wide, and the ends of the run take what that leaves."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.front_choices import Front, FrontKind
from casewright.casework.inputs import with_input
from casewright.casework.job import Bay, Filler, Job
from casewright.casework.parts.cut_alike import cut_alike
from casewright.casework.parts.part import Role
from casewright.casework.project import Project, draw_up
from casewright.errors import JobError
from casewright.lengths.length import MM, Mark, Unit
from casewright.repair.ways.free_sizes import fix_shared_widths
from casewright.sizes.ledger import explain
from samples import job, spec

MARK = F(1, 32)
PLAIN, SCRIBED = Filler(F(1), F(0), "ply"), Filler(F(2), F(1, 2), "ply")
REST = Filler(None, F(1, 2), "ply")


def sharing(
    opening: F,
    weights: tuple[int, ...] = (1, 1, 1),
    left: Filler | None = None,
    right: Filler | None = None,
    gap: F = F(0),
) -> Job:
    """One given case and those that share what it leaves."""
    cases = [replace(spec(f"B{n}", width=None), weight=F(weight)) for n, weight in enumerate(weights, 2)]
    made = job(spec("B1", width=F(30)), *cases, opening=opening, left=left, right=right)
    return replace(made, runs=(replace(made.runs[0], gap=gap),))


def all_given(made: Job) -> Job:
    """The job with 36 in for every case without a width."""
    run = made.runs[0]
    cases = tuple(replace(one, width=one.width or F(36), weight=F(1)) for one in run.cases)
    return replace(made, runs=(replace(run, cases=cases),))


def of(project: Project, name: str) -> F:
    return project.sizes.of(name)


def across(project: Project) -> F:
    """Everything in the opening, as its parts add up."""
    run = project.runs[0]
    cases = sum((project.sizes.of(case.outside) for case in run.cases), F(0))
    return project.sizes.of(run.left) + cases + project.sizes.of(run.right)


def test_twins_of_half_a_millimetre_are_equal_and_the_filler_takes_the_half() -> None:
    """1654.5 between two on half millimetres: 827 each, not 827.5 and 827; a filler of 40 shows 40.5."""
    filler = Filler(40 * MM, 12 * MM, "ply")
    made = job(spec("B1", width=None), spec("B2", width=None), opening=F("1694.5") * MM, right=filler)
    project = draw_up(replace(made, unit=Unit.MM, mark=Mark.HALF_MILLIMETRE, rounding=Mark.HALF_MILLIMETRE))
    assert [of(project, f"B{n}.width") / MM for n in (1, 2)] == [827, 827]
    assert of(project, "run1.right_end") == F("40.5") * MM
    assert of(project, "B2-FR.width") == F("52.5") * MM
    assert of(project, "run1.right_filler") == 40 * MM
    assert across(project) == F("1694.5") * MM


ENDS = [(PLAIN, None), (None, PLAIN), (PLAIN, SCRIBED), (SCRIBED, PLAIN), (None, None)]


@settings(deadline=None, max_examples=60)
@given(
    st.fractions(F(150), F(260), max_denominator=1000),
    st.lists(st.integers(1, 3), min_size=1, max_size=5).map(tuple),
    st.sampled_from(ENDS),
)
def test_equal_weights_are_equal_and_the_sum_of_a_run_is_its_opening(
    opening: F, weights: tuple[int, ...], ends: tuple[Filler | None, Filler | None]
) -> None:
    gap = F(1, 8)
    project = draw_up(sharing(opening, weights, *ends, gap))
    run = project.runs[0]
    assert across(project) == opening and of(project, run.spare.name) == 0
    room = opening - 30 - sum((end.width or F(0) if end else gap for end in ends), F(0))
    for n, weight in enumerate(weights, 2):
        exact, width = room * weight / sum(weights), of(project, f"B{n}.width")
        assert (width / MARK).denominator == 1 and 0 <= exact - width < MARK
    remainder = of(project, "run1.remainder")
    assert 0 <= remainder < MARK * len(weights)
    entered = [end.width or F(0) if end else gap for end in ends]
    wider = [of(project, form.name) - was for form, was in zip((run.left, run.right), entered, strict=True)]
    if ends == (None, None):
        assert wider == [remainder / 2, remainder / 2]
    else:
        taker = max((0, 1), key=lambda side: end.scribe if (end := ends[side]) else F(-1))
        assert wider[taker] == remainder and wider[1 - taker] == 0


def test_of_two_fillers_alike_the_left_one_takes_it() -> None:
    project = draw_up(sharing(F(30) + 3 * 36 + 2 + MARK, left=PLAIN, right=PLAIN))
    assert [of(project, form.name) for form in (project.runs[0].left, project.runs[0].right)] == [1 + MARK, 1]


def test_where_nothing_can_take_it_the_shares_keep_their_sum() -> None:
    project = draw_up(sharing(F(30) + 3 * 36 + MARK))
    assert sorted(of(project, f"B{n}.width") for n in (2, 3, 4)) == [36, 36, 36 + MARK]
    assert across(project) == F(30) + 3 * 36 + MARK
    assert "run1.remainder" not in project.sizes.ledger


def test_with_every_width_given_the_ends_are_as_entered() -> None:
    project = draw_up(job(spec("B1"), opening=F(38), right=SCRIBED))
    assert not {"run1.remainder", "run1.left_end", "run1.right_end"} & set(project.sizes.ledger)
    assert project.shared == {}


@settings(deadline=None, max_examples=30)
@given(
    st.fractions(F(150), F(200), max_denominator=200), st.sampled_from([*ENDS, (REST, None), (None, REST)])
)
def test_a_measured_opening_drives_widths_and_ends(
    opening: F, ends: tuple[Filler | None, Filler | None]
) -> None:
    made = sharing(F(170), (1, 1, 2), *ends, F(1, 8))
    if REST in ends:
        made = all_given(made)
    measured = draw_up(made).given({"run1.opening": opening})
    anew = draw_up(with_input(made, "run1.opening", opening))
    for mark, part in anew.parts.items():
        assert anew.dimensions(part) == measured.dimensions(measured.parts[mark]), mark
    assert across(measured) == opening


@pytest.mark.parametrize("ends", [*ENDS, (REST, PLAIN)])
def test_a_job_with_its_shares_written_down_is_the_same(ends: tuple[Filler | None, Filler | None]) -> None:
    made = sharing(F(170) + MARK, (1, 1, 2), *ends, F(1, 8))
    shared = draw_up(all_given(made) if REST in ends else made)
    written = fix_shared_widths(shared)
    assert all(spec.width is not None for spec in written.runs[0].cases)
    settled = draw_up(written)
    assert settled.shared == {}
    for mark, part in settled.parts.items():
        assert settled.dimensions(part) == shared.dimensions(shared.parts[mark]), mark
        assert settled.corner(part) == shared.corner(shared.parts[mark]), mark
    assert settled.findings == ()


def test_a_filler_takes_what_the_cases_leave() -> None:
    project = draw_up(all_given(sharing(F(170), left=REST, right=PLAIN)))
    assert of(project, "run1.left_filler") == 170 - 30 - 3 * 36 - 1
    assert of(project, "B1-FL.width") == 31 + F(1, 2)
    assert across(project) == 170


def test_each_end_says_where_its_width_comes_from() -> None:
    rounded = draw_up(sharing(F(30) + 3 * 36 + 2 + MARK, right=SCRIBED)).sizes
    said = {
        name: explain(rounded, name).sentence(str)
        for name in ("run1.right_end", "run1.remainder", "B2.width")
    }
    left = (
        "opening of run 4481/32 - gap at an open end of run 0 - right filler of run, in sight 2 - B1 width 30"
    )
    assert said == {
        "run1.right_end": (
            "right filler of run, in sight with what rounding leaves 65/32 = "
            "right filler of run, in sight 2 + what rounding its widths leaves of run 1/32"
        ),
        "run1.remainder": f"what rounding its widths leaves of run 1/32 = remainder of {left}",
        "B2.width": f"B2 width 36 = share of {left}",
    }
    rest = draw_up(all_given(sharing(F(170), left=REST))).sizes
    assert explain(rest, "run1.left_filler").sentence(str) == (
        "left filler of run, in sight 32 = opening of run 170 - gap at an open end of run 0 "
        "- B1 width 30 - B2 width 36 - B3 width 36 - B4 width 36"
    )


def test_cases_wider_than_their_opening_are_said_once_with_by_how_much() -> None:
    with pytest.raises(JobError) as refused:
        draw_up(job(spec("B1"), opening=F(30), left=REST))
    (finding,) = refused.value.findings
    assert finding.place == "cases.B1.width"
    assert finding.text == 'B1 is 36" wide; the opening of run has room for 30".'
    with pytest.raises(JobError) as refused:
        draw_up(job(spec("B1"), spec("B2"), opening=F(66), left=REST))
    (finding,) = refused.value.findings
    assert finding.place == "runs.run.left_filler.width"
    assert finding.text == (
        'the cases are 6" wider than the room for them and leave nothing for the left filler to take.'
    )


@settings(deadline=None, max_examples=30)
@given(st.fractions(F(40), F(120), max_denominator=64), st.lists(st.integers(1, 3), min_size=2, max_size=5))
def test_bays_of_equal_shares_are_equally_wide_and_fill_the_case(wide: F, weights: list[int]) -> None:
    """Regression: the last bay took what rounding left of the others, and its shelves were a hair longer."""
    bays = tuple(Bay(adjustable=1, weight=F(weight)) for weight in weights)
    project = draw_up(job(spec(width=wide, bays=bays)))
    found = [of(project, f"B1.bay{number}") for number in range(1, len(bays) + 1)]
    assert len({share / weight for share, weight in zip(found, weights, strict=True)}) == 1
    dividers = (len(bays) - 1) * of(project, "ply.thickness")
    assert sum(found, F(0)) + dividers == of(project, "B1.inside")
    shelves = [group for group in cut_alike(project) if group.first.role is Role.ADJUSTABLE_SHELF]
    assert len(shelves) == len(set(weights))


@settings(deadline=None, max_examples=30)
@given(st.fractions(F(30), F(36), max_denominator=64), st.lists(st.integers(1, 2), min_size=2, max_size=3))
def test_fronts_of_equal_shares_are_equally_high_and_fill_the_bay(high: F, weights: list[int]) -> None:
    fronts = tuple(Front(FrontKind.FIXED, weight=F(weight)) for weight in weights)
    project = draw_up(job(spec(width=F(18), height=high, bays=(Bay(fronts=fronts),))))
    drawn = project.cases["B1"].fronts[0]
    found = [project.sizes.of(front.height) for front in drawn.fronts]
    assert len({share / weight for share, weight in zip(found, weights, strict=True)}) == 1
    between = (len(fronts) - 1) * project.sizes.of(drawn.between)
    assert sum(found, F(0)) + between == project.sizes.of(drawn.height)
    slabs = [group for group in cut_alike(project) if group.first.role is Role.FIXED_FRONT]
    assert len(slabs) == len(set(weights))
