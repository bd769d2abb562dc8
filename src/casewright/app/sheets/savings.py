"""What would save a sheet: small changes of the job, each tried by planning the changed job.

Nothing here knows which change should help: every candidate is planned at its greatest, and where that spends
less on sheets, the smallest change that spends as little is looked for size by size. So each saving is that
of a plan that was found, not of a rule.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import chain
from typing import Any

from ...lengths.quantities import json_number, with_cents
from ...planner.plan import Plan
from ...workshop.sheets.lifts import lifts_beyond
from ...workshop.sheets.purchases import Bought, Purchase
from ..editing.text_edits import AddEntry, Edit, SetEntry, apply_edits
from ..jobs.job_plan import Report
from ..jobs.worked_job import PlannedJob
from .arrangement_candidates import changes_of_limits, changes_of_runs, pieces_from_elsewhere
from .saving_candidates import Candidate, changes_of_cases
from .saving_trials import GLANCES, Trial, Trials
from .setting_trials import fewer_settings

MOST_SHOWN = 6
"""More lines than this are not read. Our judgement."""

TRIED = (
    "smaller depths and heights, narrower strips, less trim, looser carrying limits, one more offcut, "
    "another size of sheet, other widths in a run, widths that save a setting"
)
"""What is tried, for whoever asks why nothing was found."""


PLANNING_AGAIN = "planning again"
"""A saving without any change: while others were tried, a better plan came up for the job as it is."""


@dataclass(frozen=True)
class Saving:
    """A change that saves money on sheets, the smallest of its kind that was found to.

    `what` says it with its exact sizes, `touches` what else it changes; `edits` make it so in the job's text,
    and `plans` are those that were found for the materials that are then cut otherwise. `settings` of the
    table saw are saved where no sheet is. Without `edits` it is the job as it is, only planned again.
    """

    what: str
    touches: str
    saved: Bought
    edits: tuple[Edit, ...]
    plans: Mapping[str, Plan] = field(repr=False)
    settings: int = 0

    def saves(self, sign: str) -> str:
        """What it saves, as a phrase; `sign` is the sign of the money."""
        if self.settings:
            return f"{self.settings} {'setting' if self.settings == 1 else 'settings'} of the table saw fewer"
        count = self.saved.sheets
        sheets = f"{count} {'sheet' if count == 1 else 'sheets'} fewer" if count > 0 else ""
        money = f"{sign}{with_cents(self.saved.money)}" if self.saved.money > 0 else ""
        return ", ".join(one for one in (sheets, money if sheets else f"{money} less") if one)


def candidates(planned: PlannedJob) -> Iterator[Candidate]:
    """Every kind of change that is tried."""
    project = planned.project
    found = chain(
        changes_of_cases(project, planned.worked.values),
        changes_of_limits(project),
        pieces_from_elsewhere(project, planned.made.plans),
        changes_of_runs(project),
    )
    return (one for one in found if one.changes)


def look_for_savings(
    planned: PlannedJob, report: Report | None = None, stopped: Callable[[], bool] = lambda: False
) -> tuple[Saving, ...]:
    """The changes that a good maker would think of first: the most money for the least trouble.

    `report` gets a sentence with each saving as it is found; `stopped` is asked between plans and ends the
    search with what it has found so far.
    """
    trials = Trials(planned, stopped)
    seen: list[tuple[Candidate, Trial]] = []
    untried: list[Candidate] = []
    for candidate in candidates(planned):
        if trials.over(GLANCES):
            if stopped():
                break
            untried.append(candidate)
            continue
        if candidate.within and candidate.within not in {one.theme for one, _ in seen}:
            continue
        glance = trials.glance(candidate)
        if glance is not None:
            seen.append((candidate, glance))
            if report:
                report(f"It looks as if this would help: {glance.change.what}.")
    if report and untried:
        report(f"Not tried, as there was no time left for it: {_listed(untried)}.")
    seen.sort(key=lambda one: trials.saved(one[1]).for_trouble(one[0].trouble), reverse=True)
    found: list[tuple[Candidate, Trial]] = []
    for candidate, glance in seen:
        if stopped():
            break
        trial = trials.smallest(candidate, glance)
        if trial is None and report:
            report(f"{glance.change.what}: no saving after all; the job as it is can be cut for as little.")
        if trial is not None:
            found.append((candidate, trial))
            if report:
                saving = _saving(trials, trial)
                report(f"{saving.what}: {saving.saves(planned.project.job.money)}.")
    savings = [_saving(trials, trial) for trial in _best(trials, found)]
    if trials.saved_by_searching() > Bought.nothing():
        better = Saving(PLANNING_AGAIN, "no part changes", trials.saved_by_searching(), (), trials.plans)
        savings = [better, *savings[: MOST_SHOWN - 2]]
    alike = None if stopped() else fewer_settings(planned)
    if alike is not None:
        savings.append(replace(_saving(trials, alike[0]), saved=Bought.nothing(), settings=alike[1]))
    return tuple(savings)


def _best(trials: Trials, found: list[tuple[Candidate, Trial]]) -> list[Trial]:
    """The lines worth reading, best first: one for each theme."""
    themes: set[str] = set()
    chosen: list[Trial] = []
    found.sort(key=lambda one: trials.saved(one[1]).for_trouble(one[0].trouble), reverse=True)
    for candidate, trial in found:
        if candidate.theme not in themes and trials.is_worth_saying(trial):
            themes.add(candidate.theme)
            chosen.append(trial)
    return chosen[: MOST_SHOWN - 1]  # one is left for settings


def _saving(trials: Trials, trial: Trial) -> Saving:
    saved, change = trials.saved(trial), trial.change
    if _of_other_sizes(trials, trial):
        saved = Bought(saved.money, 0)  # sheets of one size are not counted against those of another
    return Saving(change.what, _touched(trials, trial), saved, change.edits, trial.plans)


def _of_other_sizes(trials: Trials, trial: Trial) -> list[Purchase]:
    """What is bought of materials that come in another size only because of the change."""
    before, planned = trials.planned.project.job.sheets, trials.after(trial)
    return [
        one
        for one in planned.purchases
        if one.sheets and planned.project.job.sheets[one.material].others != before[one.material].others
    ]


def _touched(trials: Trials, trial: Trial) -> str:
    """How many parts come out at another size and of which cases, and what then takes two to carry."""
    before, after = trials.planned.project, trial.worked.needed()
    other = [
        part
        for mark, part in after.parts.items()
        if mark not in before.parts or after.dimensions(part) != before.dimensions(before.parts[mark])
    ]
    gone = [mark for mark in before.parts if mark not in after.parts]
    said = []
    if other:
        cases = [name for name, case in after.cases.items() if not set(other).isdisjoint(case.parts)]
        said.append(f"{len(other)} parts of {_named(cases)} come out at another size")
    if gone:
        said.append(f"{len(gone)} parts are no longer made")
    if bought := _of_other_sizes(trials, trial):
        said.append(f"buy {' and '.join(f'{one.sheets} of {one.name}' for one in bought)}")
    planned = trials.after(trial)
    if before.job.shop.carry != after.job.shop.carry:
        cuts = planned.work.operations
        count = sum(lifts_beyond(before, material, cuts) for material in planned.made.plans)
        said.append(f"{count} {'lift is' if count == 1 else 'lifts are'} then for two")
    if not (other or gone):
        said.append("no part changes")
    if trial.change.only_if:
        said.append(trial.change.only_if)
    return "; ".join(said)


def _listed(untried: list[Candidate]) -> str:
    """The greatest change of each, a few by name."""
    more = len(untried) - MOST_SHOWN
    named = "; ".join(one.changes[-1].what for one in untried[:MOST_SHOWN])
    return f"{named}; and {more} more" if more > 0 else named


def _named(cases: list[str]) -> str:
    first = ", ".join(cases[:MOST_SHOWN])
    return first if len(cases) <= MOST_SHOWN else f"{first} and {len(cases) - MOST_SHOWN} more cases"


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
            "settings": one.settings,
            "edits": [_edit_json(edit) for edit in one.edits],
        }
        for one in savings
    ]


def _edit_json(edit: Edit) -> dict[str, Any]:
    """An edit as plain values: an entry that is `set`, put into a list (`add`) or taken out (`drop`)."""
    kind = "set" if isinstance(edit, SetEntry) else "add" if isinstance(edit, AddEntry) else "drop"
    value = {"value": edit.value} if isinstance(edit, SetEntry | AddEntry) else {}
    return {kind: ".".join(map(str, edit.path)), **value}
