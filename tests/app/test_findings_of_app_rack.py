"""One rack piece in the plans of two jobs is noticed on either's pages."""

from __future__ import annotations

from pathlib import Path

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.sheets.kept_plans import StoreShelf
from casewright.app.sheets.plan_keeping import SearchEffort, plan_on_record
from casewright.app.sheets.promised_rack import promised_twice
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.findings import Finding, Weight
from casewright.lengths.length import Unit
from finding_rows import Row, check
from job_texts import ALCOVE

RACK = (
    '\n[[shop.rack]]\nname = "arm"\nmaterial = "ply"\nlength = 90\nwidth = "47 1/2"\ncount = {}\n'
    "worth = 1\n\n[[runs]]"
)


def with_rack(count: int, size: str = "90") -> str:
    rack = RACK.format(count).replace("length = 90", f"length = {size}")
    return ALCOVE.replace("\n[[runs]]", rack, 1)


class TwoJobs:
    """Two jobs in one shop's file, each with the piece on its own rack."""

    def __init__(self, folder: Path, count: int = 1, other_size: str = "90") -> None:
        self.saved = KeptJobs.open(folder / "shop.sqlite3")
        self.mine = self.saved.start(with_rack(count)).id
        self.other = self.saved.start(with_rack(count, other_size).replace('"Alcove"', '"Attic"')).id
        for job in (self.mine, self.other):
            worked = self.saved.take(job).worked
            plan_on_record(worked, StoreShelf(self.saved, job), effort=SearchEffort(0.1))

    def found(self) -> tuple[Finding, ...]:
        return promised_twice(self.saved, self.saved.take(self.mine))


def test_a_rack_piece_of_two_plans_is_said(tmp_path: Path) -> None:
    short, enough = TwoJobs(tmp_path / "short"), TwoJobs(tmp_path / "enough", count=9)
    check(
        Row(
            "rack-promised",
            "rack “arm”",
            "the job “Attic” count on more of it than the rack has, 1",
            "off the rack in one of the two jobs",
            short.found,
            enough.found,
            Weight.WARN,
        )
    )


def test_a_piece_of_another_size_is_another_piece(tmp_path: Path) -> None:
    assert TwoJobs(tmp_path, other_size="89").found() == ()


def test_a_job_that_is_put_away_or_all_cut_no_longer_counts(tmp_path: Path) -> None:
    jobs = TwoJobs(tmp_path)
    file, other = jobs.saved.file, jobs.other
    shelf = StoreShelf(jobs.saved, other)
    plans = plan_on_record(jobs.saved.take(other).worked, shelf).planned.plans
    hand_out(file, other, 1, plans, "issue-1", jobs.saved.clock())
    assert jobs.found()
    floor = read_record(file, other).floor
    assert floor is not None
    done = {"id": "e", "bench": "saw", "seq": 1, "at": "", "kind": "done"}
    steps = [operation.key for operation in floor.work.operations]
    receive(file, other, [{**done, "steps": steps}], Unit.INCH, jobs.saved.clock())
    assert jobs.found() == ()
    jobs = TwoJobs(tmp_path / "again")
    assert jobs.found()
    jobs.saved.put_away(jobs.other)
    assert jobs.found() == ()
