"""The wall that cases hang on: where its studs stand, and which walls are for a licensed person."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

STUD_WIDTH = Fraction(3, 2)
"""The face of a 2 x 4 or 2 x 6 stud, inches: American Softwood Lumber Standard PS 20."""

USUAL_SPACINGS = (Fraction(16), Fraction(24))
"""From centre to centre, inches: IRC Table R602.3(5), read in a guide to it."""


class WallKind(Enum):
    """What stands behind the wall's face."""

    WOOD_STUDS = "wood studs"
    METAL_STUDS = "metal studs"
    MASONRY = "masonry"
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class WallQuestion:
    """A wall for which nothing is reckoned here: why, and what to ask and whom."""

    why: str
    ask: str


def wall_question(kind: WallKind) -> WallQuestion | None:
    """What to ask before anything hangs on a wall; None for wood studs."""
    return {
        WallKind.WOOD_STUDS: None,
        WallKind.METAL_STUDS: WallQuestion(
            "wood screws hold by their thread in wood; a metal stud gives them a thin sheet.",
            "Ask a licensed contractor or engineer whether the studs carry the loaded cases, and whether "
            "wood blocking is to be let into the wall first.",
        ),
        WallKind.MASONRY: WallQuestion(
            "what an anchor bears in masonry depends on the anchor, the block or brick, and the joints.",
            "Ask a licensed contractor or engineer which anchors this wall takes for the weight of the "
            "loaded cases, how deep and how far apart.",
        ),
        WallKind.UNKNOWN: WallQuestion(
            "it is not known what stands behind the face of this wall.",
            "Find the studs and measure to them from the end of the wall; where there are none, ask a "
            "licensed contractor what the wall can carry.",
        ),
    }[kind]


@dataclass(frozen=True)
class StudWall:
    """A wall of wood studs; `studs` are their middles, inches from the wall's left end, `covering` the
    thickness of the drywall or plaster over them, `wood` what they are, by its name in `lumber_gravities`.

    Raises ValueError where there is no stud, or where two overlap.
    """

    studs: tuple[Fraction, ...]
    wood: str
    covering: Fraction = Fraction(1, 2)
    stud_width: Fraction = STUD_WIDTH

    def __post_init__(self) -> None:
        if not self.studs:
            raise ValueError("a wall to hang cases on needs at least one stud")
        for one, following in zip(self.studs, self.studs[1:], strict=False):
            if following - one < self.stud_width:
                raise ValueError(
                    f"studs at {float(one):g} in and {float(following):g} in overlap or stand out of order"
                )


def studs_every(first: Fraction, spacing: Fraction, wall: Fraction) -> tuple[Fraction, ...]:
    """Middles of studs from the `first`, so far apart, to the end of a wall so long, inches.

    Raises ValueError where the spacing is not more than zero.
    """
    if spacing <= 0:
        raise ValueError(f"the spacing of studs must be more than zero, not {float(spacing):g} in")
    return tuple(first + number * spacing for number in range(int((wall - first) // spacing) + 1))
