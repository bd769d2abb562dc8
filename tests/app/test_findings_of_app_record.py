"""Every finding of entries that stop the record or cannot be read, and the nearest that is kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.identities import identity
from app.test_findings_of_app_shop import Shop
from casewright.app.repair.repair_record import record_of
from casewright.app.shop import receiving
from casewright.app.shop.left_out import enter_again
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import BenchRecord
from casewright.findings import Finding
from casewright.lengths.length import Unit
from casewright.record.shop_state import Status
from casewright.store.event_rows import NewEvent, append_events
from finding_rows import Provoke, Row, check, told


def test_what_is_refused_of_entries_that_cannot_be_read(tmp_path: Path) -> None:
    shop = Shop(tmp_path)

    def again(payload: str, kind: str, place: int = 2) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            saved = shop.new()
            append_events(saved.file, [NewEvent("odd", "larder", "saw", "", kind, payload)])
            typed = {"part": "B1-L"}
            return told(lambda: enter_again(saved, "larder", place, typed, Unit.INCH, identity))

        return findings

    for row in (
        Row(
            "not-typed-again",
            "odd",
            "cannot be typed again",
            "Leave it out",
            again("{}", "undo"),
            again("{}", "spoiled"),
        ),
        Row(
            "no-unreadable-entry",
            "9",
            "no unreadable entry",
            "History page",
            again("{}", "spoiled", 9),
            again("{}", "spoiled"),
        ),
    ):
        check(row)


def test_an_event_that_stops_a_reader_is_refused_and_no_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A fault of our own, stood in for by a reader that cannot bear a lost part: the tablets must not meet it
    on every later poll."""
    shop = Shop(tmp_path)

    def stumbles(heard: BenchRecord) -> None:
        if heard.state and heard.state.with_status(Status.LOST):
            raise OverflowError

    monkeypatch.setattr(receiving, "READERS", (*receiving.READERS, stumbles))

    def sent(name: str) -> Provoke:
        def findings() -> list[Finding]:
            saved = shop.new()
            events = [
                {"id": "a", "bench": "saw", "seq": 1, "kind": "lost", "name": name},
                {"id": "b", "bench": "saw", "seq": 2, "kind": "spoiled", "part": "B1-L"},
            ]
            received = receive(saved.file, "larder", events, Unit.INCH, saved.clock())
            assert "b" in received.kept and len(received.kept) == len(record_of(saved, "larder").events)
            return [why for _, why in received.refused]

        return findings

    check(Row("event-unusable", "event", "OverflowError", "on paper", sent("B1-R"), sent("offcut 1")))
