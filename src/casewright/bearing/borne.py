"""All that a job's cases bear, worked out once for every way in."""

from __future__ import annotations

from dataclasses import dataclass

from ..casework.project import Project
from ..findings import Finding
from .handling import handling_findings
from .hanging_findings import hanging_findings
from .hung_cases import Hanging, hangings
from .job_shelves import BearingShelf, bearing_shelves
from .shelf_findings import shelf_findings
from .standing import OpenedCase, standing_cases
from .standing_findings import standing_findings


@dataclass(frozen=True)
class Borne:
    """The job's shelves under their loads, its cases on their walls, and what is to be said of them."""

    shelves: tuple[BearingShelf, ...]
    hangings: tuple[Hanging, ...]
    standing: tuple[OpenedCase, ...]
    findings: tuple[Finding, ...]


def borne(project: Project) -> Borne:
    """What the cases of a project bear."""
    shelves = bearing_shelves(project)
    hung = hangings(project, shelves)
    standing = standing_cases(project)
    found = (
        *shelf_findings(project, shelves),
        *hanging_findings(project, hung),
        *standing_findings(project, standing),
        *handling_findings(project),
    )
    return Borne(shelves, hung, standing, found)
