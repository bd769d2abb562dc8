"""A job as the maker decides it: openings, cases, construction. Values only; nothing is worked out.

Lengths are in inches, whatever unit the maker wrote. Every field of the construction can be set for the
whole job and again for a single case.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from enum import Enum
from fractions import Fraction

from ..lengths.length import Mark, Unit
from ..shop.edging import Edging
from ..shop.hinges import Hinge
from ..shop.machines import Shop
from ..shop.materials import SheetGood
from ..shop.moisture import USUAL_CLIMATE, Climate
from ..shop.prices import NO_PRICES, Prices
from ..shop.shelf_use import USUAL_USE, OwnUse, ShelfUse
from ..shop.slides import Slide
from ..shop.walls import UNKNOWN_WALL, KnownWall
from .front_choices import DoorKind, DrawerBottom, DrawerGrain, DrawerJoint, Front, FrontGrain, FrontLie


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


class Grade(Enum):
    """How good a joint in sight must be, in the grades of the casework standards."""

    ECONOMY = "economy"
    CUSTOM = "custom"
    PREMIUM = "premium"


class ToeKind(Enum):
    NOTCH = "notch"
    PLINTH = "plinth"
    NONE = "none"


class FaceFrame(Enum):
    """Whether a frame of solid wood covers the front of a case, and how its parts are joined."""

    NONE = "none"
    POCKET_SCREWS = "pocket screws"
    HALF_LAPS = "half laps"
    DOWELS = "dowels"
    MORTISE_AND_TENON = "mortise and tenon"


@dataclass(frozen=True)
class Construction:
    """How cases are put together. Depths and plays in inches.

    `dado_play` is how much wider a dado is than the panel in it, and `groove_play` the same for the
    groove of the back. `back_play` is how much smaller the back is than the space between the groove
    floors, both edges together, and `shelf_play` the same for adjustable shelves. `back_inset` is the
    space behind the back if there is no mounting strip. `bottom_up` is the height of the bottom above
    the lower ends of the sides if there is no toe notch; `top_down` is how far a dadoed top sits below
    their upper ends. The stiles of a face frame stand `frame_past` beyond the outside of the case; its lower
    rail comes level with the upper face of the bottom. Dowels of `frame_dowel` across stand
    `frame_dowel_depth` deep in each piece, glue room included; tenons are `frame_tenon` long and as thick as
    the mortise is wide, `frame_mortise`.

    Between neighbouring doors and drawer fronts is `front_gap`. Fronts over the case's edges leave half of it
    at its sides, and end `front_top` below its upper end, or lap each edge by `front_lap`; their backs are
    `front_off` before the case. Inset ones have the gap all round. `front_grain` says whether those of a bay
    are cut from one piece, `drawer_grain` which way that of drawer fronts and fixed fronts runs.
    `door_tongue` is how far the rails and the panel of a framed door go into its grooves, and `panel_play`
    how much smaller the panel is than the space between the groove floors, both edges together.

    All that is cut into the parts of a drawer box is `drawer_cut` deep: the dados or rabbets of its corners
    and the grooves of its bottom. Locked rabbets have dados `drawer_tongue` wide. The groove of the bottom
    begins `drawer_up` above the lower edges, or where the slides need it. `drawer_play` is how much smaller
    the bottom is than the space between the groove floors, both edges together. Half-blind tails go
    `drawer_tail` into front and back; end grain that shows at a dovetailed corner stands `drawer_proud` until
    it is planed off. A jig cuts tails `drawer_pitch` apart; zero where they are laid out freely.
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
    frame: FaceFrame = FaceFrame.NONE
    frame_stile: Fraction = Fraction(3, 2)
    frame_rail: Fraction = Fraction(3, 2)
    frame_mullion: Fraction = Fraction(3, 2)
    frame_past: Fraction = Fraction(0)
    frame_dowel: Fraction = Fraction(3, 8)
    frame_dowel_depth: Fraction = Fraction(17, 16)
    frame_tenon: Fraction = Fraction(1)
    frame_mortise: Fraction = Fraction(1, 4)
    fronts: FrontLie = FrontLie.FULL_OVERLAY
    front_gap: Fraction = Fraction(1, 8)
    front_lap: Fraction = Fraction(1, 2)
    front_top: Fraction = Fraction(1, 8)
    front_off: Fraction = Fraction(1, 16)
    front_grain: FrontGrain = FrontGrain.RUNS_ON
    drawer_grain: DrawerGrain = DrawerGrain.LEVEL
    door: DoorKind = DoorKind.SLAB
    door_stile: Fraction = Fraction(9, 4)
    door_rail: Fraction = Fraction(9, 4)
    door_tongue: Fraction = Fraction(3, 8)
    panel_play: Fraction = Fraction(1, 8)
    drawer_joint: DrawerJoint = DrawerJoint.LOCKED_RABBET
    drawer_bottom: DrawerBottom = DrawerBottom.ALL_ROUND
    drawer_cut: Fraction = Fraction(1, 4)
    drawer_tongue: Fraction = Fraction(1, 4)
    drawer_up: Fraction = Fraction(1, 4)
    drawer_play: Fraction = Fraction(1, 16)
    drawer_tail: Fraction = Fraction(3, 8)
    drawer_proud: Fraction = Fraction(1, 32)
    drawer_pitch: Fraction = Fraction(0)

    @property
    def has_frame(self) -> bool:
        """Whether a face frame stands before the case."""
        return self.frame is not FaceFrame.NONE


CONSTRUCTION_SIZES = tuple(entry.name for entry in fields(Construction) if entry.type == "Fraction")
"""The fields of the construction that are lengths."""


@dataclass(frozen=True)
class Materials:
    """The sheet good of each kind of part, by key."""

    case: str
    back: str
    shelf: str
    strip: str
    toe: str
    frame: str
    front: str
    panel: str
    drawer: str
    drawer_bottom: str


@dataclass(frozen=True)
class Edged:
    """The edging on the front edges of a case's parts, by the key of the edging; None for bare edges.

    `case` covers sides, bottom, top, front stretcher and dividers, `shelf` fixed and adjustable shelves,
    `front` doors and drawer fronts, on all four edges.
    """

    case: str | None = None
    shelf: str | None = None
    front: str | None = None


@dataclass(frozen=True)
class FittedWith:
    """The hinges and drawer slides of a case, by their keys in the job; None where the maker names none.
    `divider_hinge` is that of doors that hang on a divider, which cover only half of it."""

    hinge: str | None = None
    divider_hinge: str | None = None
    slide: str | None = None


@dataclass(frozen=True)
class EdgesOf:
    """The edging of one part by its edges, where it differs from the rest of its kind."""

    front: str | None = None
    back: str | None = None
    left: str | None = None
    right: str | None = None
    lower: str | None = None
    upper: str | None = None


@dataclass(frozen=True)
class Bay:
    """The room between two uprights.

    `width` is its clear width, or None for a share of the width left over, in proportion to `weight`.
    `fixed` lists the clear height below each fixed shelf, from the bottom up; `adjustable` is the number
    of shelves on pins. `fronts` lists the doors and drawers before it, from the bottom up.
    """

    width: Fraction | None = None
    weight: Fraction = Fraction(1)
    fixed: tuple[Fraction, ...] = ()
    adjustable: int = 0
    fronts: tuple[Front, ...] = ()


@dataclass(frozen=True)
class CaseSpec:
    """One case. With `width` None it takes a share of what the opening leaves, in proportion to `weight`.

    `mark` prefixes the marks of its parts. `construction` and `materials` are the job's with this
    case's own choices applied; `chosen` names the fields of the construction that the case sets itself. With
    `frame_with_left` one face frame covers it and the case at its left. `shelves` is what they are to bear.
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
    edged: Edged = Edged()
    fitted: FittedWith = FittedWith()
    frame_with_left: bool = False
    shelves: ShelfUse = USUAL_USE


@dataclass(frozen=True)
class Filler:
    """A strip that closes the run against a wall: `width` in sight, plus `scribe` to plane away.

    With `width` None it takes what the cases leave of the opening.
    """

    width: Fraction | None
    scribe: Fraction
    material: str


@dataclass(frozen=True)
class Worktop:
    """A top that lies on the base cases of a run, made or bought by itself: `thick`, standing out `overhang`
    in front of the cases, inches; `weight` in pounds a square foot, None where nobody says."""

    thick: Fraction
    overhang: Fraction = Fraction(0)
    weight: Fraction | None = None


@dataclass(frozen=True)
class Run:
    """Cases side by side along one wall.

    `opening` is the measured width to fill, `ceiling` the measured height of the room if known, `lift` the
    height of the cases' lower ends above the floor (for wall cases), `along` the distance from the left
    end of the wall to the opening. `gap` is left at each end that has no filler. `wall_length` is the
    measured length of the wall, if known; it holds for every run along that wall. At an end with
    `left_scribe` or `right_scribe` the stile reaches the wall across the gap, with so much to plane away.
    `wall_gaps` are how far the wall is from a level line stretched along it, at equal steps across the
    opening; `left_gaps` and `right_gaps` how far the walls at its ends are from a plumb line, at equal steps
    upwards. `worktop` lies on its base cases.
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
    wall_length: Fraction | None = None
    left_scribe: Fraction | None = None
    right_scribe: Fraction | None = None
    wall_gaps: tuple[Fraction, ...] = ()
    left_gaps: tuple[Fraction, ...] = ()
    right_gaps: tuple[Fraction, ...] = ()
    worktop: Worktop | None = None

    @property
    def under_worktop(self) -> tuple[CaseSpec, ...]:
        """The base cases, on which a worktop lies; none without one."""
        return tuple(spec for spec in self.cases if spec.kind is CaseKind.BASE) if self.worktop else ()

    def top_of(self, spec: CaseSpec) -> Fraction:
        """Inches above the floor of a case's upper end, with the worktop where one lies on it."""
        thick = self.worktop.thick if self.worktop and spec in self.under_worktop else Fraction(0)
        return self.lift + spec.height + thick

    @property
    def framed_together(self) -> tuple[tuple[CaseSpec, ...], ...]:
        """The cases in groups, from left to right: those that share a face frame, every other by itself."""
        found: list[list[CaseSpec]] = []
        for spec in self.cases:
            if spec.frame_with_left and found:
                found[-1].append(spec)
            else:
                found.append([spec])
        return tuple(tuple(group) for group in found)


@dataclass(frozen=True)
class Job:
    """The whole job. `mark` is the finest mark of the shop's rule.

    `rounding` is the mark to which shared widths are rounded. `optional` lists the marks
    of parts that can be given up, `left_out` those of parts that are not made, and `sheet_of` the
    materials of single parts, by mark, that differ from the rest of their kind. `either_way` lists the marks
    of parts whose grain may run along or across. `grade` is how good a joint in sight must be. `edging` has
    the kinds of edging by key, `edging_of` the edged edges of single parts by mark.
    `as_cut` gives the sizes of parts that came out otherwise than drawn and are used so, by their names in
    the ledger. `hinges` and `slides` are the maker's own, by key; `climate` is how
    moist solid wood is in shop and house. `walls` are those of which something is known, by name;
    `prices` are those of what no material has in it, `loads_of` what single shelves bear, by mark.
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
    either_way: frozenset[str] = field(default=frozenset())
    grade: Grade = Grade.CUSTOM
    edging: Mapping[str, Edging] = field(default_factory=dict)
    edging_of: Mapping[str, EdgesOf] = field(default_factory=dict)
    as_cut: Mapping[str, Fraction] = field(default_factory=dict)
    hinges: Mapping[str, Hinge] = field(default_factory=dict)
    slides: Mapping[str, Slide] = field(default_factory=dict)
    climate: Climate = USUAL_CLIMATE
    walls: Mapping[str, KnownWall] = field(default_factory=dict)
    prices: Prices = NO_PRICES
    loads_of: Mapping[str, OwnUse] = field(default_factory=dict)

    def use_of(self, shelf: str, spec: CaseSpec) -> ShelfUse:
        """What a shelf of a case is for, by its mark."""
        own = self.loads_of.get(shelf)
        return own.over(spec.shelves) if own else spec.shelves

    def wall_of(self, name: str) -> KnownWall:
        """What is known of the wall of that name."""
        return self.walls.get(name, UNKNOWN_WALL)
