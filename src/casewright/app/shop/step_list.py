"""The steps of a job for the terminal: every batch in order, or what one part goes through."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import asdict
from typing import Any

from ...casework.project import Project
from ...errors import JobError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.quantities import json_number
from ...workshop.batch_wording import BatchText
from ...workshop.changed_cuts import ChangedCut, told_with_changes
from ...workshop.cut_wording import CHALK, COPY
from ...workshop.safety.hazards import MANUAL
from ..jobs.worked_job import PlannedJob


def known_part(project: Project, part: str | None) -> None:
    """JobError where `part` is no part's mark: said before anybody waits for a plan."""
    if part is None or part in project.parts:
        return
    fix = did_you_mean(part, project.parts)
    raise JobError((Finding("no-such-part", part, "the job has no part with this mark.", fix),))


def batches_of(
    planned: PlannedJob, part: str | None = None, changes: Sequence[ChangedCut] = ()
) -> tuple[BatchText, ...]:
    """The batches in order, or those that one part goes through; JobError for an unknown mark. What is cut
    otherwise than drawn (`changes`) is said at its steps."""
    known_part(planned.project, part)
    told = told_with_changes(planned.told, planned.work, changes)
    if part is None:
        return told
    return tuple(batch for batch in told if any(part in step.parts for step in batch.steps))


def steps_words(
    planned: PlannedJob,
    part: str | None = None,
    done: Collection[str] = frozenset(),
    changes: Sequence[ChangedCut] = (),
) -> str:
    """The batches as text, numbered as they are done; steps that are `done`, by their keys, are left out, and
    those that cut something otherwise than drawn (`changes`) say so first."""
    numbers = {batch.key: number for number, batch in enumerate(planned.told, 1)}
    names = f"Job {planned.worked.revision}, plan {planned.plan_name}."
    lines = [names, MANUAL, f"{CHALK} {COPY}", planned.ordered.statement()]
    if done:
        lines.append(
            f"{sum(key in done for key in planned.work.by_key)} steps are done already and left out."
        )
    for batch in batches_of(planned, part, changes):
        if all(step.key in done for step in batch.steps):
            continue
        lines += ["", f"{numbers[batch.key]}. {batch.title} ({batch.machine}, {batch.minutes:g} min)"]
        lines += [f"   {line}" for line in batch.setting]
        for step in batch.steps:
            if (part is None or part in step.parts) and step.key not in done:
                said = f"{step.changed} {step.hold}".strip()
                lines.append(f"   [ ] {step.piece}  {step.size}  {said}")
        lines += [f"   ! {caution.text}" for caution in batch.cautions]
    lines += ["", *(str(finding) for finding in planned.work.findings)]
    return "\n".join(lines).rstrip()


def steps_json(
    planned: PlannedJob,
    part: str | None = None,
    done: Collection[str] = frozenset(),
    changes: Sequence[ChangedCut] = (),
) -> dict[str, Any]:
    """The batches as plain values, all of them, the fence's distance in inches, what is `done`, and at its
    steps what is cut otherwise than drawn (`changes`)."""
    return {
        "plan": planned.plan_name,
        "done": [key for key in planned.work.by_key if key in done],
        "settings": planned.ordered.settings,
        "cutters": planned.ordered.cutters,
        "minutes_of_changes": planned.ordered.minutes,
        "bound": planned.ordered.bound,
        "batches": [
            {
                **asdict(batch),
                "fence": None if batch.fence is None else json_number(batch.fence),
                "cautions": [caution.text for caution in batch.cautions],
            }
            for batch in batches_of(planned, part, changes)
        ],
        "findings": [{"place": f.place, "text": f.text, "fix": f.fix} for f in planned.work.findings],
    }
