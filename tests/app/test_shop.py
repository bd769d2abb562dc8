"""Work is handed out once, heard by every bench alike, and nothing sent is lost or counted twice."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs, OpenedRevision
from casewright.app.jobs.worked_job import open_job
from casewright.app.shop.receiving import Receipt, receive
from casewright.app.shop.shop_floor import BenchRecord, hand_out, read_record
from casewright.app.shop.shop_work import pace_of, work_json
from casewright.app.shop.state_format import state_json
from casewright.app.shop.step_list import steps_json, steps_words
from casewright.errors import JobError
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import Unit, parse_length
from casewright.record.shop_state import Status
from casewright.workshop.operations import Machine
from casewright.workshop.order.step_times import Effort, Pace
from planned_once import planned_once
from samples import job
from web_bench import JOB


@pytest.fixture
def saved(tmp_path: Path) -> KeptJobs:
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    saved.start(JOB)
    return saved


def begin(saved: KeptJobs) -> str:
    (row,) = saved.list()
    work = saved.take(row.id)
    plans = planned_once(work.revision.text).plans
    hand_out(saved.file, work.id, work.revision.number, plans, "issue-1", saved.clock())
    return work.id


def heard(saved: KeptJobs, identity: str) -> BenchRecord:
    return read_record(saved.file, identity)


def event(identity: str, seq: int, bench: str = "saw", **what: object) -> dict[str, object]:
    return {"id": identity, "bench": bench, "seq": seq, "at": "2026-11-25T10:00:00Z", **what}


def test_nothing_is_handed_out_before_it_is(saved: KeptJobs) -> None:
    (row,) = saved.list()
    nothing = heard(saved, row.id)
    assert (
        nothing.floor is None and work_json(nothing)["batches"] == [] and state_json(nothing)["ticks"] == {}
    )


def test_ticks_are_kept_once_however_often_they_are_sent(saved: KeptJobs) -> None:
    identity = begin(saved)
    floor = heard(saved, identity).floor
    assert floor is not None
    steps = [op.key for op in floor.ordered.batches[0].operations]
    tick = event("a1", 1, kind="done", steps=steps)
    for _ in range(3):
        received = receive(saved.file, identity, [tick], Unit.INCH, saved.clock())
        assert received.kept == ("a1",) and not received.refused
    now = heard(saved, identity)
    assert len(now.events) == 1 and now.state is not None
    assert set(now.state.ticks) == set(steps)
    assert state_json(now)["ticks"][steps[0]] == {"bench": "saw", "place": now.place}


def test_a_later_plan_does_not_change_what_a_tick_means(saved: KeptJobs) -> None:
    identity = begin(saved)
    first = heard(saved, identity).floor
    work = saved.take(identity)
    saved.rewrite(identity, work.revision.text.replace('height = "34 1/2"', 'height = "33"'), "lower", 1)
    again = heard(saved, identity).floor
    assert first is not None and again is not None and again.work.operations == first.work.operations


def test_a_measurement_comes_as_it_was_typed(saved: KeptJobs) -> None:
    identity = begin(saved)
    floor = heard(saved, identity).floor
    assert floor is not None
    name = f"{next(iter(floor.project.parts))}.length"
    sent = [
        event("m1", 1, kind="measured", name=name, said='34 1/2"', tool="rule"),
        event("m2", 2, kind="measured", name=name, said="34,5,6", tool="rule"),
        event("m3", 3, kind="spoiled", part=next(iter(floor.project.parts))),
        "not an event",
    ]
    received = receive(saved.file, identity, sent, Unit.INCH, saved.clock())
    assert received.kept == ("m1", "m3")
    assert [identity for identity, _ in received.refused] == ["m2", ""]
    assert all(finding.text and finding.fix for _, finding in received.refused)
    shown = state_json(heard(saved, identity))
    assert [reading["text"] for reading in shown["readings"][name]] == ['34 1/2"']
    (spoiled,) = [mark for mark, part in shown["parts"].items() if part["status"] == Status.SPOILED.value]
    assert shown["parts"][spoiled]["event"] == "m3"


def test_a_reading_that_looks_like_a_slip_is_kept_only_when_the_maker_is_sure(saved: KeptJobs) -> None:
    identity = begin(saved)

    def send(number: int, **what: object) -> Receipt:
        sent = event(f"m{number}", number, kind="measured", name="B1-L.length", tool="rule")
        return receive(saved.file, identity, [{**sent, **what}], Unit.INCH, saved.clock())

    for number, slip in enumerate(({"said": "345"}, {"value": "345"})):  # as typed, and from a program
        received = send(number, **slip)
        ((asked, doubt),) = received.asked
        assert asked == f"m{number}" and not received.kept and not received.refused
        assert (doubt.said, doubt.meant) == ("345", "34 1/2")
    assert not heard(saved, identity).events
    assert send(3, said="345", sure=True).kept == ("m3",)
    assert send(3, said="345").kept == ("m3",)  # sent again since the answer was lost
    assert len(heard(saved, identity).events) == 1


def test_a_fence_setting_that_looks_like_a_slip_is_kept_only_when_the_maker_is_sure(saved: KeptJobs) -> None:
    """The scale says ten times the planned setting, or millimetres; an eighth off is a setting as well."""
    identity = begin(saved)
    floor = heard(saved, identity).floor
    assert floor is not None
    batch, planned = next(
        (one, one.setting.distance)
        for one in floor.ordered.batches
        if one.setting and one.setting.machine is Machine.TABLE_SAW and one.setting.distance > 5
    )

    def send(number: int, value: Fraction, sure: bool = False) -> Receipt:
        sent = event(f"s{number}", number, kind="setting", setting=batch.key, distance=str(value))
        return receive(saved.file, identity, [{**sent, "sure": sure}], Unit.INCH, saved.clock())

    for number, slip in enumerate((10 * planned, planned / 10, planned * Fraction(127, 5))):
        received = send(number, slip)
        ((_, doubt),) = received.asked
        assert not received.kept and not received.refused and doubt.meant
    ((_, doubt),) = send(3, 10 * planned).asked
    assert parse_length(doubt.meant, Unit.INCH) == planned
    assert not heard(saved, identity).events
    assert send(4, planned + Fraction(1, 8)).kept == ("s4",)
    assert send(5, 10 * planned, sure=True).kept == ("s5",)
    gone = event("s6", 6, kind="setting", setting="no such batch", distance="400")
    assert receive(saved.file, identity, [gone], Unit.INCH, saved.clock()).kept == ("s6",)


def test_a_third_reading_of_a_sheet_is_held_against_those_kept_before(saved: KeptJobs) -> None:
    identity = begin(saved)
    marks = ("", "B1-K", "B2-K", "B1-K", "", "B2-K")

    def thickness(number: int, said: str) -> dict[str, object]:
        name = f"{marks[number]}.thickness"
        return event(f"m{number}", number, kind="measured", name=name, said=said, tool="caliper")

    def send(*sent: dict[str, object]) -> Receipt:
        return receive(saved.file, identity, sent, Unit.INCH, saved.clock())

    assert not send(thickness(1, "0.215")).asked
    received = send(thickness(2, "0.218"), thickness(3, "0.245"))
    assert received.kept == ("m2",) and [asked for asked, _ in received.asked] == ["m3"]
    send(event("u", 4, kind="undo", event="m2"))
    assert not send(thickness(5, "0.245")).asked  # one of two is right; no one knows which


def test_a_figure_counts_the_unit_that_the_bench_works_in(saved: KeptJobs) -> None:
    """The job may have been changed to millimetres since; the screen still shows inches."""
    identity = begin(saved)
    sent = event("m1", 1, kind="measured", name="B1-L.length", said="34 1/2", tool="rule")
    assert receive(saved.file, identity, [sent], Unit.MM, saved.clock()).kept == ("m1",)


def test_real_times_change_the_minutes_told(saved: KeptJobs) -> None:
    identity = begin(saved)
    first = heard(saved, identity)
    assert first.floor is not None and pace_of(first) == Pace()
    batch = next(b for b in first.floor.ordered.batches if b.operations[0].kind.value == "dry fit")
    times = [
        event(f"t{n}", n, kind="time", steps=[op.key for op in batch.operations], minutes=60.0)
        for n in range(1, 30)
    ]
    receive(saved.file, identity, times, Unit.INCH, saved.clock())
    now = heard(saved, identity)
    assert pace_of(now).factors[Effort.DRY_FIT] > 2
    before, after = (
        next(b["minutes"] for b in work_json(each)["batches"] if b["key"] == batch.key)
        for each in (first, now)
    )
    assert after > 2 * before


def test_the_steps_of_one_part_and_of_none() -> None:
    floor = open_job(write_job(job())).with_plan({})
    words = steps_words(floor, "B1-L")
    assert "dado" in words.lower() and "B1-R  " not in words and "manual" in words
    assert steps_json(floor)["bound"] <= steps_json(floor)["minutes_of_changes"]
    with pytest.raises(JobError, match="B9-Q"):
        steps_words(floor, "B9-Q")


def test_a_tick_on_a_sheet_that_is_planned_otherwise_is_no_tick_on_the_new_plan(saved: KeptJobs) -> None:
    """Sheets handed out anew were numbered from 1 again, so old ticks stood beside other cuts."""
    identity = begin(saved)
    before = heard(saved, identity).floor
    assert before is not None
    cuts = [op for op in before.work.operations if op.kind.cuts_up_a_sheet]
    tick = event("a1", 1, kind="done", steps=[op.key for op in cuts])
    receive(saved.file, identity, [tick], Unit.INCH, saved.clock())
    text = saved.take(identity).revision.text
    lower = text.replace('name = "north"', 'name = "north"\nlift = 0').replace(
        "[made_of]", "[base]\nheight = 33\n\n[made_of]"
    )
    work = saved.rewrite(identity, lower, "lower", 1)
    assert isinstance(work, OpenedRevision)
    plans = planned_once(work.revision.text).plans
    hand_out(saved.file, identity, work.revision.number, plans, "issue-2", saved.clock())
    after = heard(saved, identity)
    assert after.floor is not None and after.state is not None
    made = {op.key: op for op in after.floor.work.operations if op.kind.cuts_up_a_sheet}
    same = [op for op in cuts if op.key in made]
    assert len(same) < len(cuts)
    for op in same:
        now = made[op.key]
        assert (now.parts, now.size, now.makes) == (op.parts, op.size, op.makes)
    assert set(after.state.done) & set(made) == {op.key for op in same}
