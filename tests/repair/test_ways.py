"""Every way out works: its plans are sound, its parts fit, and nothing cheaper was overlooked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from casewright.casework.inputs import with_input
from casewright.casework.job import Bay, Filler, Job
from casewright.casework.parts.part import Role
from casewright.casework.project import Project, draw_up
from casewright.errors import JobError
from casewright.findings import refusals
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Plan
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from casewright.repair.facts import AsCut, Blank, Facts, Origin
from casewright.repair.find_ways import ways
from casewright.repair.must_buy import proves_shortage
from casewright.repair.sheets_begun import facts_after
from casewright.repair.ways.free_sizes import FREE_CONSTRUCTION, fix_shared_widths
from casewright.repair.ways.still_right import Verdict, judge
from casewright.repair.ways.way import (
    Buy,
    CutAgain,
    Forgo,
    GlueOn,
    KeepAsCut,
    MakeOf,
    Option,
    SetInput,
    TrimTo,
    WayKind,
)
from casewright.shop.materials import OtherSize
from casewright.solids.solid_check import check_solids
from casewright.workshop.operations import cut_key
from casewright.workshop.sheets.cut_problems import cut_problems
from samples import SHEETS, job, spec

SHELVES = (Bay(fixed=(F(10),), adjustable=1),)


def small_job() -> Job:
    return job(
        spec("B1", width=F(24), bays=SHELVES),
        spec("B2", width=F(20), bays=SHELVES),
        opening=F(46),
        left=Filler(F(2), F(1, 2), "ply"),
    )


@pytest.fixture(scope="module")
def shop() -> tuple[Project, Mapping[str, Plan], list[str]]:
    """A drawn job, its plans, and the keys of all its cuts in order."""
    project = draw_up(small_job())
    plans = {key: solve(problem, MaxIterations(300)) for key, problem in cut_problems(project).items()}
    keys = [
        cut_key(material, sheet.number, cut.order)
        for material, plan in plans.items()
        for sheet in plan.sheets
        for cut in sheet.cuts
    ]
    return project, plans, keys


Shop = tuple[Project, Mapping[str, Plan], list[str]]


def check(project: Project, facts: Facts, option: Option) -> None:
    """An option is complete and right, judged from nothing but the facts and what it says."""
    for material, plan in option.plans.items():
        assert verify(option.problems[material], plan) == (), option.why
        assert not plan.unplaced
    after = option.project
    made = {piece.item for plan in option.plans.values() for _, piece in plan.parts()}
    forgone = {action.mark for action in option.actions if isinstance(action, Forgo)}
    glued = {action.mark for action in option.actions if isinstance(action, GlueOn)}
    kept = {action.mark for action in option.actions if isinstance(action, KeepAsCut)}
    trimmed = {action.mark: action for action in option.actions if isinstance(action, TrimTo)}
    standing = {mark for blank in facts.blanks for mark in blank.planned}
    for part in after:
        mark = part.mark
        if mark in made or mark in forgone or mark in glued:
            continue
        length, width, _ = after.dimensions(part)
        if mark in facts.finished or mark in kept:
            cut = facts.finished.get(mark) or facts.spoiled[mark]
            if mark in trimmed:
                assert (trimmed[mark].length, trimmed[mark].width) == (length, width)
                assert cut.length >= length and cut.width >= width
            else:
                assert (cut.length, cut.width) == (length, width), (option.why, mark)
        else:
            assert mark in standing, (option.why, mark)
            assert (length, width, part.material) == (
                *project.dimensions(project.parts[mark])[:2],
                project.parts[mark].material,
            )
    if any(isinstance(action, SetInput) for action in option.actions):
        again = draw_up(after.job)
        assert {mark: again.dimensions(again.parts[mark]) for mark in again.parts} == {
            mark: after.dimensions(after.parts[mark]) for mark in after.parts
        }
        assert again.sizes.of(again.runs[0].spare) == project.sizes.of(project.runs[0].spare)


def mishap(project: Project, facts: Facts, mark: str, short: F, narrow: F) -> Facts:
    length, width, _ = project.dimensions(project.parts[mark])
    return facts.spoil({mark: AsCut(length - short, width - narrow)})


@settings(deadline=None, max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_no_way_is_ever_wrong(shop: Shop, data: st.DataObject) -> None:
    project, plans, keys = shop
    done = keys[: data.draw(st.integers(1, len(keys)))]
    facts = facts_after(project, plans, done)
    if not facts.finished:
        return
    mark = data.draw(st.sampled_from(sorted(facts.finished)))
    off = data.draw(st.sampled_from([(F(1), F(0)), (F(0), F(1)), (F(1, 2), F(1, 4)), (F(0), F(2))]))
    facts = mishap(project, facts, mark, *off)
    found = ways(project, facts)
    assert found.options, found.proof
    keys_in_order = [option.cost.key() for option in found.options]
    assert keys_in_order == sorted(keys_in_order)
    for option in found.options:
        check(project, facts, option)
        assert option.why.count(".") >= 2


def exhaustive_moves(
    project: Project, facts: Facts, mark: str, steps: range
) -> set[frozenset[tuple[str, F]]]:
    """Every single move, with every taker, on a grid of eighths, tried by drawing up the job anew.

    Keeps the moves after which the spoiled part and every finished part is right or can be trimmed.
    """
    base = draw_up(fix_shared_widths(project))
    cut = facts.spoiled[mark]
    names = [f"{case}.{last}" for case in base.cases for last in ("width", "below11")]
    names += [f"{case}.{field}" for case in base.cases for field in FREE_CONSTRUCTION]
    names += [f"job.{field}" for field in FREE_CONSTRUCTION] + ["run1.left_filler"]
    found: set[frozenset[tuple[str, F]]] = set()
    for name in names:
        known = name if name in base.sizes.ledger else f"job.{name.partition('.')[2]}"
        for step in steps:
            by = F(step, 8)
            takers: list[str | None] = [None]
            if name.endswith(".width"):
                takers = [other for other in ("B1.width", "B2.width", "run1.left_filler") if other != name]
            for taker in takers:
                values = {name: base.sizes.of(known) + by}
                if taker:
                    values[taker] = base.sizes.of(taker) - by
                changed = base.job
                for one, value in values.items():
                    changed = with_input(changed, one, value)
                try:
                    after = draw_up(changed)
                except JobError:
                    continue
                if after.sizes.of(after.runs[0].spare) != base.sizes.of(base.runs[0].spare):
                    continue
                if judge(project, after, mark, cut) is not Verdict.REMAKE:
                    found.add(frozenset(values.items()))
    return found


@pytest.mark.parametrize("mark", ["B1-B", "B2-SF", "B1-F11"])
def test_no_move_found_by_trying_everything_beats_the_solved_ones(shop: Shop, mark: str) -> None:
    project, plans, keys = shop
    facts = mishap(project, facts_after(project, plans, keys), mark, F(1), F(0))
    tried = exhaustive_moves(project, facts, mark, range(-9, 10))
    solved = {
        frozenset((action.name, action.new) for action in option.actions if isinstance(action, SetInput))
        for option in ways(project, facts).options
        if option.kind in (WayKind.MOVE, WayKind.TRIM)
    }
    least: dict[str, F] = {}
    for move in tried:
        for name, value in move:
            known = name if name in project.sizes.ledger else f"job.{name.partition('.')[2]}"
            by = abs(value - project.sizes.of(known))
            least[name] = min(by, least.get(name, by))
    smallest = {
        move
        for move in tried
        if all(
            abs(
                value
                - project.sizes.of(name if name in project.sizes.ledger else f"job.{name.partition('.')[2]}")
            )
            == least[name]
            for name, value in move
        )
    }
    assert bool(smallest) == bool(solved)
    # Each solved move is one that trying finds, and the smallest of its inputs.
    assert solved <= smallest


def test_an_inch_short_bottom_makes_the_filler_wider(shop: Shop) -> None:
    project, plans, keys = shop
    facts = mishap(project, facts_after(project, plans, keys), "B1-B", F(1), F(0))
    option = next(
        one
        for one in ways(project, facts).options
        if {action.name for action in one.actions if isinstance(action, SetInput)}
        == {"B1.width", "run1.left_filler"}
    )
    assert option.project.sizes.of("B1.width") == 23
    assert option.project.sizes.of("run1.left_filler") == 3
    assert option.project.dimensions(option.project.parts["B1-B"])[0] == facts.spoiled["B1-B"].length
    assert refusals(check_solids(option.project)) == ()
    assert "keep B1-B as cut" in option.why


def test_what_the_planner_proves_is_said(shop: Shop) -> None:
    project, plans, keys = shop
    facts = facts_after(project, plans, keys)
    bare = replace(facts, blanks=()).spoil({"B1-L": AsCut(F(2), F(2))})
    found = ways(project, bare)
    assert found.must_buy
    assert "proved" in found.proof
    assert found.best_of(WayKind.RECUT) is None
    buying = found.best_of(WayKind.BUY)
    assert buying and buying.cost.money == project.job.sheets["ply"].price


def test_a_proof_is_never_given_where_a_plan_exists(shop: Shop) -> None:
    """Every blank set that does hold the parts, so found by the planner, passes the relaxation."""
    project, plans, keys = shop
    for count in (1, len(keys) // 3, len(keys) // 2):
        facts = facts_after(project, plans, keys[:count])
        for material, plan in plans.items():
            blanks = [blank for blank in facts.blanks if blank.material == material]
            held = [project.parts[mark] for blank in blanks for mark in blank.planned]
            assert held and plan
            assert not proves_shortage(project, held, blanks)
            # One whole sheet's worth more of the largest part does not fit as well.
            largest = max(held, key=lambda part: project.dimensions(part)[0] * project.dimensions(part)[1])
            assert proves_shortage(project, held + [largest] * 12, blanks)


def test_an_optional_part_can_be_left_out(shop: Shop) -> None:
    project, plans, keys = shop
    facts = replace(facts_after(project, plans, keys), blanks=()).spoil({"B1-A1": AsCut(F(2), F(2))})
    assert ways(project, facts).best_of(WayKind.GIVE_UP) is None, "the maker has marked nothing optional"
    marked = replace(project, job=replace(project.job, optional=frozenset({"B1-A1"})))
    option = ways(marked, facts).best_of(WayKind.GIVE_UP)
    assert option and option.actions == (Forgo("B1-A1"),)
    assert option.cost.money == 0


def test_a_narrow_shelf_is_built_out_by_a_strip_of_its_own_wood(shop: Shop) -> None:
    project, plans, keys = shop
    facts = mishap(project, facts_after(project, plans, keys), "B1-F11", F(0), F(1))
    option = ways(project, facts).best_of(WayKind.BUILD_OUT)
    assert option is not None
    glue = next(action for action in option.actions if isinstance(action, GlueOn))
    assert glue.width == 1
    assert glue.rip_to + glue.width == project.dimensions(project.parts["B1-F11"])[1]
    assert glue.rip_to <= facts.spoiled["B1-F11"].width
    strip = next(piece for plan in option.plans.values() for _, piece in plan.parts())
    assert (strip.length, strip.width) == (project.dimensions(project.parts["B1-F11"])[0], F(1))
    assert option.cost.remade == 0, "the shelf itself is used"


def test_parts_glued_up_are_left_alone(shop: Shop) -> None:
    project, plans, keys = shop
    facts = mishap(project, facts_after(project, plans, keys), "B2-B", F(1), F(0))
    glued = replace(facts, assembled=frozenset({"B1"}))
    for option in ways(project, glued).options:
        touched = {getattr(action, "mark", "") for action in option.actions}
        assert not any(mark.startswith("B1-") for mark in touched), option.why


def test_a_part_that_measures_wrong_in_a_glued_up_case_stops_no_search(shop: Shop) -> None:
    """It did: an assertion that an unchanged job changes no assembled case."""
    project, plans, keys = shop
    facts = mishap(project, facts_after(project, plans, keys), "B2-B", F(1), F(0))
    side = facts.finished["B1-L"]
    short = replace(side, length=side.length - 1)
    glued = replace(facts, finished={**facts.finished, "B1-L": short}, assembled=frozenset({"B1"}))
    options = ways(project, glued).options
    assert options
    for option in options:
        touched = {getattr(action, "mark", "") for action in option.actions}
        assert not any(mark.startswith("B1-") for mark in touched), option.why


def test_a_spoiled_part_becomes_a_smaller_one(shop: Shop) -> None:
    project, plans, keys = shop
    facts = replace(facts_after(project, plans, keys), blanks=())
    length, width, _ = project.dimensions(project.parts["B1-L"])
    facts = facts.spoil({"B1-L": AsCut(length - 1, width)})
    facts = facts.spoil({"B1-TK": AsCut(F(2), F(2))})
    # The side is spoiled and so is the toe kick: with a new sheet for the side alone, or with the
    # side's own wood, the kick costs nothing.
    option = ways(project, facts).best_of(WayKind.BUY)
    assert option is not None
    sources = {action.mark: action.blank for action in option.actions if isinstance(action, CutAgain)}
    assert sources["B1-TK"] in ("spoiled B1-L", sources["B1-L"])
    assert option.cost.money == project.job.sheets["ply"].price


def test_nothing_to_put_right_is_said(shop: Shop) -> None:
    project, plans, keys = shop
    found = ways(project, facts_after(project, plans, keys))
    assert found.options == () and "Nothing needs repair" in found.proof


def test_the_same_question_has_the_same_answer(shop: Shop) -> None:
    project, plans, keys = shop
    facts = mishap(project, facts_after(project, plans, keys[: len(keys) // 2]), "B1-L", F(1), F(0))
    one, other = ways(project, facts), ways(project, facts)
    assert [option.why for option in one.options] == [option.why for option in other.options]


def test_roles_that_hold_a_cabinet_up_are_not_pieced(shop: Shop) -> None:
    project, plans, keys = shop
    facts = facts_after(project, plans, keys)
    strip = next(part for part in project if part.role is Role.MOUNTING_STRIP)
    found = ways(project, mishap(project, facts, strip.mark, F(0), F(1)))
    assert found.best_of(WayKind.BUILD_OUT) is None


def test_the_cheapest_size_that_will_do_is_bought() -> None:
    half = OtherSize("half sheet", F(48), F(48), F(45))
    sample = small_job()
    sheets = {**sample.sheets, "ply": replace(sample.sheets["ply"], others=(half,))}
    project = draw_up(replace(sample, sheets=sheets))
    facts = Facts(finished={part.mark: AsCut(*project.dimensions(part)[:2]) for part in project})
    buying = ways(project, facts.spoil({"B1-TK": AsCut(F(1), F(1))})).best_of(WayKind.BUY)
    assert buying and buying.cost.money == 45
    assert Buy("ply", "half sheet", 1) in buying.actions
    assert "buy 1 sheet of birch ply (half sheet)" in buying.why.lower()


def test_a_shelf_cut_too_narrow_is_used_further_back(shop: Shop) -> None:
    """An optional part is shrunk: its case alone gets a larger setback, and nothing is cut again."""
    project, plans, keys = shop
    facts = mishap(project, facts_after(project, plans, keys), "B1-A1", F(0), F(1))
    option = next(
        one
        for one in ways(project, facts).options
        if {action.name for action in one.actions if isinstance(action, SetInput)} == {"B1.shelf_setback"}
    )
    assert option.project.sizes.of("B1.shelf_setback") == project.sizes.of("job.shelf_setback") + 1
    assert KeepAsCut("B1-A1") in option.actions
    assert option.cost.remade == 0 and option.cost.money == 0
    assert option.project.dimensions(option.project.parts["B2-A1"]) == project.dimensions(
        project.parts["B2-A1"]
    )
    check(project, facts, option)


def test_no_shelf_is_given_up_for_a_part_that_can_be_cut_again(shop: Shop) -> None:
    project, plans, keys = shop
    board = Blank("board", "ply", F(48), F(24), Origin.OFFCUT)
    facts = replace(facts_after(project, plans, keys), blanks=(board,))
    found = ways(project, mishap(project, facts, "B1-TK", F(1), F(0)))
    assert found.best_of(WayKind.RECUT) is not None
    assert found.best_of(WayKind.GIVE_UP) is None


def test_a_kick_may_be_made_of_another_sheet_of_the_same_name(shop: Shop) -> None:
    """Nothing is fitted to a toe kick, so another sheet sold as 3/4 will do, at its own thickness."""
    _, plans, keys = shop
    other = replace(SHEETS["ply"], key="fir", name="fir ply", readings=(F(7, 10),))
    project = draw_up(replace(small_job(), sheets={**SHEETS, "fir": other}))
    board = Blank("fir board", "fir", F(48), F(24), Origin.OFFCUT)
    facts = replace(facts_after(project, plans, keys), blanks=(board,))
    option = ways(project, mishap(project, facts, "B1-TK", F(8), F(0))).best_of(WayKind.SWAP)
    assert option and MakeOf("B1-TK", "fir") in option.actions
    assert option.cost.money == 0
    kick = option.project.parts["B1-TK"]
    assert kick.material == "fir" and option.project.dimensions(kick)[2] == F(7, 10)
    assert option.project.dimensions(option.project.parts["B1-B"])[2] == F(23, 32)
    housed = mishap(project, facts, "B1-B", F(8), F(0))
    assert ways(project, housed).best_of(WayKind.SWAP) is None
