"""The wall that cases hang on: where its studs stand, and which walls are for a licensed person."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..shop.walls import USUAL_LINING, USUAL_STUD, Framing


@dataclass(frozen=True)
class WallQuestion:
    """A wall for which nothing is reckoned here: why, and what to ask and whom."""

    why: str
    ask: str


def wall_question(kind: Framing | None) -> WallQuestion | None:
    """What to ask before anything hangs on a wall of that kind, None where nobody has looked; None for wood
    studs."""
    return {
        Framing.WOOD_STUDS: None,
        Framing.METAL_STUDS: WallQuestion(
            "wood screws hold by their thread in wood; a metal stud gives them a thin sheet.",
            "Ask a licensed contractor or engineer whether the studs carry the loaded cases, and whether "
            "wood blocking is to be let into the wall first.",
        ),
        Framing.MASONRY: WallQuestion(
            "what an anchor bears in masonry depends on the anchor, the block or brick, and the joints.",
            "Ask a licensed contractor or engineer which anchors this wall takes for the weight of the "
            "loaded cases, how deep and how far apart.",
        ),
        None: WallQuestion(
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
    covering: Fraction = USUAL_LINING
    stud_width: Fraction = USUAL_STUD

    def __post_init__(self) -> None:
        if not self.studs:
            raise ValueError("a wall to hang cases on needs at least one stud")
        for one, following in zip(self.studs, self.studs[1:], strict=False):
            if following - one < self.stud_width:
                raise ValueError(
                    f"studs at {float(one):g} in and {float(following):g} in overlap or stand out of order"
                )
