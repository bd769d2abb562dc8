"""Changed jobs and the plans found for them, each compared with the job as it is on equal terms.

Every plan of a changed job begins from one of the job as it is, and may spend as much search again. So what
is found must be shown to come of the change: the plan is carried back to the job as it is and searched for as
long there. If that too spends less than before, it was the search that saved, and both sides have it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from ...errors import CasewrightError
from ...findings import refusals
from ...planner.again import cheapest_again
from ...planner.effort import AboutSeconds
from ...planner.engine import WorkCount
from ...planner.engine.work_count import PICOSECONDS
from ...planner.plan import Plan, PlanStatus
from ...planner.plan_wording import LIMIT_BENT
from ...workshop.sheets.purchases import Bought, bought_in_all
from ..editing.text_edits import Edit, apply_edits
from ..jobs.worked_job import PlannedJob, WorkedJob, open_job
from .saving_candidates import Candidate, TrialChange

GLANCE, LOOK = 0.2, 0.8
"""Seconds of counted work for each material: to see whether a change saves anything, then to see what."""

SECONDS_IN_ALL, GLANCES = 7.0, 0.6
"""Seconds of counted work for all trials of a job of `USUAL_PARTS` parts, more for more parts, and the share
of it for glances."""

USUAL_PARTS, MOST_TIMES = 100, 6

SECONDS_A_PART = 0.001
"""What it takes to draw a changed job up, for each part; counted by this rule and not by the clock, so that
the same job gives the same savings."""


@dataclass(frozen=True)
class Trial:
    """A changed job, with the plans of the materials that are cut otherwise because of it."""

    change: TrialChange
    worked: WorkedJob
    plans: Mapping[str, Plan]


class Trials:
    """Plans of changed jobs. `plans` are those of the job as it is, the best that any trial led to."""

    def __init__(self, planned: PlannedJob, stopped: Callable[[], bool]) -> None:
        self.planned = planned
        self.stopped = stopped
        self._work = WorkCount()
        self._opened = 0.0
        self._in_all = SECONDS_IN_ALL * min(MOST_TIMES, max(1.0, len(planned.project.parts) / USUAL_PARTS))
        self.plans = dict(planned.made.plans)
        for material, plan in self.plans.items():
            self.plans[material] = self._plan(self.planned.worked, material, plan, LOOK)

    def over(self, share: float = 1.0) -> bool:
        """Whether there is to be no more search, that share of the work being done."""
        return self.stopped() or self._left(share) <= 0

    def _left(self, share: float = 1.0) -> float:
        done = self._opened + self._work.picoseconds / PICOSECONDS
        return max(0.0, share * self._in_all - done)

    def saved(self, trial: Trial) -> Bought:
        """What a trial saves against the job as it is."""
        return self._cost(self.after(trial)).less_than(self._cost(self.as_it_is()))

    def saved_by_searching(self) -> Bought:
        """What the best plan found for the job as it is saves against its plan of record."""
        return self._cost(self.as_it_is()).less_than(self._cost(self.planned))

    def after(self, trial: Trial) -> PlannedJob:
        """The changed job with its plans."""
        return trial.worked.with_plan({**self.plans, **trial.plans})

    def as_it_is(self) -> PlannedJob:
        """The job as it is, with the best plans that any trial led to."""
        return self.planned.worked.with_plan(self.plans)

    def is_worth_saying(self, trial: Trial) -> bool:
        """Whether a trial saves what at least the cheapest of the sheets costs that are bought."""
        prices = [one.price for one in self.as_it_is().purchases if one.sheets and one.price]
        saved = self.saved(trial)
        return saved.money >= min(prices, default=0) and saved > Bought.nothing()

    def glance(self, candidate: Candidate) -> Trial | None:
        """The greatest change of a kind, briefly planned; None where it saves nothing."""
        return self._try(candidate.changes[-1], self.plans, GLANCE)

    def smallest(self, candidate: Candidate, glance: Trial) -> Trial | None:
        """The smallest change of this kind that saves as much as the greatest, or a rounder size hardly
        further; None where the job as it is can be cut for as little."""
        changes = candidate.changes
        best = self._try(changes[-1], glance.plans, LOOK) or glance
        if not self._comes_of_the_change(best):
            return None
        greatest, low, high = best, 0, len(changes) - 1
        while low < high and not self.over():
            middle = (low + high) // 2
            tried = self._try(changes[middle], greatest.plans, LOOK, greatest.plans)
            if tried is not None and self.saved(tried) >= self.saved(greatest):
                high, best = middle, tried
            else:
                low = middle + 1
        following = changes[high + 1 : high + 2]
        if following and following[0].is_round and not changes[high].is_round and not self.over():
            rounder = self._try(following[0], best.plans, LOOK, greatest.plans)
            if rounder is not None and self.saved(rounder) >= self.saved(best):
                best = rounder
        return best

    def _comes_of_the_change(self, trial: Trial) -> bool:
        """Whether a trial still saves once its plans have been carried back to the job as it is."""
        for material, plan in trial.plans.items():
            if material in self.plans:
                back = self._plan(self.planned.worked, material, plan, LOOK)
                if _is_cheaper(back, self.plans[material]):
                    self.plans[material] = back
        return self.is_worth_saying(trial)

    def _try(
        self,
        change: TrialChange,
        start: Mapping[str, Plan],
        seconds: float,
        goal: Mapping[str, Plan] = MappingProxyType({}),
    ) -> Trial | None:
        """The job with a change made; None where that is no sound job, or saves nothing.

        `goal` are plans of a greater change, to be equalled; where they save nothing nobody need look.
        """
        self._opened += SECONDS_A_PART * len(self.planned.project.parts)
        worked = changed(self.planned.worked.text, change.edits)
        if worked is None or worked.project is None:
            return None
        plans: dict[str, Plan] = {}
        for material, problem in worked.problems.items():
            if problem == self.planned.worked.problems.get(material):
                continue
            begin = start.get(material) or self.plans.get(material)
            if begin is None:
                return None  # a material that the job had no plan for: nothing to compare
            plans[material] = self._plan(worked, material, begin, seconds, goal.get(material))
            if plans[material].status is PlanStatus.IMPOSSIBLE:
                return None
        trial = Trial(change, worked, plans)
        # Whether the shop can make it takes long to say: only of what saves.
        return trial if self.is_worth_saying(trial) and not refusals(worked.findings) else None

    def _plan(
        self, worked: WorkedJob, material: str, begin: Plan, seconds: float, goal: Plan | None = None
    ) -> Plan:
        enough = Fraction(0) if goal is None else goal.figures.money
        if goal is not None and not _is_cheaper(goal, self.plans[material]):
            seconds = 0.0
        stop = AboutSeconds(min(seconds, self._left()), None, self._work)
        return cheapest_again(worked.problems[material], begin, stop, enough)

    def _cost(self, planned: PlannedJob) -> Bought:
        return bought_in_all(planned.purchases)


def changed(text: str, edits: Iterable[Edit]) -> WorkedJob | None:
    """A job with edits made; None where they cannot be made."""
    try:
        return open_job(apply_edits(text, edits))
    except (CasewrightError, LookupError):
        return None


def _is_cheaper(plan: Plan, before: Plan) -> bool:
    """Whether a plan spends less, and asks for a helper no more often: a plan made for looser carrying limits
    is none for the job as it is, however cheap."""
    better = (plan.figures.money, plan.figures.sheets) < (before.figures.money, before.figures.sheets)
    return better and plan.status is not PlanStatus.IMPOSSIBLE and _bent(plan) <= _bent(before)


def _bent(plan: Plan) -> int:
    """Sheets with a piece over the carrying limits."""
    return sum(one.code == LIMIT_BENT for one in plan.findings)
