"""The order of the work, against trying every order of small jobs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from itertools import groupby

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.workshop.freed_pieces import StackedPiece
from casewright.workshop.operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting
from casewright.workshop.order.batches import WorkOrder, order
from casewright.workshop.order.turn_search import Costs

COSTS = Costs(2, 8)
HOLD = Hold("edge", "face", "end", True)
SIZE = (F(30), F(20), F(3, 4))
BLADE, STACK, BIT = Cutter("blade", F(1, 8)), Cutter("stack", F(3, 4)), Cutter("bit", F(1, 4))


WIDER = Cutter("wider stack", F(7, 8))


def operation(
    key: str,
    machine: Machine,
    cutter: Cutter,
    distance: int,
    after: tuple[str, ...],
    guide: Guide = Guide.FENCE,
) -> Operation:
    setting = Setting(machine, cutter, guide, F(distance))
    return Operation(key, OperationKind.RIP, key, (key,), setting, HOLD, SIZE, F(1), after)


@st.composite
def jobs(draw: st.DrawFn, most: int = 9) -> tuple[Operation, ...]:
    """Operations at two machines and by hand, each waiting for some of the earlier ones."""
    made: list[Operation] = []
    for number in range(draw(st.integers(1, most))):
        machine, cutter = draw(
            st.sampled_from(
                [
                    (Machine.TABLE_SAW, BLADE),
                    (Machine.TABLE_SAW, BLADE),
                    (Machine.TABLE_SAW, STACK),
                    (Machine.DRILL, BIT),
                    (Machine.HAND_SAW, BLADE),
                ]
            )
        )
        after = draw(st.lists(st.sampled_from(made), max_size=2, unique=True)) if made else []
        keys = tuple(other.key for other in after)
        guides = [Guide.FENCE, Guide.SACRIFICIAL_FENCE] if cutter is STACK else [Guide.FENCE]
        distance, guide = draw(st.integers(1, 3)), draw(st.sampled_from(guides))
        made.append(operation(f"op {number}", machine, cutter, distance, keys, guide))
    return tuple(made)


def cost_of(sequence: list[Operation]) -> int:
    """What changes cost when operations are done one after another, each machine on its own."""
    stands: dict[Machine, Setting] = {}
    cost = 0
    for each in sequence:
        setting = each.setting
        if setting.machine in (Machine.HAND_SAW, Machine.BENCH):
            continue
        before = stands.get(setting.machine)
        if before != setting:
            cost += COSTS.change
            if before is None or before.cutter != setting.cutter:
                cost += COSTS.tool_change
        stands[setting.machine] = setting
    return cost


def least_of_every_order(work: tuple[Operation, ...]) -> int:
    """By trying every order, operation by operation, with none of the search's shortcuts."""
    by_key = {each.key: each for each in work}

    @cache
    def least(done: frozenset[str], saw: Setting | None, drill: Setting | None) -> int:
        if len(done) == len(work):
            return 0
        found = []
        for key, each in by_key.items():
            if key in done or not done.issuperset(each.after):
                continue
            setting = each.setting
            if setting.machine is Machine.HAND_SAW:
                found.append(least(done | {key}, saw, drill))
                continue
            before = saw if setting.machine is Machine.TABLE_SAW else drill
            cost = 0
            if before != setting:
                cost = COSTS.change
                if before is None or before.cutter != setting.cutter:
                    cost += COSTS.tool_change
            if setting.machine is Machine.TABLE_SAW:
                found.append(cost + least(done | {key}, setting, drill))
            else:
                found.append(cost + least(done | {key}, saw, setting))
        return min(found)

    return least(frozenset(), None, None)


def flat(ordered: WorkOrder) -> list[Operation]:
    return [each for batch in ordered.batches for each in batch.operations]


@settings(deadline=None, max_examples=300)
@given(jobs())
def test_no_order_at_all_has_fewer_changes(work: tuple[Operation, ...]) -> None:
    ordered = order(work, COSTS)
    assert ordered.proved
    assert ordered.minutes == least_of_every_order(work) == cost_of(flat(ordered))


@settings(deadline=None, max_examples=60)
@given(jobs(most=40))
def test_every_operation_once_after_what_it_waits_for_and_the_count_is_true(
    work: tuple[Operation, ...],
) -> None:
    ordered = order(work, COSTS, prove=50, beam=2)
    sequence = flat(ordered)
    assert sorted(each.key for each in sequence) == sorted(each.key for each in work)
    seen: set[str] = set()
    for each in sequence:
        assert seen.issuperset(each.after)
        seen.add(each.key)
    assert ordered.bound <= ordered.minutes == cost_of(sequence)
    assert ordered.minutes == COSTS.change * ordered.settings + COSTS.tool_change * ordered.cutters
    for batch in ordered.batches:
        if batch.setting is not None:
            assert {each.setting for each in batch.operations} == {batch.setting}


@settings(deadline=None, max_examples=60)
@given(jobs())
def test_the_bound_without_any_search_holds(work: tuple[Operation, ...]) -> None:
    assert order(work, COSTS, prove=0, beam=1).bound <= least_of_every_order(work)


def test_a_circle_of_settings_is_seen_by_the_bound_alone() -> None:
    """Two pieces go through the same two settings in opposite order: three entries, not two."""
    work = (
        operation("a1", Machine.TABLE_SAW, BLADE, 1, ()),
        operation("a2", Machine.TABLE_SAW, BLADE, 2, ("a1",)),
        operation("b2", Machine.TABLE_SAW, BLADE, 2, ()),
        operation("b1", Machine.TABLE_SAW, BLADE, 1, ("b2",)),
    )
    ordered = order(work, COSTS, prove=0, beam=4)
    assert (ordered.settings, ordered.minutes, ordered.bound) == (3, 14, 14)
    assert ordered.statement().endswith("no order of this work spends less time on changes.")


def test_the_drill_breaks_no_setting_of_the_saw() -> None:
    work = (
        operation("rip", Machine.TABLE_SAW, BLADE, 1, ()),
        operation("bore", Machine.DRILL, BIT, 1, ("rip",)),
        operation("rip again", Machine.TABLE_SAW, BLADE, 1, ("bore",)),
    )
    assert order(work, COSTS).settings == 2


def test_a_saw_may_wait_for_the_drill_rather_than_leave_its_fence() -> None:
    """Found by trying every order: a setting that could be finished was taken at once, though the saw
    had more to do where it stood as soon as a hole was bored. Three settings, not four."""
    work = (
        operation("cut", Machine.TABLE_SAW, BLADE, 3, ()),
        operation("bore", Machine.DRILL, BIT, 1, ("cut",)),
        operation("other", Machine.TABLE_SAW, BLADE, 1, ()),
        operation("cut again", Machine.TABLE_SAW, BLADE, 3, ("bore",)),
    )
    ordered = order(work, COSTS)
    assert ordered.settings == 3 and ordered.minutes == least_of_every_order(work)


def times_the_fence_is_put_on(ordered: WorkOrder) -> int:
    at_the_saw = [
        batch.setting.guide for batch in ordered.batches if batch.setting and batch.setting.cutter is not BIT
    ]
    return sum(guide is Guide.SACRIFICIAL_FENCE for guide, _ in groupby(at_the_saw))


def test_the_sacrificial_fence_stays_on_for_the_rabbets_of_both_stacks() -> None:
    """Regression: a dado between two rabbets took the fence off and put it on again. No setting is lost."""
    fence = Guide.SACRIFICIAL_FENCE
    saw = Machine.TABLE_SAW
    work = (
        operation("rear rabbet", saw, STACK, 0, (), fence),
        operation("bottom's dado", saw, STACK, 4, ()),
        operation("bore", Machine.DRILL, BIT, 1, ("rear rabbet",)),
        operation("shelf's dado", saw, WIDER, 9, ("bottom's dado",)),
        operation("top's rabbet", saw, WIDER, 0, ("bottom's dado",), fence),
        operation("divider's dado", saw, WIDER, 12, ("bottom's dado",)),
    )
    ordered = order(work, COSTS)
    assert times_the_fence_is_put_on(ordered) == 1
    assert ordered.minutes == least_of_every_order(work) == 3 * COSTS.tool_change + 6 * COSTS.change


def test_a_rabbet_that_a_dado_waits_for_is_not_put_off() -> None:
    fence = Guide.SACRIFICIAL_FENCE
    saw = Machine.TABLE_SAW
    work = (
        operation("rabbet", saw, STACK, 0, (), fence),
        operation("dado", saw, STACK, 4, ("rabbet",)),
        operation("rabbet again", saw, STACK, 1, ("dado",), fence),
    )
    ordered = order(work, COSTS)
    assert [each.key for each in flat(ordered)] == ["rabbet", "dado", "rabbet again"]
    assert times_the_fence_is_put_on(ordered) == 2


def test_work_that_waits_for_itself_is_refused() -> None:
    work = (
        operation("a", Machine.TABLE_SAW, BLADE, 1, ("b",)),
        operation("b", Machine.TABLE_SAW, BLADE, 2, ("a",)),
    )
    with pytest.raises(ValueError, match="cycle"):
        order(work)


def test_the_same_work_gives_the_same_order() -> None:
    work = tuple(operation(f"{n}", Machine.TABLE_SAW, BLADE, n % 7, (f"{n - 3}",)) for n in range(30))
    assert order(work) == order(work)


def by_hand(key: str, kind: OperationKind, makes: int, after: tuple[str, ...] = ()) -> Operation:
    plain = operation(key, Machine.HAND_SAW, BLADE, 0, after)
    return replace(plain, kind=kind, makes=F(makes))


def test_by_hand_a_sheet_is_cut_up_before_the_next_and_equal_lengths_follow_each_other() -> None:
    """The title of a batch names one length, so that all of its cuts are to that length."""
    work = (
        by_hand("sheet 1 cut 1", OperationKind.CARRY, 60),
        by_hand("sheet 1 cut 2", OperationKind.CARRY, 30, ("sheet 1 cut 1",)),
        by_hand("left", OperationKind.CROSSCUT, 50, ("sheet 1 cut 2",)),
        by_hand("sheet 2 cut 1", OperationKind.CARRY, 60),
        by_hand("shelf", OperationKind.CROSSCUT, 40, ("sheet 2 cut 1",)),
        by_hand("right", OperationKind.CROSSCUT, 50, ("sheet 2 cut 1",)),
    )
    batches = [[each.key for each in batch.operations] for batch in order(work).batches]
    assert batches == [
        ["sheet 1 cut 1", "sheet 1 cut 2", "sheet 2 cut 1"],
        ["shelf"],
        ["left", "right"],
    ]


def test_a_sheet_is_trimmed_and_parted_before_the_next_is_laid_out() -> None:
    """What comes back from the table saw is trimmed in a step of its own."""
    trim, carry = OperationKind.TRIM, OperationKind.CARRY
    sheets = [
        by_hand("trim 1", trim, 95), by_hand("part 1", carry, 24, ("trim 1",)),
        by_hand("trim 2", trim, 95), by_hand("part 2", carry, 24, ("trim 2",)),
    ]  # fmt: skip
    back = StackedPiece("ply", 1, F(0), F(0), F(30), F(20), "part 1", "left", 1, "A")
    again = replace(by_hand("trim 1A", trim, 60, ("part 1",)), carried=back)
    first, second = order([*sheets, again]).batches
    assert [one.key for one in first.operations] == ["trim 1", "part 1", "trim 2", "part 2"]
    assert [one.key for one in second.operations] == ["trim 1A"]


def test_no_setting_is_made_before_anything_can_be_done_on_it() -> None:
    """Bringing the rabbets together would set the drill up for a hole whose channel is still to be cut."""
    fence, own = Guide.FENCE, Guide.SACRIFICIAL_FENCE
    work = (
        operation("first", Machine.TABLE_SAW, BLADE, 1, (), fence),
        operation("rabbet", Machine.TABLE_SAW, STACK, 1, (), own),
        operation("dado", Machine.TABLE_SAW, STACK, 1, (), fence),
        operation("last", Machine.TABLE_SAW, BLADE, 1, ("first", "dado"), fence),
        operation("hole", Machine.DRILL, BIT, 1, ("rabbet",), fence),
        operation("other rabbet", Machine.TABLE_SAW, STACK, 2, ("first",), own),
    )
    ordered = order(work, COSTS, prove=50, beam=2)
    assert ordered.minutes == COSTS.change * ordered.settings + COSTS.tool_change * ordered.cutters
