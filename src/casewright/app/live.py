"""A job's text drawn up, kept warm so that looking at it again costs nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

from ..casework.job import Job
from ..casework.project import Project, draw_up
from ..errors import JobError
from ..findings import Finding
from ..jobfile.read.read_job import read_job
from ..workshop.work import doubts
from .document import shaped_values_of
from .shown import Shown

KEPT_WARM = 32


@dataclass(frozen=True)
class Drawn:
    """What a text comes to. `project` is None while the job cannot be built; `findings` say why."""

    text: str
    job: Job | None
    project: Project | None
    findings: tuple[Finding, ...]

    @cached_property
    def values(self) -> Mapping[str, Any]:
        """What the text says, as plain values in the shape of a job file."""
        return shaped_values_of(self.text)

    @cached_property
    def shown(self) -> Shown | None:
        """The project as the pages print it; None while there is none."""
        return Shown(self.project) if self.project else None

    def needed(self) -> Project:
        """The project; JobError with the findings while there is none."""
        if self.project is None:
            raise JobError(self.findings)
        return self.project

    def needed_shown(self) -> Shown:
        """The project as printed; JobError with the findings while there is none."""
        if self.shown is None:
            raise JobError(self.findings)
        return self.shown


@lru_cache(maxsize=KEPT_WARM)
def drawn(text: str) -> Drawn:
    """Read a job's text and draw it up. Raises nothing: what is wrong stands in the findings."""
    try:
        job = read_job(text)
    except JobError as refused:
        return Drawn(text, None, None, refused.findings)
    try:
        project = draw_up(job)
    except JobError as refused:
        return Drawn(text, job, None, refused.findings)
    return Drawn(text, job, project, (*project.findings, *doubts(project)))
