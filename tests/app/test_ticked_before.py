"""A tick that comes second is kept and counts once, and its bench is told who was first."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.shop.receiving import Receipt, receive
from casewright.app.shop.shop_floor import BenchRecord, hand_out, read_record
from casewright.app.shop.ticked_before import AlreadyTicked
from casewright.lengths.length import Unit
from planned_once import planned_once
from web_bench import JOB

AT = "2026-11-29T14:02:00Z"


class Benches:
    def __init__(self, folder: Path) -> None:
        self.saved = KeptJobs.open(folder / "benches.sqlite3")
        self.job = self.saved.start(JOB).id
        plans = planned_once(JOB).plans
        hand_out(self.saved.file, self.job, 1, plans, "issue-1", self.saved.clock())
        floor = self.heard().floor
        assert floor is not None
        self.parts = list(floor.project.parts)
        own = (op.key for op in floor.work.operations if op.parts == (self.parts[0],))
        self.step = next(own)

    def heard(self) -> BenchRecord:
        return read_record(self.saved.file, self.job)

    def send(self, *events: dict[str, Any], device: str = "") -> Receipt:
        return receive(self.saved.file, self.job, events, Unit.INCH, self.saved.clock(), device)

    def tick(self, identity: str, seq: int, bench: str) -> dict[str, Any]:
        return {"id": identity, "bench": bench, "seq": seq, "at": AT, "kind": "done", "steps": [self.step]}

    def undo(self, seq: int, **target: Any) -> dict[str, Any]:
        return {"id": f"u{seq}", "bench": "saw", "seq": seq, "at": AT, "kind": "undo", **target}

    def ticks(self) -> dict[str, str]:
        state = self.heard().state
        assert state is not None
        return {step: tick.event for step, tick in state.ticks.items()}


@pytest.fixture
def benches(tmp_path: Path) -> Benches:
    return Benches(tmp_path)


def test_the_second_is_told_when_and_where_it_was_ticked_first(benches: Benches) -> None:
    assert benches.send(benches.tick("a", 1, "saw"), device="tablet in the shop").already == ()
    told = (AlreadyTicked("b", benches.step, AT, "tablet in the shop"),)
    for _ in range(2):  # sent again, as when the answer was lost, it is told again
        second = benches.send(benches.tick("b", 2, "assembly"))
        assert second.kept == ("b",) and not second.refused and second.already == told
    assert [event.id for event in benches.heard().events] == ["a", "b"]
    assert benches.ticks() == {benches.step: "a"}
    # The first that was sent again was no second one.
    assert benches.send(benches.tick("a", 1, "saw")).already == ()


def test_without_a_device_the_bench_is_named_also_if_both_have_one_name(benches: Benches) -> None:
    benches.send(benches.tick("a", 1, "bench"))
    assert [one.where for one in benches.send(benches.tick("b", 2, "bench")).already] == ["bench"]


def test_the_second_to_arrive_is_told_also_if_it_was_numbered_first(benches: Benches) -> None:
    """A bench without network numbers its tick from what it had heard before it lost the network."""
    benches.send(benches.tick("a", 9, "saw"))
    told = benches.send(benches.tick("b", 3, "assembly")).already
    assert [(one.id, one.where) for one in told] == [("b", "saw")]


def test_who_ticks_what_was_taken_back_or_is_made_again_is_not_second(benches: Benches) -> None:
    benches.send(benches.tick("a", 1, "saw"), benches.undo(2, event="a"))
    assert benches.send(benches.tick("b", 3, "assembly")).already == ()
    again = {"id": "d", "bench": "office", "seq": 4, "at": AT, "kind": "decided", "title": "again"}
    benches.send(again | {"again": [benches.parts[0]]})
    assert benches.send(benches.tick("c", 5, "saw")).already == ()
    # Its own tick that was taken back in the same sending is none of another bench either.
    sent = benches.send(
        benches.undo(6, event="c"),
        benches.tick("e", 7, "saw"),
        benches.undo(8, event="e"),
        benches.tick("f", 9, "saw"),
    )
    assert sent.already == () and benches.ticks() == {benches.step: "f"}


def test_a_tick_is_taken_back_by_its_place(benches: Benches) -> None:
    """The state names ticks by their place in the record, which is much shorter than their ids."""
    kept = benches.send(benches.tick("a", 1, "saw"))
    (place,) = kept.places
    assert benches.send(benches.undo(2, event=place, step=benches.step)).kept == ("u2",)
    assert benches.ticks() == {}
    assert benches.heard().undone == {"a"}


@pytest.mark.parametrize("off", [1, -1])
def test_a_place_where_no_such_tick_stands_takes_nothing_back(benches: Benches, off: int) -> None:
    """As after going back to a backup: what stands there now is something else."""
    (place,) = benches.send(benches.tick("a", 1, "saw")).places
    other = {"id": "c", "bench": "saw", "seq": 2, "kind": "claimed", "parts": benches.parts[:1]}
    benches.send(other)
    for wrong in ({"event": place + off, "step": benches.step}, {"event": place, "step": "another"}):
        (refused,) = benches.send(benches.undo(3, **wrong)).refused
        assert refused[1].code == "no-such-tick" and "Load the shop screen again" in refused[1].fix
    assert benches.ticks() == {benches.step: "a"}
