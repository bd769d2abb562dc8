"""Faults in the wood itself, voids and splits, and where one lies on a part that was cut there.

All of it is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ..casework.directions import Axis, Way, third_axis
from ..casework.hidden_sides import is_hidden
from ..casework.parts.part import Part
from ..casework.project import Project
from ..planner.plan import SheetPlan
from .harm import Harm, HarmKind


@dataclass(frozen=True)
class Flaw:
    """A fault of a sheet: how far from the sheet's left end and near edge, how long and wide (inches)."""

    material: str
    sheet: int
    x: Fraction
    y: Fraction
    length: Fraction
    width: Fraction

    def reaches(self, x: Fraction, y: Fraction, length: Fraction, width: Fraction) -> bool:
        """Whether any of it lies within a rectangle of the sheet."""
        return (
            x < self.x + self.length
            and self.x < x + length
            and y < self.y + self.width
            and self.y < y + width
        )


def flaw_on(
    material: str, sheet: SheetPlan, at: tuple[Fraction, Fraction], size: tuple[Fraction, Fraction]
) -> Flaw | None:
    """A fault so far from a sheet's left end and near edge, and of this size (inches); None where it does not
    lie within the sheet."""
    root = sheet.root
    ends = (at[0] + size[0], at[1] + size[1])
    if min(at) < 0 or min(size) <= 0 or ends[0] > root.length or ends[1] > root.width:
        return None
    return Flaw(material, sheet.number, root.x + at[0], root.y + at[1], *size)


def flaws_of(flaws: Iterable[Flaw], material: str, sheet: int) -> tuple[Flaw, ...]:
    """Those of one sheet."""
    return tuple(one for one in flaws if (one.material, one.sheet) == (material, sheet))


def harms_of_flaw(
    project: Project, part: Part, flaw: Flaw, at: tuple[Fraction, Fraction], size: tuple[Fraction, Fraction]
) -> tuple[Harm, ...]:
    """The damage of a part that was cut where a fault is, from its corner and size on the sheet.

    Nothing is cut into it yet, so its better side is turned to where it is seen: the fault is told of a side
    that is hidden, where the part has one there.
    """
    across = size == project.dimensions(part)[1::-1]
    axes = (part.lie.width, part.lie.length) if across else (part.lie.length, part.lie.width)
    spans = [
        (max(Fraction(0), low - start), min(long, low + much - start), long)
        for low, much, start, long in zip((flaw.x, flaw.y), (flaw.length, flaw.width), at, size, strict=True)
    ]
    found: list[Harm] = []
    for (low, high, long), axis, (other_low, other_high, _) in zip(spans, axes, spans[::-1], strict=True):
        whole = low == 0 and high == long
        if not whole and (low == 0 or high == long):
            deep = high if low == 0 else long - low
            found.append(_damage(project, part, axis, other_high - other_low, deep))
    if found:
        return tuple(found)
    for (low, high, long), axis, (other_low, other_high, other) in zip(spans, axes, spans[::-1], strict=True):
        if other_low == 0 and other_high == other:  # a band from edge to edge: the shorter end is lost
            return (_damage(project, part, axis, other, min(high, long - low)),)
    face = third_axis(part.lie.length, part.lie.width)
    return (_damage(project, part, face, spans[0][1] - spans[0][0], Fraction(0)),)


def _damage(project: Project, part: Part, axis: Axis, long: Fraction, deep: Fraction) -> Harm:
    sides = [way for way in Way if way.axis is axis]
    side = next((way for way in sides if is_hidden(project, part, way)), sides[0])
    return Harm(HarmKind.DAMAGE, side=side, long=long if deep else Fraction(0), deep=deep)
