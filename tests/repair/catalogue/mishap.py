"""A mishap of the catalogue as data: what happened, what a good maker does first, and why.

The catalogue judges the program, so nothing here knows how the program finds or names its ways; only
`asked_today.py` does. All answers are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction


class Cure(Enum):
    """What a maker does about a mishap."""

    USE_AS_IS = "use-as-is"
    TURN = "turn"  # end for end, over, or both
    SWAP = "swap"  # hands, roles or labels, with another part
    PLUG_AND_BORE = "plug-and-bore"
    LET_IN_STRIP = "let-in-strip"
    FILL_DADO = "fill-dado"
    LIP = "lip"  # with solid wood, along an edge
    TRIM_ITSELF = "trim-itself"
    TRIM_MATE = "trim-mate"
    CUT_MATE_TO_MATCH = "cut-mate-to-match"
    CENTRE_BACK = "centre-back"
    PACK_UP = "pack-up"
    REWORK_JOINT = "rework-joint"  # open a groove, so that what is glued need not come apart
    RECUT_LEFTOVER = "recut-leftover"
    RECUT_OTHER_BLANK = "recut-other-blank"
    RECUT_SPOILED = "recut-spoiled"
    RELAY = "relay"  # lay the fewest uncut sheets out again
    CHANGE_SIZE = "change-size"
    OTHER_MATERIAL = "other-material"
    LEAVE_OUT = "leave-out"
    BUY = "buy"


class Wrong(Enum):
    """How a feature came out wrong."""

    FACE = "wrong face"
    END = "wrong end"
    EDGE = "wrong edge"
    PLACE = "wrong place"
    WIDE = "too wide"
    DEEP = "too deep"


@dataclass(frozen=True)
class Measures:
    """A part came out at this size, in inches, its length along the grain."""

    part: str
    length: Fraction
    width: Fraction


@dataclass(frozen=True)
class Lost:
    """A finished part cannot be found."""

    part: str


@dataclass(frozen=True)
class FeatureWrong:
    """A feature was cut wrong; `by` says by how far, in inches, away from its reference edge."""

    part: str
    feature: str
    wrong: Wrong
    by: Fraction | None


@dataclass(frozen=True)
class WorkedAs:
    """A part has the features of another; all of them, or those named."""

    part: str
    other: str
    features: tuple[str, ...]


@dataclass(frozen=True)
class Damaged:
    """A part is torn, chipped or crushed at a place, so far in from its edge, in inches."""

    part: str
    place: str
    size: Fraction


@dataclass(frozen=True)
class OfMaterial:
    """A part was cut from another material, or from a sheet that is `thinner` by so much, in inches."""

    part: str
    material: str
    thinner: Fraction = Fraction(0)


@dataclass(frozen=True)
class Labelled:
    """Two parts carry each other's label, and are `worked` as each other."""

    part: str
    other: str
    worked: bool = False


@dataclass(frozen=True)
class MadeAs:
    """A part was cut and worked as another."""

    part: str
    other: str


@dataclass(frozen=True)
class GluedWithout:
    """A case was glued up before a part was in."""

    case: str
    part: str


@dataclass(frozen=True)
class WoodGone:
    """A piece of wood is lost, or bad."""

    wood: str
    bad: bool


@dataclass(frozen=True)
class WoodFlawed:
    """A fault in a piece of wood, so far from its left end and its near edge, so long and wide, in inches.
    `hits` are the parts that were to be cut there."""

    wood: str
    along: Fraction
    across: Fraction
    length: Fraction
    width: Fraction
    hits: tuple[str, ...]


Report = (
    Measures
    | Lost
    | FeatureWrong
    | WorkedAs
    | MadeAs
    | Damaged
    | OfMaterial
    | Labelled
    | GluedWithout
    | WoodGone
    | WoodFlawed
)


@dataclass(frozen=True)
class Wood:
    """A piece of wood on hand and the parts still to be cut from it.

    Lengths are in inches; a whole sheet has the size its job says, so both are None.
    """

    name: str
    material: str
    length: Fraction | None
    width: Fraction | None
    planned: tuple[str, ...]


@dataclass(frozen=True)
class Mishap:
    """One mishap. Every part that lies on no piece of `wood` has been cut.

    `worked` parts have their features cut; `answer` is the first thing to do, `acceptable` are second
    answers that a maker would not argue with, `buys` says whether anything must be bought.
    """

    name: str
    job: str
    stage: str
    happened: str
    reports: tuple[Report, ...]
    wood: tuple[Wood, ...]
    worked: tuple[str, ...]
    glued: tuple[str, ...]
    answer: Cure
    acceptable: tuple[Cure, ...]
    why: str
    buys: bool
