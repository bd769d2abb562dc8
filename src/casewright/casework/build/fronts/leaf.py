"""A leaf: one door or drawer front, of one piece or of several, as its outline sees it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ....sizes.affine import Affine
from ...directions import Axis, Way
from ...parts.part import Hand, Lie, Role
from ..case_draft import CaseDraft, PartDraft
from ..meetings import Surface

DOOR_LIE = Lie(Axis.Z, Axis.X, Way.BACK)
FRONT_LIE = Lie(Axis.X, Axis.Z, Way.BACK)
"""Whatever is cut or bored into a front goes into the face that nobody sees."""


@dataclass(frozen=True)
class FrontLeaf:
    """The part at each side of a leaf, by the side's direction; in front and behind it is
    the one that it is hung by."""

    short: str
    mark: str
    width: Affine
    height: Affine
    at: Mapping[Way, PartDraft]

    def side(self, way: Way) -> Surface:
        """Its side that faces `way`, as a surface that can meet another."""
        return self.at[way].side(way, f"{self.mark} {way.word}")


def slab(
    case: CaseDraft, short: str, role: Role, lie: Lie, width: Affine, height: Affine, hand: Hand = Hand.NONE
) -> FrontLeaf:
    """A leaf in one piece of the fronts' material; a door's `hand` is the side it is hung on."""
    length, across = (height, width) if lie.length is Axis.Z else (width, height)
    part = case.part(short, role, case.spec.materials.front, lie, length, across, hand=hand)
    return FrontLeaf(short, part.mark, width, height, dict.fromkeys(Way, part))
