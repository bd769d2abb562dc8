"""The state of the shop follows from its events alone, in whatever order they come."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.findings import Weight
from casewright.lengths.length import Mark
from casewright.record import events as e
from casewright.record.events import Event
from casewright.record.fold import fold
from casewright.record.shop_state import State, Status
from casewright.workshop.operations import OperationKind
from record.happenings import PARTS, REACH, WORK, records


def after(*what: e.Happening | tuple[str, e.Happening]) -> State:
    """The state after these, one after another; a pair names the bench."""
    record = []
    for number, each in enumerate(what, 1):
        bench, happening = each if isinstance(each, tuple) else ("saw", each)
        record.append(Event(f"e{number}", bench, number, happening))
    return fold(record, PARTS, WORK, REACH)


def codes(state: State) -> list[str]:
    return [finding.code for finding in state.findings]


SHEET = e.Done(("ply 1 cut 1", "ply 1 cut 2", "ply 1 cut 3"))


def test_a_part_goes_from_sheet_to_case() -> None:
    steps: list[e.Happening] = []
    seen = []
    for step in (
        e.Done(("ply 1 cut 1",)),
        e.Done(("ply 1 cut 2",)),
        e.Done(("B1-L dado-bottom",)),
        e.Assembled("B1", ("B1-L",)),
    ):
        steps.append(step)
        seen.append(after(*steps).status("B1-L"))
    assert seen == [Status.TO_CUT, Status.IN_HAND, Status.CUT, Status.ASSEMBLED]
    assert not after(*steps).findings


@given(records(), st.randoms(use_true_random=False))
def test_the_order_of_arrival_changes_nothing(record: list[Event], shuffle: object) -> None:
    state = fold(record, PARTS, WORK, REACH)
    mixed = list(record)
    shuffle.shuffle(mixed)  # type: ignore[attr-defined]
    assert fold(mixed, PARTS, WORK, REACH) == state


@given(records(), st.data())
def test_an_event_heard_twice_counts_once(record: list[Event], data: st.DataObject) -> None:
    again = data.draw(st.lists(st.sampled_from(record), max_size=6)) if record else []
    assert fold([*again, *record, *again], PARTS, WORK, REACH) == fold(record, PARTS, WORK, REACH)


@given(records())
def test_an_undone_event_is_as_if_it_had_not_happened(record: list[Event]) -> None:
    last = max((event.seq for event in record), default=0)
    undo = [Event(f"u{event.id}", "office", last + 1, e.Undo(event.id)) for event in record]
    state = fold([*record, *undo], PARTS, WORK, REACH)
    nothing = fold([], PARTS, WORK, REACH)
    assert (state.parts, state.ticks, state.readings) == (nothing.parts, nothing.ticks, nothing.readings)
    assert {event.id for event in record} <= state.undone


def test_undo_brings_back_what_was_undone() -> None:
    assert after(SHEET, e.Undo("e1")).ticks == {}
    assert set(after(SHEET, e.Undo("e1"), e.Undo("e2")).ticks) == set(SHEET.steps)
    assert after(SHEET, e.Undo("e1"), e.Undo("e2"), e.Undo("e3")).ticks == {}


def test_an_undo_heard_before_its_event_still_counts() -> None:
    undo = Event("u", "tablet", 5, e.Undo("late"))
    alone = fold([undo], PARTS, WORK)
    assert codes(alone) == ["undo-of-nothing"]
    late = Event("late", "saw", 2, SHEET)
    assert fold([undo, late], PARTS, WORK).ticks == {}


def test_an_undo_cannot_come_before_what_it_undoes() -> None:
    state = after(e.Undo("e2"), SHEET, e.Undo("e3"))
    assert codes(state) == ["undo-too-early", "undo-too-early"]
    assert set(state.ticks) == set(SHEET.steps)


def test_a_dry_fit_ticked_at_two_benches_is_told_and_counts_once() -> None:
    state = after(("saw", e.Done(("B1 dry fit",))), ("tablet", e.Done(("B1 dry fit",))))
    assert state.ticks["B1 dry fit"].bench == "saw"
    (twice,) = (finding for finding in state.findings if finding.code == "cut-twice")
    assert twice.place == "B1 dry fit" and "undo the tick" in twice.fix


def test_a_long_toggle_of_one_tick_is_followed_to_its_end() -> None:
    toggles = [e.Undo(f"e{number}") for number in range(1, 3001)]
    assert set(after(SHEET, *toggles).ticks) == set(SHEET.steps)


def test_two_events_under_one_id_are_named_and_neither_bench_is_guessed() -> None:
    state = fold([Event("e1", "saw", 1, SHEET), Event("e1", "bench", 2, e.Lost("x"))], PARTS, WORK)
    assert codes(state) == ["id-twice"]
    assert set(state.ticks) == set(SHEET.steps)


def test_every_reading_is_kept_and_the_latest_is_the_fact() -> None:
    state = after(
        e.Measured("B1-L.length", F(30), "rule"),
        ("bench", e.Measured("B1-L.length", F(961, 32), "caliper")),
    )
    assert [reading.value for reading in state.readings["B1-L.length"]] == [F(30), F(961, 32)]
    assert state.readings["B1-L.length"][1].tool == "caliper"
    assert state.facts() == {"B1-L.length": F(961, 32)}


MISFITS = [
    ("out-of-order", (e.Done(("B1-L dado-bottom",)),)),
    ("tick-for-spoiled", (SHEET, e.Spoiled("B1-L", "bored as a right"), e.Done(("B1-L dado-bottom",)))),
    ("cut-twice", (SHEET, ("bench", e.Done(("ply 1 cut 2",))))),
    ("held-elsewhere", (SHEET, e.Claimed(("B1-L",)), ("bench", e.Done(("B1-L dado-bottom",))))),
    ("claimed-twice", (e.Claimed(("B1-L",)), ("bench", e.Claimed(("B1-L",))))),
    ("beyond-the-rail", (e.SettingMade("B1-L dado-bottom", F(60)),)),
    ("no-such-part", (e.Spoiled("B9-X"),)),
    ("no-such-step", (e.Done(("B9-X rip",)),)),
    ("assembled-spoiled", (SHEET, e.Spoiled("B1-L"), e.Assembled("B1", ("B1-L",)))),
    ("assembled-early", (SHEET, e.Assembled("B1", ("B1-L",)))),
]


@pytest.mark.parametrize(("rule", "said"), [(Mark.SIXTEENTH, '60"'), (Mark.MILLIMETRE, "1524 mm")])
def test_a_fence_beyond_its_rail_is_said_on_the_shops_own_rule(rule: Mark, said: str) -> None:
    """A shop in millimetres was told of inches."""
    record = [Event("e1", "saw", 1, e.SettingMade("B1-L dado-bottom", F(60)))]
    (finding,) = fold(record, PARTS, WORK, REACH, rule).findings
    assert f"to {said}," in finding.text


@pytest.mark.parametrize(("code", "what"), MISFITS, ids=[code for code, _ in MISFITS])
def test_what_does_not_fit_is_said_once_and_stops_nothing(code: str, what: tuple[e.Happening, ...]) -> None:
    state = after(*what, e.Measured("B1-B.length", F(1)))
    assert codes(state) == [code]
    (finding,) = state.findings
    assert finding.text.endswith(".") and finding.fix and finding.weight is Weight.WARN
    assert state.facts() == {"B1-B.length": F(1)}


def test_a_tick_out_of_order_still_counts() -> None:
    assert after(e.Done(("B1-L dado-bottom",))).status("B1-L") is Status.IN_HAND


def test_a_sheet_cut_counts_for_the_parts_that_are_still_good() -> None:
    state = after(e.Spoiled("B1-L"), SHEET)
    assert state.status("B1-R") is Status.IN_HAND
    assert "ply 1 cut 1" in state.ticks and "ply 1 cut 2" not in state.ticks


def test_a_spoiled_part_that_was_good_after_all_keeps_its_ticks() -> None:
    state = after(SHEET, e.Spoiled("B1-L"), e.Done(("B1-L dado-bottom",)), e.Undo("e2"))
    assert state.status("B1-L") is Status.CUT and not state.findings


def test_a_part_made_again_starts_from_nothing_and_its_mates_do_not() -> None:
    state = after(
        SHEET,
        e.Done(("B1-L dado-bottom", "B1-R dado-bottom")),
        e.Spoiled("B1-L", "an inch short"),
        e.Decided("cut it again from the rack", again=("B1-L",)),
    )
    assert state.status("B1-R") is Status.CUT
    assert state.status("B1-L") is Status.TO_CUT and state.parts["B1-L"].begun_again == 1
    again = after(SHEET, e.Spoiled("B1-L"), e.Decided("again", again=("B1-L",)), e.Done(("ply 1 cut 2",)))
    assert again.status("B1-L") is Status.IN_HAND and not again.findings


def test_a_decision_gives_parts_up_changes_inputs_and_can_be_undone() -> None:
    decided = e.Decided("narrower by an inch", (("B1.width", F(35)),), given_up=("B1-B",))
    state = after(decided)
    assert state.inputs() == {"B1.width": F(35)} and state.status("B1-B") is Status.GIVEN_UP
    undone = after(decided, e.Undo("e1"))
    assert undone.inputs() == {} and undone.status("B1-B") is Status.TO_CUT


def test_steps_of_a_plan_that_was_replaced_are_not_complained_of() -> None:
    assert codes(after(e.Done(("old sheet cut 9",)))) == ["no-such-step"]
    assert codes(after(e.Done(("old sheet cut 9",)), e.Decided("a new plan"))) == []


def test_offcuts_and_sheets_come_and_go() -> None:
    found = e.FoundOffcut("behind the door", "ply", F(30), F(12))
    state = after(found, e.Stocked("ply", 4), e.Stocked("ply", 2))
    assert state.offcuts == (found,) and state.sheets == {"ply": 2}
    assert after(found, e.Lost("behind the door")).offcuts == ()
    assert after(e.Lost("B1-L")).status("B1-L") is Status.LOST


def test_a_glue_up_ticked_puts_its_parts_into_the_case_and_undone_takes_them_out() -> None:
    join = replace(WORK[0], key="B1 shell", kind=OperationKind.JOIN, piece="B1", parts=PARTS[:2], after=())
    steps = [step.key for step in WORK]
    record = [
        Event("e1", "saw", 1, e.Done(tuple(steps))),
        Event("e2", "bench", 2, e.Done(("B1 shell",))),
    ]
    state = fold(record, PARTS, (*WORK, join))
    assert state.with_status(Status.ASSEMBLED) == PARTS[:2] and not state.findings
    undone = fold([*record, Event("e3", "bench", 3, e.Undo("e2"))], PARTS, (*WORK, join))
    assert undone.with_status(Status.ASSEMBLED) == ()
    spoiled = [Event("e0", "saw", 1, e.Spoiled("B1-L")), *record]
    assert codes(fold(spoiled, PARTS, (*WORK, join)))[-1] == "assembled-spoiled"


def test_of_many_open_steps_three_are_named_and_the_rest_counted() -> None:
    from casewright.record.record_wording import assembled_early

    event = Event("e1", "saw", 1, e.Assembled("B1", ("B1-L",)))
    told = [assembled_early(event, event.what, "B1-L", steps).text for steps in ("abc", "abcde")]  # type: ignore[arg-type]
    assert told[0].endswith("before a, b and c.")
    assert told[1].endswith("before a, b, c and 2 more.")


def test_the_last_tap_of_a_joint_counts_and_can_be_undone() -> None:
    taps = [
        Event("a", "bench", 1, e.DryFitted("B1: back", "eased")),
        Event("b", "bench", 2, e.DryFitted("B1: back", "by hand")),
        Event("c", "bench", 3, e.DryFitted("B1: bottom", "clamp")),
    ]
    assert fold(taps, PARTS, WORK).dry_fits == {"B1: back": "by hand", "B1: bottom": "clamp"}
    undone = fold([*taps, Event("d", "bench", 4, e.Undo("b"))], PARTS, WORK)
    assert undone.dry_fits == {"B1: back": "eased", "B1: bottom": "clamp"}
