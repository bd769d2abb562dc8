"""Plans of record made while somebody waits: one at a time for each job, with what was found so far."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass

from ...errors import RecordError
from ...findings import Finding
from ...planner.plan import Plan
from ..jobs.kept_jobs import KeptJobs, OpenedRevision
from ..jobs.worked_job import PlannedJob, WorkedJob
from ..sheets.kept_plans import StoreShelf
from ..sheets.plan_keeping import (
    Choice,
    KeptPlanUnreadable,
    PlanShelf,
    SearchEffort,
    plan_on_record,
    standing,
)
from .waiting import InTurn, Waiting

KEPT = 16


@dataclass
class Planning(Waiting):
    """The plan of record of a job, or one being made. Read it through `follow`.

    Once `finished`, `planned` is there, or `changes` say what of the job the plan no longer meets, or
    `findings` why there is none. `name` is the short name of the plan of record, empty before there is one;
    `news` says what was made or moved.
    """

    planned: PlannedJob | None = None
    name: str = ""
    changes: tuple[str, ...] = ()
    news: tuple[str, ...] = ()

    def make(
        self,
        worked: WorkedJob,
        shelf: PlanShelf,
        choice: Choice,
        effort: SearchEffort,
        start: Mapping[str, Plan] | None = None,
    ) -> None:
        """Make the plan and keep it; whatever goes wrong stands in `findings`."""

        def plan() -> None:
            worked.needed_sound()
            made = plan_on_record(worked, shelf, choice, effort, self.say, start)
            _ = made.planned.board_purchases  # drawing lots takes seconds: let no page wait for that
            self.planned, self.name, self.news = made.planned, made.planned.plan_name, made.news

        self.carry_out(plan, _no_plan)


def _no_plan(text: str, fix: str) -> Finding:
    return Finding("no-plan", "sheets", text, fix)


class Planner:
    """The plans of record of the shop's jobs. One that stands is handed out at once; one that is made is made
    once, however many ask."""

    def __init__(self, seconds: float) -> None:
        self.seconds = seconds
        self._made: OrderedDict[str, tuple[str, Planning]] = OrderedDict()
        self._lock = threading.Lock()
        self._in_turn = InTurn("sheet plan")

    def plan_for(
        self,
        saved: KeptJobs,
        work: OpenedRevision,
        choice: Choice = Choice.ASK,
        start: Mapping[str, Plan] | None = None,
    ) -> Planning:
        """The plan of record for a job as it is now, begun if there is none, from `start` if that is given.

        Raises JobError while the job cannot be built.
        """
        shelf = StoreShelf(saved, work.id)
        with self._lock:
            known = self._known(work)
            news = known.news if known else ()
        if known and (not known.finished or (known.findings and choice is Choice.ASK)):
            return known  # what went wrong is shown until the job is changed or planned again
        # Reading the shelf may mean drawing the job up, so nobody else waits for that.
        there = self._there(work.worked, shelf, choice, news)
        if there is not None and (choice is Choice.ASK or there.findings):
            return there
        with self._lock:
            begun = self._known(work)
            if begun and not begun.finished:
                return begun  # by another page, meanwhile
            planning = Planning()
            self._made[work.id] = (work.worked.text, planning)
            self._made.move_to_end(work.id)
            while len(self._made) > KEPT:
                self._made.popitem(last=False)
        effort = SearchEffort(self.seconds, stopped=planning.is_stopped)
        self._in_turn.begin(planning, planning.make, work.worked, shelf, choice, effort, start)
        return planning

    def stop(self, work: OpenedRevision) -> None:
        """Plan a job's present text no longer: the best so far is taken. Nothing is done where no plan is
        being made."""
        with self._lock:
            known = self._known(work)
        if known:
            known.stop()

    def _known(self, work: OpenedRevision) -> Planning | None:
        """The planning begun last for the job's present text, finished or not."""
        text, planning = self._made.get(work.id, ("", None))
        return planning if text == work.worked.text else None

    def _there(
        self, worked: WorkedJob, shelf: PlanShelf, choice: Choice, news: tuple[str, ...]
    ) -> Planning | None:
        """The plan on the shelf, standing, overtaken by the job, or refused, which is asked anew each time;
        None while there is none."""
        try:
            found = standing(worked, shelf)
        except KeptPlanUnreadable as refused:
            return Planning(finished=True, findings=refused.findings) if choice is Choice.ASK else None
        except RecordError as refused:
            return Planning(finished=True, findings=refused.findings)
        if found.record is None:
            return None
        planned = found.planned(worked)
        # One from before boards were kept has another name with them.
        name = planned.plan_name if planned else found.record.name
        return Planning(finished=True, planned=planned, name=name, changes=found.changes, news=news)
