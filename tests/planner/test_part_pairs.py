"""Parts that need no setting of their own: pairs, and stacks left open."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.best_plan import BestPlan
from casewright.planner.engine import MaxIterations
from casewright.planner.first_phase.strip_fill import fill_strips
from casewright.planner.layout.cut_draft import layout_fits
from casewright.planner.layout.engine_bridge import engine_model, whole_sheet_rooms
from casewright.planner.layout.integer_grid import IntegerGrid, grid_of
from casewright.planner.layout.layout_tree import Leaf, SheetLayout, Stack, leaves, node_extent
from casewright.planner.layout.score import Scorer, job_totals
from casewright.planner.problem import Goal, Item, PatternKind, Problem
from casewright.planner.second_phase.part_pairs import (
    make_pair,
    pair_families,
    pair_settings,
    pair_up,
    parts_and_pairs,
)
from casewright.planner.second_phase.reshape import with_open_stacks
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from .shop import problems, small_job

SETTINGS_FIRST = (Goal.SHEET_MONEY, Goal.FENCE_SETTINGS, Goal.LEFTOVER_WORTH, Goal.CUTS)


def two_pairs() -> Problem:
    """Backs of one height, 30 + 12 and 24 + 18 wide: both pairs make one width."""
    widths = (30, 12, 24, 18)
    items = tuple(Item(f"back {width}", F(30), F(width), 1) for width in widths)
    return small_job(items=items, goals=SETTINGS_FIRST)


def loose_parts(grid: IntegerGrid) -> list[Leaf]:
    return [Leaf(index) for index, item in enumerate(grid.items) for _ in range(item.count)]


def judged(problem: Problem, layouts: list[SheetLayout], missing: list[int]) -> BestPlan:
    """The layouts as a plan that has passed the judge."""
    planner = BestPlan(problem, (), None)
    assert planner.offer_ready(layouts, missing)
    assert verify(problem, planner.plan()) == ()
    return planner


def test_two_pairs_of_one_sum_save_a_setting() -> None:
    """Cut one by one the four widths need four rips and a crosscut; off two pieces of one width,
    the piece's and one of each pair's."""
    problem = two_pairs()
    plan = solve(problem, MaxIterations(20_000))
    assert verify(problem, plan) == ()
    assert plan.figures.settings == 4


def test_no_pair_is_ripped_beyond_the_fence() -> None:
    """It would save a setting by one that the saw does not have."""
    grid = grid_of(two_pairs())
    loose = loose_parts(grid)
    wide = [family.whole * grid.step for family in pair_families(grid, loose) if not family.along_x]
    assert F("42.125") in wide
    reach = int(F(40) / grid.step)
    assert all(family.whole <= reach for family in pair_families(grid, loose, reach))


def test_a_pair_is_cut_on_two_settings_and_leaves_the_second_part() -> None:
    problem = two_pairs()
    grid = grid_of(problem)
    pair = make_pair(grid, False, Leaf(0), Leaf(1))
    score = Scorer(problem, grid)(SheetLayout(0, pair))
    rips = {distance * grid.step for crosscut, distance in score.settings if not crosscut}
    assert rips == {F(30), F("42.125")}
    assert [size * grid.step for _, size in pair_settings(pair, grid)] == [F("42.125"), F(30), F(12)]


def test_a_pair_stays_whole_between_its_neighbours() -> None:
    """A stack of one inside its like would be taken up, and its setting lost."""
    problem = two_pairs()
    grid = grid_of(problem)
    model = engine_model(
        grid,
        [0, 0, 1, 1],
        whole_sheet_rooms(grid),
        PatternKind(),
        blocks=[make_pair(grid, False, Leaf(0), Leaf(1))],
    )
    found, _ = model.attempt(F(60), 1000, 0, lambda: False)
    assert found is not None
    ((_, node),) = found
    assert Counter(leaf.item for leaf in leaves(node)) == Counter(range(4))
    assert [type(part) for part in parts_and_pairs(node, grid)].count(Stack) == 1


@settings(max_examples=60, deadline=None)
@given(problems())
def test_every_family_has_a_pair_for_each_copy_left_over(problem: Problem) -> None:
    grid = grid_of(problem)
    loose = loose_parts(grid)
    for family in pair_families(grid, loose):
        axis = 0 if family.along_x else 1
        for cut, left in family.pairs:
            assert cut != left and cut + grid.kerf + left == family.whole
        for pair in family.pairs:
            made = pair_up(grid, replace(family, pairs=(pair,)), loose)
            assert made is not None
            both = Counter(leaf for node in made for leaf in leaves(node))
            assert all(both[leaf] <= grid.items[leaf.item].count for leaf in both)
            of_size = sum(node_extent(leaf, grid)[axis] == pair[1] for leaf in loose)
            assert len(made) == of_size
            assert {pair_settings(node, grid)[0] for node in made} == {(family.along_x, family.whole)}


@settings(max_examples=60, deadline=None)
@given(problems(), st.data())
def test_pairs_in_a_plan_are_sound_and_save_what_they_say(problem: Problem, data: st.DataObject) -> None:
    """A sheet with a pair and no other part: the judge passes it, and the part left over has no
    setting where no other part has its size."""
    grid = grid_of(problem)
    found = pair_families(grid, loose_parts(grid))
    if not found:
        return
    family = data.draw(st.sampled_from(found))
    made = pair_up(grid, replace(family, pairs=family.pairs[:1]), loose_parts(grid))
    assert made is not None
    layout = SheetLayout(0, made[0])
    if not layout_fits(grid, layout):
        return
    assert [*parts_and_pairs(layout.root, grid)] == [made[0]]
    missing = [item.count for item in grid.items]
    for leaf in leaves(made[0]):
        missing[leaf.item] -= 1
    planner = judged(problem, [layout], missing)
    across = 1 if family.along_x else 0
    wide = {node_extent(leaf, grid)[across] for leaf in leaves(made[0])}
    now = Scorer(problem, grid)(planner.layouts[0]).settings
    along = {size for crosscut, size in now if crosscut is family.along_x}
    assert len(along) <= 2 and family.pairs[0][1] not in along - wide


@settings(max_examples=60, deadline=None)
@given(problems())
def test_stacks_left_open_are_sound_and_need_no_more_settings(problem: Problem) -> None:
    """The first plan with every stack left open: the judge passes it; the settings it had for
    whole stacks are gone, and only the parts' own have come."""
    grid = grid_of(problem)
    wanted = frozenset(
        (crosscut, size)
        for item in grid.items
        for turned in (False, True)
        for crosscut, size in zip((True, False), item.size(turned), strict=True)
    )
    layouts, missing = fill_strips(grid, [item.count for item in grid.items], False)
    left_open = [replace(layout, root=with_open_stacks(layout.root, grid, wanted)) for layout in layouts]
    for before, after in zip(layouts, left_open, strict=True):
        assert sorted(map(str, leaves(before.root))) == sorted(map(str, leaves(after.root)))
    judged(problem, left_open, missing)
    had, has = (job_totals(Scorer(problem, grid), which).settings for which in (layouts, left_open))
    assert {setting for setting in has if setting not in had} <= wanted


def test_the_last_piece_of_an_open_stack_is_not_cut_off() -> None:
    """Two blocks side by side, neither of them as wide as any part: only the first one's width
    needs a setting."""
    items = tuple(Item(name, F(x), F(20), 1) for name, x in (("a", 10), ("b", 11), ("c", 12), ("d", 13)))
    problem = small_job(items=items)
    grid = grid_of(problem)
    row = [Stack(True, (Leaf(first), Leaf(second))) for first, second in ((0, 1), (2, 3))]
    blocks = tuple(Stack(False, (pair,)) for pair in row)
    scorer = Scorer(problem, grid)

    def crosscuts(root: Stack) -> set[F]:
        return {size * grid.step for crosscut, size in scorer(SheetLayout(0, root)).settings if crosscut}

    assert crosscuts(Stack(True, blocks)) == {F(10), F(12), F("21.125"), F("25.125")}
    assert crosscuts(Stack(True, blocks, open=True)) == {F(10), F(12), F(13), F("21.125")}
    judged(problem, [SheetLayout(0, Stack(True, blocks, open=True))], [0, 0, 0, 0])
