"""Plans of record in the shop's file, beside the work handed out from them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from ...errors import RecordError
from ...planner.plan import Plan
from ...record.plan_of_record import PlanOfRecord, record_from_plain, record_to_plain
from ...store.plan_rows import PlanRow, add_plan, newest_plan
from ..jobs.kept_jobs import KeptJobs
from ..jobs.worked_job import PlannedJob, WorkedJob
from ..shop.shop_floor import read_record
from ..shop.work_handed_out import HandedOut, handings_out, numbered_for_shop
from .begun_work import BegunWork, begun_work
from .plan_file import plan_record_of
from .plan_keeping import KeptPlanUnreadable


@dataclass(frozen=True)
class StoreShelf:
    """The plans of one job in the shop's file. Work handed out after the newest plan was kept, as when a
    mishap is put right, is cut by a plan of its own: that one is then the plan of record."""

    saved: KeptJobs
    job: str
    name: str = "the shop's file"

    def read(self) -> PlanOfRecord | None:
        kept, work = newest_plan(self.saved.file, self.job), handings_out(self.saved.file, self.job).entries
        if work and (kept is None or work[-1].place > kept.after_event):
            then = self.saved.take(self.job, work[-1].issued.revision).worked
            return _cut_by(then, work[-1])
        return None if kept is None else _read(kept)

    def begun(self, record: PlanOfRecord | None) -> BegunWork:
        return begun_work(read_record(self.saved.file, self.job))

    def numbered(self, planned: PlannedJob) -> PlannedJob:
        plans, boards = numbered_for_shop(self.saved.file, self.job, planned.plans, planned.board_plans)
        return planned.worked.with_plan(plans, planned.made.seconds, planned.made.seed, boards)

    def better_start(self, record: PlanOfRecord | None) -> Mapping[str, Plan]:
        return {}  # the page plans again from the plan it found itself

    def keep(self, planned: PlannedJob, *, first: bool) -> None:
        payload = json.dumps(record_to_plain(plan_record_of(planned)))
        add_plan(self.saved.file, self.job, planned.plan_name, payload, self.saved.clock())


@lru_cache(maxsize=64)  # those of other jobs too are looked at, for what they take from the rack
def _read(row: PlanRow) -> PlanOfRecord:
    try:
        return record_from_plain(_plain(row.payload), f"plan {row.number} in the shop's file")
    except RecordError as fault:
        fix = "Plan again on the Sheets page: another is made, and this one stays in the file as it is."
        raise KeptPlanUnreadable(tuple(replace(one, fix=fix) for one in fault.findings)) from fault


def _plain(payload: str) -> object:
    try:
        return json.loads(payload)
    except (ValueError, RecursionError):
        return None


@lru_cache(maxsize=8)
def _cut_by(then: WorkedJob, work: HandedOut) -> PlanOfRecord:
    return plan_record_of(then.with_plan(work.issued.plans, boards=work.issued.boards))
