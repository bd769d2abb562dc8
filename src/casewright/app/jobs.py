"""A job file read, drawn up and looked at."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..casework.project import Project, draw_up
from ..errors import JobError
from ..findings import Finding, refusals
from ..jobfile.job_schema import job_schema
from ..jobfile.read.locate import located
from ..jobfile.read.read_job import read_job
from ..planner.problem_faults import faults
from ..workshop.sheets.cut_problems import cut_problems
from ..workshop.work import doubts


@dataclass(frozen=True)
class Checked:
    """What there is to say of a job. `project` is None where no parts can be made of it."""

    project: Project | None
    findings: tuple[Finding, ...]

    @property
    def refused(self) -> bool:
        return bool(refusals(self.findings))


def load(name: str) -> str:
    """The text of a job file; JobError when it cannot be read."""
    try:
        return Path(name).read_text(encoding="utf-8-sig")
    except OSError as fault:
        text, fix = f"it cannot be read: {fault.strerror}.", "Give the path of a job file."
    except UnicodeDecodeError:
        text, fix = "it is no text in UTF-8.", "Save it as UTF-8 text."
    except ValueError:  # a null character in the name
        text, fix = "it is no name of a file.", "Give the path of a job file."
    raise JobError((Finding("file", name, text, fix),))


def project_of(text: str) -> Project:
    """The drawn-up job. Raises JobError with every problem, each with its line."""
    try:
        return draw_up(read_job(text))
    except JobError as refused:
        raise JobError(located(refused.findings, text)) from None


def check(text: str, progress: Callable[[str], None] | None = None) -> Checked:
    """Everything there is to say before a saw starts: the file, the cases, the sheets, the solids.

    `progress` is told what is being done when it may take a while.
    """
    try:
        project = project_of(text)
    except JobError as refused:
        return Checked(None, refused.findings)
    found = [*project.findings, *doubts(project)]
    for material, problem in cut_problems(project).items():
        sheet = project.job.sheets[material].name
        found += (_of_sheet(finding, material, sheet) for finding in faults(problem))
    if progress:
        progress(f"building the solids of {len(project.parts)} parts")
    # The solid kernel is loaded only for a job that gets this far.
    from ..solids.solid_check import check_solids

    found += check_solids(project)
    return Checked(project, located(found, text))


def schema() -> dict[str, Any]:
    """The published JSON schema of a job file."""
    return job_schema()


def _of_sheet(finding: Finding, material: str, sheet: str) -> Finding:
    """A planner's finding, which speaks of items, put in terms of the job's parts."""
    kind, _, name = finding.place.partition(".")
    place = name.split(".")[0] if kind == "items" and name else f"materials.{material}"
    return Finding(
        finding.code, place, f"from {sheet}: {finding.text}", finding.fix or "Look at it.", finding.weight
    )
