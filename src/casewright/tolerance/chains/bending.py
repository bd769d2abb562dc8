"""How parts give way when a case is put together: what leans, what bends, and by how much force.

A panel too long between two others presses them apart. Where nothing on either side of it holds them, they
lean, and that costs no force. Where both panels are held below and above it, they bend: each as a beam on two
supports with a point load, whose deflection at the load is F a^2 b^2 / (3 E I L) (the beam formula of every
handbook; AISC Manual table 3-23, case 8, from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...casework.build.case import Case
from ...casework.build.meetings import Mate, Meeting
from ...casework.directions import Axis
from ...casework.parts.part import MADE_TO_THE_BOX, Part, Role
from ...casework.project import Project
from .roles import is_outside

PLYWOOD = 1.2e6
"""Modulus of elasticity, psi: between the 0.95e6 of fir and the 1.8e6 of hardwood faces (AWS ed. 1, 2009)."""
BOARD = 0.5e6
"""Of sheets without a grain, such as MDF (from memory, ANSI A208.2 grade 130: 0.3e6 to 0.5e6 psi)."""

GIVES = MADE_TO_THE_BOX | {
    Role.ADJUSTABLE_SHELF,
    Role.BACK,
    Role.MOUNTING_STRIP,
    Role.TOE_KICK,
    Role.FILLER,
    Role.PLINTH_FRONT,
    Role.PLINTH_BACK,
    Role.PLINTH_END,
}
"""Parts that hold nothing in place at the dry fit: they go in last, or lie loose."""


@dataclass(frozen=True, slots=True)
class Support:
    """A part that holds a panel, `at` inches along the panel's length in the case, by the meeting `mate`."""

    part: str
    at: Fraction
    mate: Mate


@dataclass(frozen=True, slots=True)
class Between:
    """Where a panel is pushed between its two nearest supports; `compliance` in inches a pound."""

    low: Support
    high: Support
    share: Fraction  # of the way from the lower support to the higher one
    compliance: float


@dataclass(frozen=True, slots=True)
class Push:
    """An end between two panels: those that are held on both sides of it, and the force to press it in.

    `stiffness` is in pounds an inch; 0 where one of the panels only leans.
    """

    panels: Mapping[str, Between]
    stiffness: float


class Frame:
    """The parts of a case as they hold each other."""

    def __init__(self, project: Project, case: Case) -> None:
        self._project = project
        self._case = case
        self._parts = {part.mark: part for part in case.parts}

    def push(self, mate: Mate) -> Push:
        """What an end that is too long at `mate` meets with."""
        end = self.end_part(mate)
        holders = self._holders(end, mate.axis)
        found = {mark: between for mark in holders if (between := self._between(mark, end, mate.axis))}
        if len(found) < len(holders) or len(holders) < 2:
            return Push(found, 0.0)
        return Push(found, 1 / sum(between.compliance for between in found.values()))

    def end_part(self, mate: Mate) -> Part:
        """The part whose end meets the other's face."""
        first, second = self._parts[mate.first.part], self._parts[mate.second.part]
        return second if first.lie.worked.axis is mate.axis else first

    def _holders(self, end: Part, axis: Axis) -> tuple[str, ...]:
        """The panels on both sides of a part along an axis."""
        found = []
        for mate in self._case.mates:
            if mate.axis is axis and mate.meeting is Meeting.SEATED and end.mark in _pair(mate):
                own, met = (mate.first, mate.second)
                if own.part != end.mark:
                    own, met = met, own
                # What lies in its channels or on its pins meets the end nowhere.
                faces = self._parts[met.part].lie.worked.axis is axis
                if faces and is_outside(self._project, own, end):
                    found.append(met.part)
        return tuple(dict.fromkeys(found))

    def _between(self, panel: str, end: Part, axis: Axis) -> Between | None:
        """Where `end` meets `panel`, between the nearest parts that hold the panel; None if it may lean."""
        along = Axis.Z if axis is Axis.X else Axis.X
        at = self._middle(end.mark, along)
        supports = [
            Support(other, self._middle(other, along), mate)
            for mate in self._case.mates
            if mate.axis is axis and panel in _pair(mate)
            for other in _pair(mate)
            if other not in (panel, end.mark) and self._parts[other].role not in GIVES
        ]
        below = [one for one in supports if one.at < at]
        above = [one for one in supports if one.at > at]
        if not below or not above:
            return None
        low, high = max(below, key=lambda one: one.at), min(above, key=lambda one: one.at)
        a, b = float(at - low.at), float(high.at - at)
        stiff = self._bending_stiffness(self._parts[panel], along)
        return Between(low, high, (at - low.at) / (high.at - low.at), (a * b) ** 2 / (3 * stiff * (a + b)))

    def _bending_stiffness(self, panel: Part, along: Axis) -> float:
        """E I of a panel bent along one axis, in pounds times square inches."""
        of = self._project.sizes.of
        wide = of(panel.width if panel.lie.length is along else panel.length)
        grain = self._project.job.sheets[panel.material].grain
        return (PLYWOOD if grain else BOARD) * float(wide * of(panel.thickness) ** 3) / 12

    def _middle(self, mark: str, axis: Axis) -> Fraction:
        of = self._project.sizes.of
        corner = self._case.placement.corners.get((mark, axis))
        return (of(corner) if corner is not None else Fraction(0)) + of(self._parts[mark].size(axis)) / 2


def _pair(mate: Mate) -> tuple[str, str]:
    return mate.first.part, mate.second.part
