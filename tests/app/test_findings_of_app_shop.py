"""Every finding of what is asked of the shop's record, of a plan and of a search, and the nearest done."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import pytest

from app.identities import identity
from casewright.app.background import other_ways_search, planning, saving_search
from casewright.app.background import way_search as searching
from casewright.app.fit.fit_as_built import shop_state
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.app.repair.flaw_report import FlawTyped, report_flaw, withdraw_flaw
from casewright.app.repair.repair_page import look
from casewright.app.repair.repair_record import floor_and_state, record_of, task_of
from casewright.app.repair.shop_repair import choose, undo_choice
from casewright.app.repair.spoiled_report import Report, report, withdraw
from casewright.app.sheets import plan_search as plan
from casewright.app.sheets.plan_keeping import Choice, FileShelf, SearchEffort
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import BenchRecord, hand_out
from casewright.errors import CasewrightError
from casewright.findings import Finding
from casewright.lengths.length import Unit
from casewright.repair.ways.way import WayKind
from finding_rows import Provoke, Row, check, told
from planned_once import planned_once
from web_bench import JOB

Ask = Callable[[KeptJobs, BenchRecord], object]


class Shop:
    """A shop's file of its own for every question, with the work of one job handed out."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.plans = planned_once(JOB).plans

    def new(self, issued: bool = True) -> KeptJobs:
        saved = KeptJobs.open(self.folder / f"{identity()}.sqlite3")
        saved.start(JOB)
        if issued:
            hand_out(saved.file, "larder", 1, self.plans, identity(), saved.clock())
        return saved

    def asking(self, *asks: Ask, issued: bool = True) -> Provoke:
        """What refuses the last of these, the others done before it."""

        def findings() -> tuple[Finding, ...]:
            saved = self.new(issued)
            for ask in asks[:-1]:
                ask(saved, record_of(saved, "larder"))
            return told(lambda: asks[-1](saved, record_of(saved, "larder")))

        return findings


def spoil(mark: str = "B1-L", length: str = "33 1/2", **more: Any) -> Ask:
    return lambda saved, heard: report(saved, "larder", heard, Report(mark, length, **more), identity)


def take_back(mark: str = "B1-L") -> Ask:
    return lambda saved, heard: withdraw(saved, "larder", heard, mark, identity)


def flaw() -> Ask:
    """A knot in the corner of a sheet, where no part lies."""
    return lambda saved, heard: report_flaw(
        saved, "larder", heard, FlawTyped("ply 1", "0", "0", "1/8", "1/8"), identity
    )


def take_flaw_back(written: bool) -> Ask:
    def ask(saved: KeptJobs, heard: BenchRecord) -> None:
        flaws = floor_and_state(heard)[1].flaws
        withdraw_flaw(saved, "larder", heard, next(iter(flaws)) if written else "no-event", identity)

    return ask


def change(text: str) -> Ask:
    """The job's text is changed at the office."""
    return lambda saved, heard: saved.rewrite(
        "larder", JOB.replace("62 1/2", text), "", saved.take("larder").newest
    )


def choose_one(*kinds: WayKind) -> Ask:
    def ask(saved: KeptJobs, heard: BenchRecord) -> None:
        found = look(task_of(heard))
        number = next(line.number for line in found.lines if line.kind in [kind.value for kind in kinds])
        choose(saved, "larder", heard, found, number, identity)

    return ask


def undo_it(saved: KeptJobs, heard: BenchRecord) -> None:
    undo_choice(saved, "larder", heard, identity)


def cut_free(saved: KeptJobs, heard: BenchRecord) -> None:
    """The last cut that frees the left side, as the work handed out now has it: those before it may be cuts
    of a sheet that were planned anyway."""
    assert heard.floor is not None
    key = [step.key for step in heard.floor.work.by_part["B1-L"] if step.kind.cuts_up_a_sheet][-1]
    tick(saved, {"kind": "done", "steps": [key]})


def assemble(saved: KeptJobs, heard: BenchRecord) -> None:
    tick(saved, {"kind": "assembled", "name": "B1", "parts": ["B1-L"]})


def tick(saved: KeptJobs, what: dict[str, Any]) -> None:
    sent = {"id": identity(), "bench": "saw", "seq": 99, **what}
    assert not receive(saved.file, "larder", [sent], Unit.INCH, saved.clock()).refused


RECUT = choose_one(WayKind.RECUT, WayKind.BUY)
MOVE = choose_one(WayKind.MOVE)


def test_what_the_record_refuses(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    good = shop.asking(spoil())
    for row in (
        Row("no-work", "shop", "no work", "Hand the work out", shop.asking(spoil(), issued=False), good),
        Row("no-such-part", "B9-L", "no part", "parts list", shop.asking(spoil("B9-L")), good),
        Row(
            "assembled",
            "B1-L",
            "built into B1",
            "undo that",
            shop.asking(assemble, spoil()),
            shop.asking(assemble, spoil("B1-R")),
        ),
        Row(
            "said-already",
            "B1-L",
            "spoiled already",
            "way to replace",
            shop.asking(spoil(), spoil()),
            shop.asking(spoil(), take_back(), spoil()),
        ),
        Row(
            "said-already",
            "B1-L",
            "lost already",
            "way to replace",
            shop.asking(spoil(lost=True), spoil()),
            shop.asking(spoil("B1-R", lost=True), spoil()),
        ),
        Row("length", "B1-L.length", "soon", "you measured", shop.asking(spoil(length="soon")), good),
        Row("as-planned", "B1-L", "planned size", "as lost", shop.asking(spoil(length="34 1/2")), good),
        Row("larger", "B1-L", "35", "trim it to size", shop.asking(spoil(length="35")), good),
        Row(
            "not-spoiled",
            "B1-L",
            "not reported as spoiled",
            "nothing to withdraw",
            shop.asking(take_back()),
            shop.asking(spoil(), take_back()),
        ),
        Row(
            "no-such-flaw",
            "flaw",
            "not written down",
            "Load the page again",
            shop.asking(flaw(), take_flaw_back(written=False)),
            shop.asking(flaw(), take_flaw_back(written=True)),
        ),
        Row(
            "nothing-chosen",
            "larder",
            "no way",
            "nothing to undo",
            shop.asking(spoil(), undo_it),
            shop.asking(spoil(), MOVE, undo_it),
        ),
        Row(
            "nothing-chosen",
            "larder",
            "no way",
            "nothing to undo",
            shop.asking(spoil(), MOVE, undo_it, undo_it),
            shop.asking(spoil(), MOVE, undo_it),
        ),
        Row(
            "job-has-changed",
            "larder",
            "at revision 2, the work in the shop is from revision 1",
            "Hand the work out again",
            shop.asking(spoil(), change("63"), RECUT),
            shop.asking(spoil(), change("62 1/2"), RECUT),
        ),
        Row(
            "job-has-changed",
            "larder",
            "revision 3",
            "History page",
            shop.asking(spoil(), MOVE, change("63"), undo_it),
            shop.asking(spoil(), MOVE, undo_it),
        ),
        Row(
            "work-went-on",
            "larder",
            "cutting has begun on the new plan",
            "choose another way",
            shop.asking(spoil(), RECUT, cut_free, undo_it),
            shop.asking(spoil(), RECUT, undo_it),
        ),
    ):
        check(row)


def test_what_a_reading_breaks_is_said_at_the_saw(tmp_path: Path) -> None:
    """The back of B1 measures an inch more than its grooves leave; then what it should."""
    shop = Shop(tmp_path)
    back = open_job(JOB).needed().sizes.of("B1-K.width")

    def measured(value: F) -> Provoke:
        def findings() -> list[Finding]:
            saved = shop.new()
            what = {"kind": "measured", "name": "B1-K.width", "value": str(value), "tool": "rule"}
            tick(saved, {**what, "seq": 1})
            state = shop_state(record_of(saved, "larder"))
            assert state["readings"]["B1-K.width"]
            return [Finding(**one) for one in state["findings"]]

        return findings

    check(Row("no-longer-closes", "", "B1-K", "B1-K", measured(back + 1), measured(back)))


@pytest.mark.parametrize("fault", [CasewrightError("the attic is full."), RuntimeError("boom")])
def test_what_stops_a_plan_or_a_search_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: Exception
) -> None:
    """A refusal of our own in its words; a fault of our own as one, and it is raised to be seen."""
    ours = isinstance(fault, CasewrightError)
    shop = Shop(tmp_path)
    saved = shop.new()
    heard = record_of(saved, "larder")

    def fails(*_: object, **__: object) -> None:
        raise fault

    def make_plan(waiting: Any) -> None:
        shelf = FileShelf(tmp_path / "larder.plan.json")
        waiting.make(open_job(JOB), shelf, Choice.AGAIN, SearchEffort(0.1))

    def planned(broken: bool) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            with monkeypatch.context() as patch:
                if broken:
                    patch.setattr(plan, "plan_problems", fails)
                return ended(planning.Planning(), make_plan)

        return findings

    def searched(broken: bool) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            with monkeypatch.context() as patch:
                if broken:
                    patch.setattr(searching, "look", fails)
                return ended(searching.Searching(), lambda waiting: waiting.make(heard))

        return findings

    def saving(broken: bool) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            with monkeypatch.context() as patch:
                if broken:
                    patch.setattr(saving_search, "look_for_savings", fails)
                planned_job = planned_once(JOB)
                return ended(saving_search.SavingSearch(), lambda waiting: waiting.make(planned_job))

        return findings

    def beside(broken: bool) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            with monkeypatch.context() as patch:
                patch.setattr(other_ways_search, "beside", fails if broken else lambda *_: ())
                planned_job = planned_once(JOB)
                return ended(other_ways_search.WayComparison(), lambda waiting: waiting.make(planned_job))

        return findings

    def ended(waiting: Any, make: Callable[[Any], None]) -> tuple[Finding, ...]:
        try:
            make(waiting)
        except RuntimeError as raised:
            assert raised is fault and not ours
        assert waiting.finished
        return tuple(waiting.findings)

    names, fix = ("the attic is full", "") if ours else ("a bug in casewright", "Try again")
    check(Row("no-plan", "sheets", names, fix, planned(True), planned(False)))
    check(Row("no-search", "repair", names, fix, searched(True), searched(False)))
    check(Row("no-savings", "sheets", names, fix, saving(True), saving(False)))
    check(Row("not-compared", "costs", names, fix, beside(True), beside(False)))
