"""Plans of record in the shop's file, beside the work handed out from them."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache

from ...record.handed_out import Issued, issued_from_plain, renumber_sheets
from ...record.plan_of_record import PlanOfRecord, record_from_plain, record_to_plain
from ...store import event_rows as events
from ...store.plan_rows import PlanRow, add_plan, newest_plan
from ..jobs.kept_jobs import KeptJobs
from ..jobs.worked_job import PlannedJob
from ..shop.shop_floor import ISSUE
from .plan_file import plan_record_of


@dataclass(frozen=True)
class StoreShelf:
    """The plans of one job in the shop's file. Work handed out after the newest plan was kept, as when a
    mishap is put right, is cut by a plan of its own: that one is then the plan of record."""

    saved: KeptJobs
    job: str
    name: str = "the shop's file"

    def read(self) -> PlanOfRecord | None:
        kept, issues = newest_plan(self.saved.file, self.job), self._issues()
        if issues and (kept is None or issues[-1].place > kept.after_event):
            return self._handed_out(issues[-1])
        return None if kept is None else _read(kept)

    def numbered(self, planned: PlannedJob) -> PlannedJob:
        earlier = [_issued(row.payload) for row in self._issues()]
        plans = renumber_sheets(planned.plans, earlier)
        return planned.worked.with_plan(plans, planned.made.seconds, planned.made.seed)

    def keep(self, planned: PlannedJob, *, first: bool) -> None:
        payload = json.dumps(record_to_plain(plan_record_of(planned)))
        add_plan(self.saved.file, self.job, planned.plan_name, payload, self.saved.clock())

    def _issues(self) -> list[events.KeptEvent]:
        return [row for row in events.events_after(self.saved.file, self.job) if row.kind == ISSUE]

    def _handed_out(self, row: events.KeptEvent) -> PlanOfRecord:
        issued = _issued(row.payload)
        then = self.saved.take(self.job, issued.revision).worked
        return plan_record_of(then.with_plan(issued.plans))


@lru_cache(maxsize=16)
def _read(row: PlanRow) -> PlanOfRecord:
    return record_from_plain(json.loads(row.payload), "the shop's file")


@lru_cache(maxsize=16)
def _issued(payload: str) -> Issued:
    return issued_from_plain(json.loads(payload))
