"""A width that saves a setting at the saw, tried on the sheets as they are cut."""

from __future__ import annotations

from ...casework.size_names import owner_of
from ...findings import refusals
from ...lengths.length import show
from ...planner.again import keep_plan
from ...planner.plan import PlanStatus
from ...workshop.sheets.equal_sizes import equal_widths, settings_of
from ...workshop.sheets.purchases import bought_in_all
from ..editing.text_edits import SetEntry
from ..jobs.worked_job import PlannedJob
from .saving_candidates import TrialChange
from .saving_trials import Trial, changed

TRIED = 4
"""Widths tried, those that make the most sizes equal first."""


def fewer_settings(planned: PlannedJob) -> tuple[Trial, int] | None:
    """The width that saves the most settings of the table saw, with how many; None where none does.

    The sheets are cut as before, in the same places: no other search could account for what is saved.
    """
    mark = planned.project.job.mark
    best: tuple[Trial, int] | None = None
    for one in equal_widths(planned.project)[:TRIED]:
        then = show(one.then, mark).plain
        change = TrialChange(
            f"{owner_of(one.width.name)} {then} wide in place of {show(one.now, mark).plain}",
            (SetEntry(one.width.place, then),),
        )
        trial = _kept(planned, change)
        fewer = 0 if trial is None else _fewer(planned, trial)
        if trial is not None and fewer > (best[1] if best else 0):
            best = trial, fewer
    return best


def _kept(planned: PlannedJob, change: TrialChange) -> Trial | None:
    """The job with a change made and its parts where they were; None where that cannot be or costs more."""
    worked = changed(planned.worked.text, change.edits)
    if worked is None or worked.project is None or refusals(worked.findings):
        return None
    plans = {
        material: keep_plan(problem, planned.plans[material])
        for material, problem in worked.problems.items()
        if problem != planned.worked.problems.get(material) and material in planned.plans
    }
    if any(plan.status is PlanStatus.IMPOSSIBLE for plan in plans.values()):
        return None
    bought = bought_in_all(worked.with_plan({**planned.plans, **plans}).purchases)
    return Trial(change, worked, plans) if bought <= bought_in_all(planned.purchases) else None


def _fewer(planned: PlannedJob, trial: Trial) -> int:
    after = {**planned.made.plans, **trial.plans}
    now = settings_of(planned.project, planned.made.plans.values())
    return now - settings_of(planned.project, after.values())
