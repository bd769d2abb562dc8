"""The steps of a job for the terminal: every batch in order, or what one part goes through."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from ..bench.care import MANUAL
from ..bench.telling import BatchTold
from ..errors import JobError
from ..findings import Finding
from .shop import Floor


def batches_of(floor: Floor, part: str | None = None) -> tuple[BatchTold, ...]:
    """The batches in order, or those that one part goes through; JobError for an unknown mark."""
    if part is None:
        return floor.told
    if part not in floor.project.parts:
        near = ", ".join(list(floor.project.parts)[:6])
        finding = Finding(
            "no-such-part", part, "the job has no part with this mark.", f"Its parts are {near} ..."
        )
        raise JobError((finding,))
    return tuple(batch for batch in floor.told if any(part in step.parts for step in batch.steps))


def as_words(floor: Floor, part: str | None = None) -> str:
    """The batches as text, numbered as they are done."""
    numbers = {batch.key: number for number, batch in enumerate(floor.told, 1)}
    lines = [MANUAL, floor.ordered.statement()]
    for batch in batches_of(floor, part):
        lines += ["", f"{numbers[batch.key]}. {batch.title} ({batch.machine}, {batch.minutes:g} min)"]
        lines += [f"   {line}" for line in batch.setting]
        for step in batch.steps:
            if part is None or part in step.parts:
                lines.append(f"   [ ] {step.piece}  {step.size}  {step.hold}")
        lines += [f"   ! {caution.text}" for caution in batch.cautions]
    lines += ["", *(str(finding) for finding in floor.work.findings)]
    return "\n".join(lines).rstrip()


def as_json(floor: Floor, part: str | None = None) -> dict[str, Any]:
    """The same as plain values, the fence's distance in inches."""
    return {
        "settings": floor.ordered.settings,
        "cutters": floor.ordered.cutters,
        "minutes_of_changes": floor.ordered.minutes,
        "bound": floor.ordered.bound,
        "batches": [
            {
                **asdict(batch),
                "fence": None if batch.fence is None else float(batch.fence),
                "cautions": [caution.text for caution in batch.cautions],
            }
            for batch in batches_of(floor, part)
        ],
        "findings": [{"place": f.place, "text": f.text, "fix": f.fix} for f in floor.work.findings],
    }
