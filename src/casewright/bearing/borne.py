"""All that a job's cases bear, worked out once for every way in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from ..casework.parts.part import Part, Role
from ..casework.project import Project
from ..findings import Finding
from ..strength.loaded_shelf import ShelfMaterial
from .handling import handling_findings
from .hanging_findings import hanging_findings
from .hanging_sheet import HangingSheet
from .hanging_wording import hanging_sheet
from .hung_cases import Hanging, hangings
from .job_shelves import BearingShelf, bearing_shelves
from .scribed_parts import ScribedPart, scribe_findings, scribed_parts
from .shelf_findings import shelf_findings
from .shelf_list import shelf_sheet
from .shelf_materials import shelf_materials
from .shelf_sheet import ShelfSheet
from .standing import OpenedCase, standing_cases
from .standing_findings import standing_findings


@dataclass(frozen=True)
class Borne:
    """How stiff the job's materials are, its shelves under their loads, its cases on their walls, what is cut
    to those, and what is to be said of it all."""

    project: Project
    materials: Mapping[str, ShelfMaterial | None]
    shelves: tuple[BearingShelf, ...]
    hangings: tuple[Hanging, ...]
    scribed: tuple[ScribedPart, ...]
    standing: tuple[OpenedCase, ...]
    findings: tuple[Finding, ...]

    @cached_property
    def unread_fillers(self) -> tuple[Part, ...]:
        """The fillers that close an end at which nobody has read the wall."""
        read = {one.part.mark for one in self.scribed}
        return tuple(part for part in self.project if part.role is Role.FILLER and part.mark not in read)

    @cached_property
    def shelf_sheet(self) -> ShelfSheet:
        """The list of shelves in words."""
        return shelf_sheet(self.project, self.shelves, self.materials, self.findings)

    @cached_property
    def hanging_sheet(self) -> HangingSheet:
        """The hanging page in words."""
        return hanging_sheet(self.project, self.hangings, self.scribed, self.unread_fillers, self.findings)


def borne(project: Project) -> Borne:
    """What the cases of a project bear."""
    materials = shelf_materials(project.job)
    shelves = bearing_shelves(project, materials)
    hung = hangings(project, shelves)
    standing = standing_cases(project)
    scribed = scribed_parts(project)
    found = (
        *shelf_findings(project, shelves, materials),
        *hanging_findings(project, hung),
        *standing_findings(project, standing),
        *scribe_findings(project, scribed),
        *handling_findings(project),
    )
    return Borne(project, materials, shelves, hung, scribed, standing, found)
