"""Every finding of what is sent to the shop's file (a job's text, entries, events), and the nearest kept."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from app.test_findings_of_app_shop import Shop
from casewright.app.editing.forms import SentForm, case_form, submit_form
from casewright.app.editing.text_edits import DropEntry, Edit, SetEntry
from casewright.app.editing.unit_change import UnitChange, change_entries
from casewright.app.jobs.kept_jobs import OpenedRevision, RefusedChange
from casewright.app.repair.repair_record import record_of
from casewright.app.shop.kept_events import LEAP, event_in
from casewright.app.shop.receiving import receive
from casewright.findings import Finding, Weight
from casewright.lengths.length import Unit
from casewright.store.event_rows import NewEvent, append_events
from finding_rows import Provoke, Row, check, told
from web_bench import JOB


def test_what_the_file_refuses(tmp_path: Path) -> None:
    shop = Shop(tmp_path)

    def start(text: str) -> Provoke:
        return lambda: told(lambda: shop.new(issued=False).start(text))

    def put(*path: str | int) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            outcome = shop.new(issued=False).change("larder", [SetEntry(path, 30)], "", 1)
            return outcome.findings if isinstance(outcome, RefusedChange) else ()

        return findings

    def unit(*more: SetEntry, figures: UnitChange | None = None) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            saved = shop.new(issued=False)
            edits = (SetEntry(("unit",), "mm"), *more)
            return told(lambda: change_entries(saved, saved.take("larder"), edits, "", 1, figures))

        return findings

    def typed_after(theirs: Edit) -> Provoke:
        """A form of the first revision, sent after another device has changed the job."""

        def findings() -> tuple[Finding, ...]:
            saved = shop.new(issued=False)
            now = saved.change("larder", [theirs], "", 1)
            assert isinstance(now, OpenedRevision)
            sent = SentForm({"runs.0.cases.1.bays.0.adjustable": "4"}, 1)
            return submit_form(saved, now, lambda worked: case_form(worked, "B2"), sent).loose

        return findings

    bays = ("runs", 0, "cases", 1, "bays")

    def said(**happened: Any) -> Provoke:
        sent = {"id": "m", "bench": "saw", "seq": 1, **happened}

        def findings() -> list[Finding]:
            saved = shop.new()
            return [why for _, why in receive(saved.file, "larder", [sent], Unit.INCH, saved.clock()).refused]

        return findings

    def kept_before(payload: str) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            saved = shop.new()
            row = NewEvent("odd", "larder", "saw", "2026-11-25T10:00:00Z", "spoiled", payload)
            append_events(saved.file, [row])
            return record_of(saved, "larder").set_aside

        return findings

    def sent_to(job: int) -> Provoke:
        """The same event to one job and then to another, or to the first again."""

        def findings() -> list[Finding]:
            saved = shop.new()
            jobs = ["larder", saved.start(JOB).id]
            sent = {"id": "m", "bench": "saw", "seq": 1, **spoiled}
            receive(saved.file, jobs[0], [sent], Unit.INCH, saved.clock())
            again = receive(saved.file, jobs[job], [sent], Unit.INCH, saved.clock())
            return [why for _, why in again.refused]

        return findings

    def taken_back(far: int) -> Provoke:
        """An undo of the tick that stands so far from the place it names."""

        def findings() -> list[Finding]:
            saved = shop.new()
            time, step = saved.clock(), "ply 1 cut 1"
            tick = {"id": "a", "bench": "saw", "seq": 1, "kind": "done", "steps": [step]}
            (place,) = receive(saved.file, "larder", [tick], Unit.INCH, time).places
            undo = {**tick, "id": "b", "seq": 2, "kind": "undo", "event": place + far, "step": step}
            return [why for _, why in receive(saved.file, "larder", [undo], Unit.INCH, time).refused]

        return findings

    measured = {"kind": "measured", "name": "B1-L.length"}
    spoiled = {"kind": "spoiled", "part": "B1-L"}
    sound = json.dumps({"id": "odd", "bench": "saw", "seq": 1, **spoiled})
    case = ("runs", 0, "cases")
    for row in (
        Row(
            "not-text",
            "text",
            "incomplete character",
            "Retype",
            start("job = '\ud800'"),
            start("job = '\ud7ff'"),
        ),
        Row(
            "no-such-entry",
            "runs.0.cases.7.width",
            "runs.0.cases.7.width",
            "on the Text page",
            put(*case, 7, "width"),
            put(*case, 1, "width"),
        ),
        Row(
            "length", "said", "soon", "again", said(said="soon", **measured), said(said="34 1/2", **measured)
        ),
        Row(
            "length",
            "said",
            "“-3” is no size",
            "again",
            said(said="-3", **measured),
            said(said="3", **measured),
        ),
        Row(
            "number-too-far",
            "seq",
            f"“{LEAP + 1}” is far beyond 0",
            f"at most {LEAP}",
            said(**{**spoiled, "seq": LEAP + 1}),
            said(**{**spoiled, "seq": LEAP}),
        ),
        Row(
            "removed-elsewhere",
            "cases.B2.bays[0].adjustable",
            "“4” was typed for it",
            "Undo brings it back",
            typed_after(DropEntry((*bays, 0))),
            typed_after(DropEntry((*bays, 1))),
        ),
        Row(
            "no-such-tick",
            "event",
            "not the place of a tick",
            "Load the shop screen",
            taken_back(1),
            taken_back(0),
        ),
        Row("unit-unasked", "unit", "“mm”", "Send figures", unit(), unit(figures=UnitChange.CONVERT)),
        Row(
            "unit-with-others",
            "unit",
            "which unit those are in",
            "of its own",
            unit(SetEntry(("job",), "x"), figures=UnitChange.CONVERT),
            unit(figures=UnitChange.CONVERT),
        ),
        Row("id-of-another-job", "id", "“m”", "an id of its own", sent_to(1), sent_to(0)),
        Row(
            "event-malformed",
            "event",
            "not JSON",
            "Send JSON",
            lambda: told(lambda: event_in("[" * 100_000)),
            lambda: told(lambda: event_in(sound)),
        ),
        Row(
            "event-set-aside",
            "odd",
            "bench saw at 2026-11-25T10:00:00Z cannot be read",
            "Enter again at saw",
            kept_before(sound[1:]),
            kept_before(sound),
            Weight.WARN,
        ),
    ):
        check(row)
