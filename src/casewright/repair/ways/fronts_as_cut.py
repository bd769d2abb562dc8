"""Doors, hinges and slides used as they are: what their screws take up, and what a tongue spares.

Common practice, no source, where nothing else is said.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...casework.parts.features.slide_holes import SlideHoles
from ...casework.parts.part import Part, Role
from ...casework.project import Project
from ..harm import Harm, HarmKind
from .cure import Lack, PartCure, one_part
from .way import KeepAsCut, Mend, WayKind

DEEPER = Fraction(1, 16)
"""How much too deep the holes of a hinge or slide may be, inches: it rests on the wood beside them."""

SHOULDERS_TAKE = Fraction(1, 16)
"""How short a rail may be whose shoulders are not cut yet, both tongues together (inches)."""

SHOULDER_MINUTES = Fraction(3)


def taken_by_screws(lack: Lack) -> Iterator[PartCure]:
    """A part whose every fault is of holes that are out by less than the hinge or slide there is set by."""
    part, harms = lack.part, lack.cut.harms
    if lack.sized and harms and all(_taken(part, harm) for harm in harms):
        words = {part.feature(harm.feature).kind_words for harm in harms}
        why = "The screws of the hinge take that up: set the door when it hangs."
        if SlideHoles.called_so in words:
            why = "Hinges and slides are set by their screws: that takes it up."
        yield one_part(WayKind.USE, lack, (KeepAsCut(part.mark, why),))


def _taken(part: Part, harm: Harm) -> bool:
    take = part.feature(harm.feature).set_by_screws if harm.feature else Fraction(0)
    if harm.fault is HarmKind.PLACE:
        return 0 < harm.off <= take
    return harm.fault is HarmKind.DEEP and take > 0 and 0 < harm.by <= DEEPER


def shoulders_set_out(project: Project, lack: Lack) -> Iterator[PartCure]:
    """A rail of a door that is short before its tongues are cut: they are cut shorter, and the door is as
    wide as drawn."""
    part = lack.part
    if part.role is not Role.DOOR_RAIL or lack.cut.worked or lack.cut.harms or lack.narrow > 0:
        return
    if not 0 < lack.short <= SHOULDERS_TAKE:
        return
    tongue = project.cases[part.case].spec.construction.door_tongue
    between = project.dimensions(part)[0] - 2 * tongue
    apart, left = (project.printed(size) for size in (between, tongue - lack.short / 2))
    steps = (
        f"Cut the shoulders of {part.mark} {apart} apart, as far from one end as from the other: each tongue "
        f"is {left} long then, and the door as wide as drawn.",
    )
    yield one_part(WayKind.USE, lack, (Mend(part.mark, SHOULDER_MINUTES, steps),))
