"""Where hung cases stand on their wall and where their screws go, measured as a maker marks them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, pairwise

from ..casework.directions import Axis
from ..casework.extents import case_body
from ..casework.parts.part import END_STILES, Role
from ..casework.project import Project
from ..casework.size_names import part_mark
from ..strength.hung_on_screws import HungOnScrews
from ..workshop.assembly.screws import Screw, blind_screw
from .hung_cases import Hanging

X, Z = Axis.X.value, Axis.Z.value


@dataclass(frozen=True)
class ScrewRow:
    """Screws at one height: inches `up` from the floor, and their places from the case's left outer face."""

    up: Fraction
    places: tuple[Fraction, ...]


@dataclass(frozen=True)
class CasePlace:
    """A hung case: its outer faces from the wall's left end, its edges above the floor, inches; `hung` on
    which screws, None where they are not worked out."""

    mark: str
    left: Fraction
    right: Fraction
    low: Fraction
    high: Fraction
    hung: HungOnScrews | None

    @property
    def rows(self) -> tuple[ScrewRow, ...]:
        """Its rows of screws from above."""
        if self.hung is None:
            return ()
        ordered = sorted(self.hung.places, key=lambda place: (-place.up, place.across))
        return tuple(
            ScrewRow(self.low + up, tuple(place.across - self.left for place in alike))
            for up, alike in groupby(ordered, key=lambda place: place.up)
        )

    @property
    def screw_places(self) -> tuple[Fraction, ...]:
        """Every place along the case at which a screw goes in, from its left outer face."""
        return tuple(sorted({place for row in self.rows for place in row.places}))


@dataclass(frozen=True)
class Neighbours:
    """Two cases that are screwed to each other: through their sides, which stand `apart` by so much, and at
    the front through the stiles of their frames where each has its own (`by_frames`). `sides` and `stiles`
    are the longest screws that stay within both; None where none does."""

    left: str
    right: str
    apart: Fraction
    by_frames: bool
    sides: Screw | None
    stiles: Screw | None = None


def case_places(project: Project, hanging: Hanging) -> tuple[CasePlace, ...]:
    """The cases of a row from the left."""
    screws = {one.case.name: one for one in hanging.row.cases} if hanging.row else {}
    found = []
    for mark in hanging.marks:
        body = case_body(project, project.cases[mark])
        place = CasePlace(mark, body.low[X], body.high[X], body.low[Z], body.high[Z], screws.get(mark))
        found.append(place)
    return tuple(found)


def neighbours(project: Project, places: tuple[CasePlace, ...]) -> tuple[Neighbours, ...]:
    """Each case of a row with the next."""
    return tuple(_joined(project, left, right) for left, right in pairwise(places))


def _joined(project: Project, left: CasePlace, right: CasePlace) -> Neighbours:
    apart = right.left - left.right
    ends = ((left.mark, END_STILES[1]), (right.mark, END_STILES[0]))
    stiles = [project.parts.get(part_mark(mark, name)) for mark, name in ends]
    roles = ((left.mark, Role.RIGHT_SIDE), (right.mark, Role.LEFT_SIDE))
    meeting = [part for mark, role in roles for part in project.cases[mark].parts if part.role is role]
    through, into = (project.sizes.of(side.thickness) for side in meeting)
    sides = blind_screw(through + apart, into, project.job.unit)
    if None in stiles:
        return Neighbours(left.mark, right.mark, apart, False, sides)
    wide, other = (project.sizes.of(stile.width) for stile in stiles if stile)
    return Neighbours(left.mark, right.mark, apart, True, sides, blind_screw(wide, other, project.job.unit))
