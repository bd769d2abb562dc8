"""A part that was left out when its case was glued: whether it still goes in, and how.

All of it is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...casework.hidden_sides import SIDES
from ...casework.job import BackKind, TopKind
from ...casework.parts.part import MADE_TO_THE_BOX, Role
from ...casework.project import Project
from ..price import Seen
from .cure import Lack, PartCure, one_part
from .way import KeepAsCut, Mend, WayKind

OPEN_MINUTES = Fraction(40)
"""To saw away what stands behind a groove, slide a back in and screw a strip behind it."""

SLID_IN = frozenset({Role.FIXED_SHELF, Role.DIVIDER})
SCREWED_IN = frozenset(
    {
        Role.FRONT_STRETCHER,
        Role.BACK_STRETCHER,
        Role.MOUNTING_STRIP,
        Role.TOE_KICK,
        Role.PLINTH_FRONT,
        Role.PLINTH_BACK,
        Role.PLINTH_END,
        Role.FILLER,
    }
)


def put_in_later(project: Project, lack: Lack) -> Iterator[PartCure]:
    """How the part goes into the glued case; nothing where it does not."""
    mark, role = lack.part.mark, lack.part.role
    why = _goes_in(project, lack)
    if why:
        yield one_part(WayKind.USE, lack, (KeepAsCut(mark, why),))
    elif role is Role.BACK:
        steps = (
            f"Saw away what stands behind the groove of the bottom, slide {mark} up into the other grooves "
            "and screw a strip behind its lower edge.",
        )
        yield one_part(WayKind.OPEN, lack, (Mend(mark, OPEN_MINUTES, steps),), Seen.HIDDEN_LINE)


def _goes_in(project: Project, lack: Lack) -> str:
    """Why it goes in as if nothing had happened; empty where it does not."""
    part, made = lack.part, project.cases[lack.part.case].spec.construction
    if part.role in SIDES or part.role in (Role.BOTTOM, Role.TOP) or not lack.sized:
        return ""
    if part.role is Role.BACK:
        if made.back is not BackKind.GROOVE:
            return "It is laid on from behind."
        if made.top is TopKind.STRETCHERS:
            return "The grooves are open at the top: slide it down behind the stretcher."
        return ""
    if part.role in MADE_TO_THE_BOX:
        return "It is no part of what was glued: it goes on the finished case, or runs in it."
    if part.role is Role.ADJUSTABLE_SHELF:
        return "It is tilted in from the front."
    if part.role in SLID_IN:
        # Channels run from edge to edge, so they are open at the front.
        return "It slides in from the front."
    assert part.role in SCREWED_IN, f"a {part.role.value} goes in somehow"
    return "It is held by screws alone and goes in now."
