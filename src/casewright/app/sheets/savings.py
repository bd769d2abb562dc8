"""What would save a sheet: small changes of the job, each tried by planning the changed job.

Nothing here knows which change should help: every candidate is planned from the plan of record at its
greatest, and where that spends less on sheets, the smallest change that spends as little is looked for mark
by mark. So each saving is that of a plan that was found, not of a rule.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from ...errors import CasewrightError
from ...findings import refusals
from ...lengths.quantities import json_number, with_cents
from ...planner.again import cheapest_again
from ...planner.effort import AboutSeconds
from ...planner.plan import Plan, PlanStatus
from ...workshop.sheets.purchases import Bought, bought_in_all
from ..editing.text_edits import SetEntry, apply_edits
from ..jobs.job_plan import Report
from ..jobs.worked_job import PlannedJob, WorkedJob, open_job
from .saving_candidates import Candidate, candidates

GLANCE, LOOK = 1.0, 1.5
"""Seconds of counted work for each material: to see whether a change saves anything, then to see what."""


@dataclass(frozen=True)
class Saving:
    """A change that saves money on sheets, the smallest of its kind that was found to.

    `what` says it with its exact sizes, `touches` what else it changes; `edits` make it so in the job's text.
    """

    what: str
    touches: str
    saved: Bought
    edits: tuple[SetEntry, ...]

    def saves(self, sign: str) -> str:
        """What it saves, as a phrase; `sign` is the sign of the money."""
        count = self.saved.sheets
        sheets = f"{count} {'sheet' if count == 1 else 'sheets'} fewer" if count > 0 else ""
        money = f"{sign}{with_cents(self.saved.money)}" if self.saved.money > 0 else ""
        return ", ".join(one for one in (sheets, money) if one)


def look_for_savings(
    planned: PlannedJob, report: Report | None = None, stopped: Callable[[], bool] = lambda: False
) -> tuple[Saving, ...]:
    """The changes that save the most money first, then those that change least.

    `report` gets a sentence with each saving as it is found; `stopped` is asked between plans and ends the
    search. The job as it is is planned once more first, so that no change is praised for what the search
    alone would have found.
    """
    trials = _Trials(planned)
    found: list[Saving] = []
    for candidate in candidates(planned.project, planned.worked.values):
        if stopped():
            break
        saving = trials.smallest(candidate, stopped)
        if saving is not None:
            found.append(saving)
            if report:
                report(f"{saving.what}: {saving.saves(planned.project.job.money)}.")
    return tuple(sorted(found, key=lambda one: one.saved, reverse=True))


@dataclass(frozen=True)
class _Trial:
    """A changed job with its plans, and what is bought for it."""

    worked: WorkedJob
    plans: Mapping[str, Plan]
    bought: Bought


class _Trials:
    """Plans of changed jobs, each begun from the plan of record."""

    def __init__(self, planned: PlannedJob) -> None:
        self.planned = planned
        self.text = planned.worked.text

    @cached_property
    def before(self) -> Bought:
        """Money and sheets of the job as it is, planned once more with the effort of a trial."""
        return self._cost(self.planned.worked, self._plans(self.planned.worked, self.planned.plans, LOOK))

    def smallest(self, candidate: Candidate, stopped: Callable[[], bool]) -> Saving | None:
        """The smallest change of this kind that saves as much as the greatest; None where that saves
        nothing, or the job cannot be built with it."""
        glance = self._try(candidate, candidate.steps, self.planned.plans, GLANCE)
        if glance is None or glance.bought >= self.before or stopped():
            return None
        greatest = self._try(candidate, candidate.steps, glance.plans, LOOK) or glance
        low, high, best = 1, candidate.steps, greatest
        while low < high and not stopped():
            middle = (low + high) // 2
            tried = self._try(candidate, middle, greatest.plans, LOOK)
            if tried is not None and tried.bought <= greatest.bought:
                high, best = middle, tried
            else:
                low = middle + 1
        saved = best.bought.less_than(self.before)
        return Saving(candidate.words(high), self._touched(best.worked), saved, candidate.edits(high))

    def _try(
        self, candidate: Candidate, steps: int, start: Mapping[str, Plan], seconds: float
    ) -> _Trial | None:
        """The job after so many steps of the change; None where that is no sound job."""
        try:
            worked = open_job(apply_edits(self.text, candidate.edits(steps)))
        except (CasewrightError, LookupError):
            return None
        if worked.project is None or refusals(worked.findings):
            return None
        plans = self._plans(worked, start, seconds)
        if any(plan.status is PlanStatus.IMPOSSIBLE for plan in plans.values()):
            return None
        return _Trial(worked, plans, self._cost(worked, plans))

    def _plans(self, worked: WorkedJob, start: Mapping[str, Plan], seconds: float) -> dict[str, Plan]:
        """A plan for each material; where nothing has changed for one, the plan of record."""
        plans: dict[str, Plan] = {}
        for material, problem in worked.problems.items():
            record = self.planned.plans.get(material)
            unchanged = problem == self.planned.worked.problems.get(material)
            if record is not None and unchanged and worked is not self.planned.worked:
                plans[material] = record
                continue
            begin = start.get(material, record)
            if begin is not None:
                plans[material] = cheapest_again(problem, begin, AboutSeconds(seconds))
        return plans

    def _cost(self, worked: WorkedJob, plans: Mapping[str, Plan]) -> Bought:
        return bought_in_all(worked.with_plan(plans).purchases)

    def _touched(self, worked: WorkedJob) -> str:
        """How many parts come out at another size, and of which cases."""
        before, after = self.planned.project, worked.needed()
        parts = [
            part
            for mark, part in after.parts.items()
            if mark in before.parts and after.dimensions(part) != before.dimensions(before.parts[mark])
        ]
        if not parts:
            return "no part changes"
        cases = [name for name, case in after.cases.items() if not set(parts).isdisjoint(case.parts)]
        return f"{len(parts)} parts of {', '.join(cases)} come out smaller"


def saved_text(planned: PlannedJob, saving: Saving) -> str:
    """The job's text with a saving made."""
    return apply_edits(planned.worked.text, saving.edits)


def savings_json(savings: tuple[Saving, ...]) -> list[dict[str, Any]]:
    """The savings as plain values, the money as a number."""
    return [
        {
            "what": one.what,
            "touches": one.touches,
            "sheets": one.saved.sheets,
            "money": json_number(one.saved.money),
            "edits": [{"path": ".".join(map(str, edit.path)), "value": edit.value} for edit in one.edits],
        }
        for one in savings
    ]
