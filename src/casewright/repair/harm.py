"""What is wrong with a part beside its size: which feature, on which face or from which end, or a damage."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
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
    LARGE = "too wide or too deep"
    SMALL = "too narrow or too shallow"
    DAMAGE = "damaged"


TURNED_ROUND = frozenset({HarmKind.FACE, HarmKind.END, HarmKind.EDGE})
"""Faults after which the feature lies where its mirror image should."""


@dataclass(frozen=True)
class Harm:
    """One fault of a part: of its `feature`, or a damage of one `side` of it.

    A damage may be `long` along that side and `deep` in from it, in inches; zero where nobody said.
    """

    fault: HarmKind
    feature: str = ""
    side: Way | None = None
    long: Fraction = Fraction(0)
    deep: Fraction = Fraction(0)


def lost_along(harms: Iterable[Harm], axis: Axis) -> Fraction | None:
    """What the damages leave unsound along an axis, in from its two sides together.

    None where a depth is not known, or the harm is no damage.
    """
    lost = Fraction(0)
    for harm in harms:
        if harm.fault is not HarmKind.DAMAGE or harm.side is None:
            return None
        if harm.side.axis is axis:
            if not harm.deep:
                return None
            lost += harm.deep
    return lost
