"""A job as the maker decides it: openings, cases, construction. Values only; nothing is worked out.

Lengths are in inches whatever the maker wrote. Everything the construction names may be set
for the whole job and again for one case.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from enum import Enum
from fractions import Fraction

from ..lengths.length import Mark, Unit
from ..shop.machines import Shop
from ..shop.materials import SheetGood


class CaseKind(Enum):
    BASE = "base"
    WALL = "wall"
    TALL = "tall"
    OPEN = "open"


class BottomJoint(Enum):
    DADO = "dado"
    BUTT = "butt"


class TopKind(Enum):
    RABBET = "rabbet"  # a panel let into rabbets at the sides' upper ends
    DADO = "dado"
    BUTT = "butt"  # a panel between the sides
    STRETCHERS = "stretchers"  # two strips between the sides, under a counter


class BackKind(Enum):
    GROOVE = "groove"
    RABBET = "rabbet"
    APPLIED = "applied"
    NONE = "none"


class ShelfJoint(Enum):
    DADO = "dado"
    BUTT = "butt"


class ToeKind(Enum):
    NOTCH = "notch"
    PLINTH = "plinth"
    NONE = "none"


@dataclass(frozen=True)
class Construction:
    """How cases are put together. Depths and plays in inches.

    `dado_play` is how much wider a dado is than the panel it takes, `groove_play` the same for
    the back's groove; `back_play` is how much smaller the back is than the room between the
    groove floors, over both edges; `shelf_play` the same for adjustable shelves. `back_inset`
    is what lies behind the back where no mounting strip does. `bottom_up` lifts the bottom of a
    case without toe kick above the lower ends of its sides; `top_down` sets a dadoed top below
    their upper ends.
    """

    bottom: BottomJoint = BottomJoint.DADO
    top: TopKind = TopKind.STRETCHERS
    back: BackKind = BackKind.GROOVE
    shelf: ShelfJoint = ShelfJoint.DADO
    toe: ToeKind = ToeKind.NOTCH
    dado_depth: Fraction = Fraction(1, 4)
    rabbet_depth: Fraction = Fraction(3, 8)
    groove_depth: Fraction = Fraction(1, 4)
    dado_play: Fraction = Fraction(0)
    groove_play: Fraction = Fraction(1, 64)
    back_play: Fraction = Fraction(1, 16)
    back_inset: Fraction = Fraction(1, 2)
    shelf_play: Fraction = Fraction(1, 8)
    shelf_setback: Fraction = Fraction(1, 4)
    toe_height: Fraction = Fraction(4)
    toe_depth: Fraction = Fraction(3)
    bottom_up: Fraction = Fraction(0)
    top_down: Fraction = Fraction(3, 4)
    stretcher_width: Fraction = Fraction(4)
    strip_width: Fraction = Fraction(4)
    strips: int = 1
    pin_first: Fraction = Fraction(6)
    pin_pitch: Fraction = Fraction(2)
    pin_setback: Fraction = Fraction(3, 2)
    pin_diameter: Fraction = Fraction(1, 4)
    pin_depth: Fraction = Fraction(5, 16)


CONSTRUCTION_SIZES = tuple(entry.name for entry in fields(Construction) if entry.type == "Fraction")
"""Those of the construction's fields that are lengths."""


@dataclass(frozen=True)
class Materials:
    """Which sheet good each kind of part is made of, by key."""

    case: str
    back: str
    shelf: str
    strip: str
    toe: str


@dataclass(frozen=True)
class Bay:
    """The room between two uprights.

    `width` is its clear width, or None for a share by `weight` of what is left. `fixed` lists
    fixed shelves by the clear height below each, from the bottom upwards; `adjustable` is how many
    shelves on pins it gets.
    """

    width: Fraction | None = None
    weight: Fraction = Fraction(1)
    fixed: tuple[Fraction, ...] = ()
    adjustable: int = 0


@dataclass(frozen=True)
class CaseSpec:
    """One case. `width` None shares what the run's opening leaves, by `weight`.

    `mark` prefixes the marks of its parts. `construction` and `materials` are already the
    job's with this case's own choices laid over them; `chosen` names the fields of the
    construction the case sets for itself.
    """

    mark: str
    kind: CaseKind
    width: Fraction | None
    height: Fraction
    depth: Fraction
    construction: Construction
    materials: Materials
    bays: tuple[Bay, ...] = (Bay(),)
    weight: Fraction = Fraction(1)
    chosen: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Filler:
    """A strip that closes the run against a wall: its `width` in sight, and `scribe` to plane away."""

    width: Fraction
    scribe: Fraction
    material: str


@dataclass(frozen=True)
class Run:
    """Cases side by side along one wall.

    `opening` is the measured width they must fill, `ceiling` the measured height of the room if
    known; `lift` the height of the cases' lower ends above the floor (wall cases), `along` how
    far from the wall's left end the opening begins. `gap` is the room left over at each end
    that has no filler.
    """

    name: str
    opening: Fraction
    cases: tuple[CaseSpec, ...]
    wall: str = "wall"
    along: Fraction = Fraction(0)
    lift: Fraction = Fraction(0)
    ceiling: Fraction | None = None
    left: Filler | None = None
    right: Filler | None = None
    gap: Fraction = Fraction(0)


@dataclass(frozen=True)
class Job:
    """The whole job. `mark` is the finest line of the shop's rule.

    `rounding` is the mark to which shared widths are brought, keeping their sum. Parts whose marks
    are `optional` may be given up, those `left_out` are not made, and `sheet_of` names by mark the
    material of single parts that are made of another than their kind.
    """

    name: str
    unit: Unit
    mark: Mark
    rounding: Mark
    money: str
    sheets: Mapping[str, SheetGood]
    shop: Shop
    construction: Construction
    runs: tuple[Run, ...] = ()
    notes: str = ""
    optional: frozenset[str] = field(default=frozenset())
    left_out: frozenset[str] = field(default=frozenset())
    sheet_of: Mapping[str, str] = field(default_factory=dict)
