"""The parts of the planner one by one: extents, stages, carrying, settings, leftovers, the first plan."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.engine import MaxIterations
from casewright.planner.first_phase.hand_cuts import add_hand_cuts
from casewright.planner.first_phase.strip_fill import fill_strips
from casewright.planner.layout.cut_draft import draft_of, layout_fits
from casewright.planner.layout.exact_plan import sheet_plan
from casewright.planner.layout.fence_settings import beyond_reach, part_settings
from casewright.planner.layout.integer_grid import grid_of
from casewright.planner.layout.layout_tree import (
    CarriedPiece,
    HandStack,
    Leaf,
    SheetLayout,
    Stack,
    count_stages,
    leaves,
    make_stack,
    node_extent,
)
from casewright.planner.layout.leftovers import worth_of_leftover
from casewright.planner.layout.plan_layout import kept_layouts
from casewright.planner.layout.score import Scorer, job_totals
from casewright.planner.plan import PieceRole, Purpose, SheetPlan
from casewright.planner.plan_wording import plan_text
from casewright.planner.problem import Bin, Direction, Item, Limits, PatternKind, Problem, Saw, SawKind, Trim
from casewright.planner.second_phase.reshape import neighbour_layouts
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from .shop import HAND_SAW, SHEET, TABLE_SAW, problems, small_job

SIDE, BOTTOM, SHELF, STRIP = (Leaf(i) for i in range(4))


def test_the_grid_is_the_coarsest_on_which_every_length_is_whole() -> None:
    grid = grid_of(small_job())
    assert grid.step == F(1, 8)
    assert grid.items[0].length == 276 and grid.kerf == 1


def test_extents_pay_one_kerf_between_neighbours() -> None:
    grid = grid_of(small_job())
    row = Stack(True, (SIDE, BOTTOM))
    assert node_extent(row, grid) == (276 + 1 + 228, 186)
    assert node_extent(Stack(False, (row, STRIP)), grid) == (505, 186 + 1 + 32)


def test_stacks_of_one_and_stacks_in_their_like_are_taken_up() -> None:
    inner = Stack(True, (SIDE, BOTTOM))
    assert make_stack(True, [inner, SHELF]) == Stack(True, (SIDE, BOTTOM, SHELF))
    assert make_stack(False, [inner]) == inner


def test_stages_are_counted_as_the_literature_does() -> None:
    strips_of_parts = Stack(False, (Stack(True, (SIDE, BOTTOM)), Stack(True, (SHELF, STRIP))))
    assert count_stages(strips_of_parts) == 2
    assert count_stages(Stack(True, (strips_of_parts, SIDE))) == 3
    assert count_stages(SIDE) == 1


def test_hand_cuts_keep_neighbours_together_while_they_can_be_carried() -> None:
    problem = replace(small_job(), hand_saw=HAND_SAW, limits=Limits(max_length=F(64)))
    grid = grid_of(problem)
    sheet = add_hand_cuts(grid, SheetLayout(0, Stack(True, (BOTTOM, BOTTOM, SHELF))))
    assert sheet is not None and isinstance(sheet.root, HandStack)
    assert len(sheet.root.children) == 2
    assert sorted(leaf.item for leaf in leaves(sheet.root)) == [1, 1, 2]


def test_no_room_for_a_hand_cut_is_no_plan() -> None:
    """Parts that fill the sheet to the table saw's kerf leave none for the hand saw's clean-up."""
    items = (Item("half", F(95.5 - 0.125) / 2, F(47.5), 2),)
    problem = replace(small_job(items=items), hand_saw=HAND_SAW, limits=Limits(max_length=F(64)))
    layout = SheetLayout(0, Stack(True, (Leaf(0), Leaf(0))))
    assert layout_fits(grid_of(problem), layout)
    assert add_hand_cuts(grid_of(problem), layout) is None


def test_regression_hand_cuts_that_eat_the_whole_sheet_are_no_plan() -> None:
    """The clean-ups of fifteen hand cuts once left exactly nothing for the sixteenth strip, and
    how long a piece without width may be was worked out by dividing by it."""
    thick = replace(HAND_SAW, kerf=F(1, 4))
    job = small_job(
        items=(Item("slat", F(48), F(37, 15), 32),),
        bins=(replace(SHEET, trim=Trim()),),
        table_saw=replace(TABLE_SAW, kerf=F(0)),
        hand_saw=thick,
        limits=Limits(F(45), F(64)),
    )
    strip = Stack(True, (Leaf(0), Leaf(0)))
    layout = SheetLayout(0, Stack(False, (strip,) * 16))
    assert layout_fits(grid_of(job), layout)
    assert add_hand_cuts(grid_of(job), layout) is None


def test_a_small_part_is_not_carried_with_the_whole_sheet() -> None:
    problem = replace(small_job(), hand_saw=HAND_SAW, limits=Limits(max_length=F(64)))
    sheet = add_hand_cuts(grid_of(problem), SheetLayout(0, SHELF))
    assert sheet is not None
    plan = sheet_plan(problem, grid_of(problem), sheet, 1)
    (piece,) = plan.carried
    assert max(piece.length, piece.width) <= 64
    assert any(offcut.length > 60 for offcut in plan.offcuts)


@settings(max_examples=60, deadline=None)
@given(problems(), st.data())
def test_reshaping_keeps_the_parts(problem: Problem, data: st.DataObject) -> None:
    """Whatever shape is chosen, the same parts come from the sheet, and what fits is sound."""
    grid = grid_of(problem)
    layouts, _ = fill_strips(grid, [item.count for item in problem.items], True)
    layout = layouts[0]
    for _ in range(3):
        shapes = list(neighbour_layouts(layout, grid, True, {(True, 400), (False, 300)}))
        if not shapes:
            return
        layout = data.draw(st.sampled_from(shapes))
        before = sorted((leaf.item, leaf.turned) for leaf in leaves(layouts[0].root))
        assert sorted((leaf.item, leaf.turned) for leaf in leaves(layout.root)) == before
        if layout_fits(grid, layout):
            drafts = [draft.leaf for draft in draft_of(problem, grid, layout).walk() if draft.leaf]
            assert sorted((leaf.item, leaf.turned) for leaf in drafts) == before


@settings(max_examples=40, deadline=None)
@given(problems())
def test_the_score_of_sheets_is_the_plans_own_count(problem: Problem) -> None:
    """The search's quick figures are those counted from the finished plan."""
    from casewright.planner.layout.plan_figures import figures_of

    grid = grid_of(problem)
    layouts, _ = fill_strips(grid, [item.count for item in problem.items], False)
    whole = job_totals(Scorer(problem, grid), layouts)
    figures = figures_of(
        problem, tuple(sheet_plan(problem, grid, lay, n) for n, lay in enumerate(layouts, 1))
    )
    assert whole.money == figures.money and whole.worth == figures.leftover_worth
    assert len(whole.settings) == figures.settings
    assert (whole.cuts, whole.turns) == (figures.cuts, figures.turns)


def test_the_narrow_parts_of_a_strip_can_be_cut_off_together() -> None:
    grid = grid_of(small_job())
    layout = SheetLayout(0, Stack(True, (SIDE, STRIP, STRIP)))
    group = Stack(False, (Stack(True, (STRIP, STRIP)),))
    assert SheetLayout(0, Stack(True, (SIDE, group))) in list(neighbour_layouts(layout, grid, True, ()))


def test_a_group_is_cut_off_on_a_setting_that_is_wanted_anyway() -> None:
    grid = grid_of(small_job())
    block = Stack(False, (STRIP, STRIP))
    shapes = list(
        neighbour_layouts(SheetLayout(0, Stack(True, (SIDE, block))), grid, False, {(True, 276), (True, 100)})
    )
    assert SheetLayout(0, Stack(True, (SIDE, replace(block, least_x=276)))) in shapes


def test_one_large_leftover_is_worth_more_than_many_small_ones() -> None:
    half, tenth = SHEET.area / 2, SHEET.area / 20
    assert worth_of_leftover(SHEET, half) == 15
    assert 10 * worth_of_leftover(SHEET, tenth) == F(3, 2)


def test_every_matched_part_has_both_its_sides_from_a_setting() -> None:
    """Parts that need not match may take a side from what an earlier cut left; these must not."""
    problem = small_job()
    parts = [part for part in part_settings(solve(problem).sheets) if part.piece.item != "strip"]
    assert len(parts) == 10
    for part in parts:
        item = problem.item(part.piece.item or "")
        assert part.by_length is not None and part.by_length[2] == item.length
        assert part.by_width is not None and part.by_width[2] == item.width


def test_a_rip_beyond_the_fence_is_said() -> None:
    saw = replace(TABLE_SAW, reach=F(20))
    problem = small_job(table_saw=saw, items=(Item("top", F(40), F(30)),))
    plan = solve(problem)
    assert verify(problem, plan) == ()
    (finding,) = [finding for finding in plan.findings if finding.code == "fence-reach"]
    assert "30 is beyond the fence, which reaches 20" in finding.text and "17 5/8" in finding.fix
    silent = replace(plan, findings=())
    assert {f.code for f in verify(problem, silent)} == {"reach"}
    assert beyond_reach(small_job(), plan.sheets) == ()


def beyond_the_fence(length: F) -> Problem:
    """Two parts in a row, longer than the fence reaches, where the hand saw takes more than the table saw."""
    thick = Saw("hand saw", SawKind.HAND_SAW, F(1, 4), clean_up=F(1, 2))
    items = (Item("shelf", length, F(19), count=2), Item("strip", F(12), F(19)))
    return small_job(items=items, table_saw=replace(TABLE_SAW, reach=F(20)), hand_saw=thick)


def test_a_cut_by_hand_between_parts_takes_its_own_kerf_and_its_edge_is_cut_again() -> None:
    problem = beyond_the_fence(F(36))
    grid = grid_of(problem)
    layout = SheetLayout(0, Stack(True, (Leaf(0), Leaf(0), Leaf(1))))
    trimmed = draft_of(problem, grid, layout)
    assert [cut.purpose for cut in trimmed.cuts] == [Purpose.TRIM], "the near edge, once for all three"
    root = trimmed.children[-1]
    low = grid.bins[0].zones.left
    lengths = [cut.setting for cut in root.cuts if cut.purpose is Purpose.SIZE]
    assert lengths == [12 * 8, 36 * 8, 36 * 8], "what the fence reaches comes first"
    by_hand, again, last = root.cuts[-3:]
    assert by_hand.tool == last.tool == problem.hand_saw
    assert (again.purpose, again.setting) == (Purpose.TRIM, 4)
    assert by_hand.at == low + 96 + 1 + 288
    assert last.at == by_hand.at + 2 + 4 + 288
    plan = solve(problem)
    assert verify(problem, plan) == () and not plan.findings


def test_a_strip_is_cut_long_enough_for_the_cuts_by_hand_within_it() -> None:
    """The strip comes off a row with room to spare, on no more than its parts take at the table saw."""
    problem = beyond_the_fence(F(36))
    grid = grid_of(problem)
    row = Stack(True, (Leaf(0), Leaf(0)))
    layout = SheetLayout(0, Stack(True, (Stack(False, (row, row)), Leaf(1))))
    plan = sheet_plan(problem, grid, layout, 1)
    kerfs = problem.hand_saw.kerf + problem.hand_saw.clean_up if problem.hand_saw else F(0)
    assert max(cut.setting for cut in plan.cuts) == 36 + kerfs + 36
    assert beyond_reach(problem, [plan]) == ()


def test_of_plans_on_as_many_sheets_the_one_with_room_for_the_hand_saw_is_better() -> None:
    usable = SHEET.length - SHEET.trim.left - SHEET.trim.right
    problem = beyond_the_fence((usable - TABLE_SAW.kerf) / 2)
    grid = grid_of(problem)
    scorer = Scorer(problem, grid)
    tight = [SheetLayout(0, Stack(True, (Leaf(0), Leaf(0)))), SheetLayout(0, Leaf(1))]
    loose = [SheetLayout(0, Leaf(0)), SheetLayout(0, Stack(True, (Leaf(0), Leaf(1))))]
    assert [job_totals(scorer, layouts).no_room for layouts in (tight, loose)] == [1, 0]
    assert job_totals(scorer, loose).rank() < job_totals(scorer, tight).rank()


@pytest.mark.parametrize(("pattern", "trims"), [(PatternKind(), 2), (PatternKind(stages=3), 4)])
def test_an_edge_is_trimmed_once_before_the_strips_come_off_it(pattern: PatternKind, trims: int) -> None:
    """Where turns are limited, each of three strips is trimmed for itself."""
    problem = replace(small_job(), pattern=pattern)
    strip = Stack(True, (STRIP, STRIP))
    plan = sheet_plan(problem, grid_of(problem), SheetLayout(0, Stack(False, (strip, strip, strip))), 1)
    assert sum(cut.purpose is Purpose.TRIM for cut in plan.cuts) == trims


STRIPS = HandStack(False, (CarriedPiece(Stack(True, (SIDE, BOTTOM))), CarriedPiece(Stack(True, (SIDE,)))))


def whole_sheet_trims(reach: F | None) -> tuple[Problem, SheetPlan]:
    """A sheet parted by hand into two strips, each of which must lose its left edge."""
    saw = replace(TABLE_SAW, reach=reach)
    limits = Limits(max_length=F(96), max_weight=F(60))
    problem = replace(small_job(), hand_saw=HAND_SAW, table_saw=saw, limits=limits)
    return problem, sheet_plan(problem, grid_of(problem), SheetLayout(0, STRIPS), 1)


def test_a_sheet_is_trimmed_once_across_before_it_is_ripped_by_hand() -> None:
    problem, sheet = whole_sheet_trims(F(52))
    first, second = sheet.cuts[:2]
    assert (first.tool, first.purpose, first.order) == (HAND_SAW.name, Purpose.TRIM, 1)
    assert second.purpose is Purpose.CARRY and {piece.x for piece in sheet.carried} == {SHEET.trim.left}
    left = [cut for cut in sheet.cuts if cut.purpose is Purpose.TRIM and cut.direction is Direction.CROSSCUT]
    assert len(left) == 1
    assert not Scorer(problem, grid_of(problem))(SheetLayout(0, STRIPS)).over_limit


def test_what_the_fence_reaches_is_trimmed_at_the_table_saw_strip_by_strip() -> None:
    sheet = whole_sheet_trims(None)[1]
    left = [cut for cut in sheet.cuts if cut.purpose is Purpose.TRIM and cut.direction is Direction.CROSSCUT]
    assert [cut.tool for cut in left] == [TABLE_SAW.name] * 2 and sheet.cuts[0].purpose is Purpose.CARRY


@settings(max_examples=40, deadline=None)
@given(problems(carry=True))
def test_plans_with_sheets_trimmed_by_hand_hold_and_are_read_back(problem: Problem) -> None:
    problem = replace(problem, table_saw=replace(problem.table_saw, reach=F(52)))
    plan = solve(problem, MaxIterations(100))
    assert verify(problem, plan) == ()
    kept = kept_layouts(problem, grid_of(problem), plan)
    again = (sheet_plan(problem, grid_of(problem), one, at) for at, one in enumerate(kept.layouts, 1))
    assert tuple(again) == plan.sheets


def test_a_whole_sheet_trimmed_at_the_table_saw_is_carried_there() -> None:
    """The judge excuses the hand-held saw's trim alone."""
    problem, sheet = whole_sheet_trims(F(52))
    heavy = replace(problem, limits=Limits(max_weight=F(40)))
    plan = replace(solve(problem, MaxIterations(10)), sheets=(sheet,), findings=())
    assert not any(found.text.startswith("sheet at") for found in verify(heavy, plan))
    trim = replace(sheet.root.cuts[0], tool=TABLE_SAW.name, kerf=TABLE_SAW.kerf)
    carried = replace(sheet, root=replace(sheet.root, cuts=(trim,)))
    said = [
        found.text for found in verify(heavy, replace(plan, sheets=(carried,))) if found.code == "carried"
    ]
    assert any(text.startswith("sheet at 0, 0 weighs") for text in said)


def test_no_room_for_a_cut_by_hand_between_parts_is_said() -> None:
    """Two parts that fill a sheet to the table saw's kerf, which no fence here reaches."""
    usable = SHEET.length - SHEET.trim.left - SHEET.trim.right
    problem = beyond_the_fence((usable - TABLE_SAW.kerf) / 2)
    problem = replace(problem, items=problem.items[:1])
    row = sheet_plan(problem, grid_of(problem), SheetLayout(0, Stack(True, (Leaf(0), Leaf(0)))), 1)
    (finding,) = beyond_reach(problem, [row])
    assert finding.code == "fence-reach" and "no room for the kerf" in finding.text
    assert beyond_reach(replace(problem, hand_saw=None), [row]) == ()


def test_the_first_plan_fills_strips_of_falling_width() -> None:
    grid = grid_of(small_job())
    layouts, missing = fill_strips(grid, [4, 2, 4, 4], False)
    assert missing == [0, 0, 0, 0] and len(layouts) <= 3
    assert all(layout_fits(grid, layout) and count_stages(layout.root) <= 2 for layout in layouts)  # type: ignore[arg-type]


def test_the_plan_in_words_names_every_cut() -> None:
    problem = replace(small_job(), hand_saw=HAND_SAW, limits=Limits(max_length=F(64)))
    plan = solve(problem)
    words = plan_text(plan)
    assert plan.statement() in words
    assert words.count("hand saw") == sum(c.tool == "hand saw" for s in plan.sheets for c in s.cuts)
    for sheet in plan.sheets:
        assert all(f"{cut.order:3}." in words for cut in sheet.cuts)
    assert isinstance(CarriedPiece(SIDE).node, Leaf) and PieceRole.CARRIED in {
        p.role for p in plan.sheets[0].root.walk()
    }


def test_two_tools_may_have_two_kerfs() -> None:
    thick = Saw("hand saw", SawKind.HAND_SAW, F(1, 4), clean_up=F(1, 2))
    problem = replace(small_job(), hand_saw=thick, limits=Limits(max_length=F(64)))
    plan = solve(problem)
    assert verify(problem, plan) == ()
    assert {cut.kerf for sheet in plan.sheets for cut in sheet.cuts} == {F(1, 4), F(1, 8)}


def test_a_thin_hand_cut_makes_no_room_that_the_proof_does_not_know() -> None:
    """A track's kerf is thinner than the table saw's, with no clean-up: two halves that fit a sheet only so
    were one sheet fewer than was "proved" to be needed."""
    track = replace(HAND_SAW, kerf=F(0), clean_up=F(0))
    half = Item("half", F(48), F(47))
    sheet = Bin("birch", F(96), F(48), price=F(60), weight_per_area=F(70, 96 * 48))
    problem = Problem((replace(half, count=2),), (sheet,), TABLE_SAW, track, Limits(F(45), F(64)))
    plan = solve(problem, MaxIterations(300))
    assert verify(problem, plan) == ()
    assert plan.bound <= plan.figures.money and len(plan.sheets) == 2
