"""Every kind of event from two benches, in every order of arrival, undone and done again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction as F
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.record import events as e
from casewright.record.event_json import KINDS
from casewright.record.events import Event
from casewright.record.fold import _Folding, begin_fold, fold
from casewright.record.shop_state import State
from casewright.workshop.operations import OperationKind
from record.happenings import PARTS, REACH, WORK, records

JOIN = replace(
    WORK[0], key="B1 shell", kind=OperationKind.JOIN, piece="B1", parts=PARTS[:2], after=("B1 dry fit",)
)
STEPS = (*WORK, JOIN)
BY_KEY = {step.key: step for step in STEPS}

ONE_OF_EACH: tuple[e.Happening, ...] = (
    e.Claimed(PARTS),
    e.Released(PARTS),
    e.SettingMade("B1-B rip", F(60)),
    e.Done(tuple(BY_KEY)),
    e.Measured("B1-L.length", F(30), "rule"),
    e.Spoiled(
        "B1-L",
        "bored from the wrong edge",
        (e.RecordedHarm("edge", "pins"), e.RecordedHarm("damage", side="up", long=F(2), deep=F(1, 4))),
    ),
    e.Assembled("B1", PARTS),
    e.FoundOffcut("offcut 1", "ply", F(30), F(20)),
    e.Flawed("ply", 1, F(30), F(20), F(4), F(3)),
    e.Lost("B1-R"),
    e.Stocked("ply", 3),
    e.TimeTaken(("B1-B rip",), 4.0),
    e.Decided("narrower", (("B1.width", F(24)),), ("B1-L",), ("B1-B",), ("B1-R dado-bottom",)),
    e.Tested("strip 1", F(2), F(2)),
    e.DryFitted("B1: B1-K in the groove of B1-R", "clamp"),
    e.Undo("start"),
)


def state_of(events: Iterable[Event]) -> State:
    return fold(events, PARTS, STEPS, REACH)


def test_there_is_one_of_each_kind() -> None:
    assert {type(what) for what in ONE_OF_EACH} == set(KINDS.values())


@pytest.mark.parametrize("what", ONE_OF_EACH, ids=lambda what: type(what).__name__)
def test_each_kind_from_two_benches_arrives_in_any_order(what: e.Happening) -> None:
    """The event, the same from another bench, an undo of the first, and an undo of that undo."""
    start = Event("start", "saw", 1, e.Done(("ply 1 cut 1",)))
    story = (
        Event("a", "saw", 2, what),
        Event("b", "tablet", 2, what),
        Event("c", "bench", 3, e.Undo("a")),
        Event("d", "tablet", 4, e.Undo("c")),
    )
    told = state_of([start, *story])
    for arrival in permutations(story):
        for so_far in range(len(arrival)):
            state_of([*arrival[:so_far], start])
        assert state_of([*arrival, start]) == told
    undone_twice = replace(state_of([start, *story[:2]]), last_seq=4, undone=told.undone)
    assert told == undone_twice and told.undone >= {"c"}


def twins(record: Sequence[Event]) -> list[Event]:
    """Each event again under another id at another bench, as when two hands note one thing."""
    return [replace(event, id=f"{event.id}'", bench=f"{event.bench} 2") for event in record]


@given(records(), st.randoms(use_true_random=False))
def test_everything_noted_at_two_benches_reads_the_same_in_any_order(
    record: list[Event], shuffle: object
) -> None:
    both = [*record, *twins(record)]
    mixed = list(both)
    shuffle.shuffle(mixed)  # type: ignore[attr-defined]
    assert state_of(mixed) == state_of(both)


@settings(max_examples=200)
@given(records())
def test_the_ticks_are_those_of_a_small_model(record: list[Event]) -> None:
    both = [*record, *twins(record)]
    state = state_of(both)
    ticks, undone = model(both)
    assert {key: (tick.bench, tick.event) for key, tick in state.ticks.items()} == ticks
    assert state.undone == undone


def model(events: Sequence[Event]) -> tuple[dict[str, tuple[str, str]], set[str]]:
    """Who ticked each step, and what is undone, told anew for every event from all events before it."""
    ordered = sorted(events, key=lambda event: (event.seq, event.bench, event.id))

    def stands(at: int) -> bool:
        later = range(at + 1, len(ordered))
        return not any(ordered[n].what == e.Undo(ordered[at].id) and stands(n) for n in later)

    counting = [event for at, event in enumerate(ordered) if stands(at)]
    ticks: dict[str, tuple[str, str]] = {}
    for at, event in enumerate(counting):
        if isinstance(event.what, e.Decided):
            for key in [key for key in ticks if BY_KEY[key].parts in [(m,) for m in event.what.again]]:
                if BY_KEY[key].kind is not OperationKind.JOIN:
                    del ticks[key]
            for key in event.what.not_done:
                ticks.pop(key, None)
        for key in event.what.steps if isinstance(event.what, e.Done) else ():
            step = BY_KEY.get(key)
            if step is None or key in ticks:
                continue
            of_no_use = step.parts and all(spoiled(mark, counting[:at]) for mark in step.parts)
            if not of_no_use or step.kind is OperationKind.JOIN:
                ticks[key] = (event.bench, event.id)
    return ticks, {event.id for event in ordered} - {event.id for event in counting}


def spoiled(mark: str, before: Sequence[Event]) -> bool:
    """Whether the last word on a part was that it is spoiled or lost."""
    last = False
    for event in before:
        what = event.what
        if (isinstance(what, e.Spoiled) and what.part == mark) or (
            isinstance(what, e.Lost) and what.name == mark
        ):
            last = True
        if isinstance(what, e.Decided) and mark in what.again:
            last = False
    return last


@given(records(), st.data())
def test_events_added_as_they_come_give_the_state_of_all_at_once(
    record: list[Event], data: st.DataObject
) -> None:
    both = data.draw(st.permutations([*record, *twins(record)]))
    so_far = begin_fold(PARTS, STEPS, REACH)
    for heard in sorted(data.draw(st.lists(st.integers(0, len(both)), max_size=4))):
        so_far = so_far.on(both[:heard])
        assert so_far.state == state_of(both[:heard])
    assert so_far.on(both).state == state_of(both)


def test_an_event_that_follows_all_others_is_folded_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    record = [Event(f"e{n}", "saw", n, e.Done(("B1-B rip",))) for n in range(1, 3_001)]
    so_far = begin_fold(PARTS, STEPS, REACH).on(record)
    taken: list[str] = []
    take = _Folding.take

    def counting(folding: _Folding, event: Event) -> None:
        taken.append(event.id)
        take(folding, event)

    monkeypatch.setattr(_Folding, "take", counting)
    late = Event("late", "tablet", 3_001, e.Lost("B1-R"))
    assert so_far.on([*record, late]).state == state_of([*record, late])
    assert taken[0] == "late" and taken.count("late") == 2 and len(taken) == 3_002


def test_an_unreadable_entry_is_left_out_by_an_undo_and_taken_back_by_another() -> None:
    start = begin_fold(PARTS, STEPS, REACH, unreadable=("odd",))
    out = Event("u", "office", 1, e.Undo("odd"))
    left = start.on([out]).state
    assert left.undone == {"odd"} and not left.findings
    back = start.on([out, Event("v", "office", 2, e.Undo("u"))]).state
    assert back.undone == {"u"} and not back.findings


def test_an_id_that_was_heard_of_before_is_not_simply_added() -> None:
    undo = Event("u", "saw", 1, e.Undo("late"))
    late = Event("late", "saw", 2, e.Lost("B1-R"))
    other = Event("late", "tablet", 3, e.Lost("B1-L"))
    so_far = begin_fold(PARTS, STEPS, REACH).on([undo])
    assert [finding.code for finding in so_far.state.findings] == ["undo-of-nothing"]
    so_far = so_far.on([undo, late])
    assert [finding.code for finding in so_far.state.findings] == ["undo-too-early"]
    assert so_far.on([undo, late, other]).state == state_of([undo, late, other])
    assert "id-twice" in [finding.code for finding in so_far.on([undo, late, other]).state.findings]
