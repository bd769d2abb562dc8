"""What is wrong with a part beside its size: a feature, its sheet, its label, or a damage."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from ..casework.directions import Axis, Way


class HarmKind(Enum):
    """What is wrong."""

    MIRRORED = "made as the other of its pair"
    FACE = "on the other face"
    END = "from the wrong end"
    EDGE = "from the wrong edge"
    PLACE = "out of place"
    LARGE = "too wide"
    DEEP = "too deep"
    SMALL = "too narrow"
    SHALLOW = "too shallow"
    DAMAGE = "damaged"
    MATERIAL = "cut from another material"
    MADE_AS = "made as another part"
    LEFT_OUT = "not in when its case was glued"


TURNED_ROUND = frozenset({HarmKind.FACE, HarmKind.END, HarmKind.EDGE})
"""Faults after which the feature lies where its mirror image should."""

MISPLACED = TURNED_ROUND | {HarmKind.PLACE}
"""Faults of where a feature is, of which it can have one."""

CUT_AMISS = MISPLACED | {HarmKind.LARGE, HarmKind.DEEP, HarmKind.SMALL, HarmKind.SHALLOW}
"""Faults of one feature."""

DEEP_IF_UNTOLD = Fraction(1, 8)
"""How deep a damage is taken to be where nobody said (inches; common practice, no source)."""


@dataclass(frozen=True)
class Harm:
    """One fault of a part: of its `feature`, a damage of one `side` of it, the `material` it was cut from, or
    the `other` part that it was made as.

    A damage may be `long` along that side and `deep` in from it, in inches; zero where nobody said. A feature
    may be out `by` so much (inches; zero where nobody said): out of place is farther from the edge that
    it is measured from, for a row of holes from the end that it is laid out from; less than zero is nearer.
    A part cut from another sheet is thicker `by` so much.
    """

    fault: HarmKind
    feature: str = ""
    side: Way | None = None
    long: Fraction = Fraction(0)
    deep: Fraction = Fraction(0)
    by: Fraction = Fraction(0)
    material: str = ""
    other: str = ""

    @property
    def off(self) -> Fraction:
        """By how much a feature is out, whichever way."""
        return abs(self.by)

    @property
    def deep_or_taken(self) -> Fraction:
        """How deep a damage goes, as told or as it is taken (inches)."""
        return self.deep or DEEP_IF_UNTOLD

    def turned_nearer(self) -> Harm:
        """The same fault, too near the edge by what it was too far from it."""
        return replace(self, by=-self.by)


def lost_along(harms: Iterable[Harm], axis: Axis) -> Fraction | None:
    """What the damages leave unsound along an axis, in from its two sides together.

    None where a depth is not known, or a harm is neither a damage nor another material.
    """
    lost = Fraction(0)
    for harm in harms:
        if harm.fault is HarmKind.MATERIAL:
            continue
        if harm.fault is not HarmKind.DAMAGE or harm.side is None:
            return None
        if harm.side.axis is axis:
            if not harm.deep:
                return None
            lost += harm.deep
    return lost
