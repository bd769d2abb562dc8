"""A way to repair, as data: what to do, what the job becomes, and what it costs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction

from ...boards.board_plan import BoardPlan
from ...boards.cut_once_more import WoodSource
from ...casework.directions import Way
from ...casework.project import Project
from ...planner.plan import Plan
from ...planner.problem import Problem
from ...workshop.changed_cuts import ChangedCut
from ..price import Cost


class WayKind(Enum):
    """The kinds of repair, those that touch least first; the best of each kind is always shown."""

    USE = "use it as it is"
    TURN = "turn it end for end or over"
    ROLES = "let pieces change places"
    CENTRE = "centre it"
    PACK = "pack up one end"
    PACK_IN = "pack out the channels it stands in"
    THICKER_STRIP = "edge it with a thicker strip"
    LIP = "lip its edge with solid wood"
    LET_IN = "let in a strip"
    TO_SIZE = "cut the feature to size"
    FILL = "fill the wrong channel and cut it again"
    PLUG = "plug the holes and bore again"
    OPEN = "open the glued joint from behind"
    MIXED = "each part its own cure"
    RECUT = "cut it again from wood on hand"
    GIVE_UP = "leave a part out"
    SWAP = "make it from another material"
    BUILD_OUT = "glue a strip to its edge"
    MATCH = "cut its mate to match"
    MOVE = "change a size so that it fits"
    TRIM = "trim the other parts to match"
    SMALLER_BOX = "make its drawer box smaller"
    BAYS = "change its bays over"
    BUY_BOARD = "buy a board and mill it again"
    BUY = "buy a sheet and cut it again"


KINDS_THAT_BUY = frozenset({WayKind.BUY, WayKind.BUY_BOARD})
"""Buying is searched for too, where nothing else is enough, and is no way to do without."""


@dataclass(frozen=True)
class CutAgain:
    """Cut `mark` from `blank`."""

    mark: str
    blank: str


@dataclass(frozen=True)
class NewPlaces:
    """Lay out these uncut parts of a material again; `sheets` counts the pieces of wood disturbed."""

    material: str
    marks: tuple[str, ...]
    sheets: int = 1


@dataclass(frozen=True)
class Forgo:
    """Leave the part out."""

    mark: str


@dataclass(frozen=True)
class MakeOf:
    """Make the part from another material, given by its key."""

    mark: str
    material: str


@dataclass(frozen=True)
class GlueOn:
    """Rip the part back to `rip_to`, glue a strip `width` wide, sawn from `blank`, along that edge."""

    mark: str
    rip_to: Fraction
    width: Fraction
    blank: str


@dataclass(frozen=True)
class SetInput:
    """Change an input of the job, given by its name in the ledger, from `old` to `new`."""

    name: str
    words: str
    old: Fraction
    new: Fraction

    @property
    def moved(self) -> Fraction:
        """By how much it changes, whichever way."""
        return abs(self.new - self.old)


@dataclass(frozen=True)
class SwapBays:
    """Change the two bays of a case over: what stood on the left stands on the right."""

    case: str


@dataclass(frozen=True)
class TrimTo:
    """Trim a finished part to `length` x `width`; `sides` are the ends or edges that it may come off."""

    mark: str
    length: Fraction
    width: Fraction
    sides: tuple[tuple[Way, ...], ...] = ()


@dataclass(frozen=True)
class KeepAsCut:
    """Use the part as it was cut; `why` it serves, in a sentence."""

    mark: str
    why: str = ""


@dataclass(frozen=True)
class TakeSize:
    """From now on the part counts as having the size that it was cut to: the `sizes` that differ from those
    drawn, by their names in the ledger (inches)."""

    mark: str
    sizes: tuple[tuple[str, Fraction], ...]


@dataclass(frozen=True)
class ServeAs:
    """Let the piece made as `piece` serve as the part `mark`, once it is turned by `turn` and trimmed.

    A piece not yet cut (`planned`) is the place of its part in the sheet plan; a `worked` one has its
    features already, or `only` those of these names where some are still to be cut.
    """

    piece: str
    mark: str
    turn: str = ""
    trim: tuple[Fraction, Fraction] | None = None
    planned: bool = False
    worked: bool = False
    only: tuple[str, ...] = ()


@dataclass(frozen=True)
class Mend:
    """Work on the part itself: its `steps` in words, the `minutes` they take, where it shows, how it is
    turned for good (`end for end`), the names of the features that are cut `again`, where or as large as
    they belong, and the features, of whatever part, that are cut otherwise than drawn (`changes`)."""

    mark: str
    minutes: Fraction
    steps: tuple[str, ...]
    shows: str = ""
    turn: str = ""
    again: tuple[str, ...] = ()
    changes: tuple[ChangedCut, ...] = ()


@dataclass(frozen=True)
class Buy:
    """Buy `sheets` of a material, in the size called `name`."""

    material: str
    name: str
    sheets: int


@dataclass(frozen=True)
class MilledPlace:
    """Where on a board a strip for a part lies: the number that the board had so far and the `name` that is
    chalked on it (empty for one to buy), the stretch of it that is crosscut, how far the strip begins from
    its near edge, and whether it is a new length `fresh` from the board, or lies `within` a strip of the
    plan. `number` is what the board has from now on."""

    before: int
    name: str
    x: Fraction
    end: Fraction
    y: Fraction
    fresh: bool
    within: bool
    number: int

    @property
    def board(self) -> str:
        """`Board 2`, or `Board 1 (“A”)` for one at hand."""
        return f"Board {self.before} (“{self.name}”)" if self.name else f"Board {self.before}"


@dataclass(frozen=True)
class MillAgain:
    """Mill the part again from rough wood, at these places: several for one that is glued up from strips.

    `rough` is the rough length and width of each, `pieces` their number. `alone` says that it cannot go
    through jointer and planer with the rest, which is begun already."""

    mark: str
    source: WoodSource
    rough: tuple[Fraction, Fraction]
    places: tuple[MilledPlace, ...]
    pieces: int = 1
    alone: bool = False

    @property
    def strips(self) -> int:
        """How many strips are to be milled for it: the end of one that is there is none."""
        return self.pieces - sum(one.within for one in self.places)


@dataclass(frozen=True)
class BuyBoard:
    """Buy a board that is clear over this length and width, `feet` in all. So many are enough in `enough_in`
    of the `lots` drawn at random."""

    material: str
    length: Fraction
    width: Fraction
    feet: int
    enough_in: int
    lots: int


def while_only(features: Sequence[str]) -> str:
    """The condition under which a way holds that was found as long as nothing else is cut into the part."""
    *some, last = features
    before = f"{', '.join(some)} and " if some else ""
    return f"while nothing but {before}{last} is cut into it"


Action = (
    CutAgain
    | NewPlaces
    | Forgo
    | MakeOf
    | GlueOn
    | SetInput
    | SwapBays
    | TrimTo
    | KeepAsCut
    | TakeSize
    | ServeAs
    | Mend
    | Buy
    | MillAgain
    | BuyBoard
)


@dataclass(frozen=True)
class Option:
    """One complete way to finish the job.

    `project` is the job after the repair. `problems` and `plans`, by material, cover the parts that the
    current sheet plan no longer does, `boards` are the board plans that change; everything else stays as
    planned. `why` says in two sentences what is done and what it costs.
    """

    kind: WayKind
    actions: tuple[Action, ...]
    project: Project
    problems: Mapping[str, Problem]
    plans: Mapping[str, Plan]
    cost: Cost
    why: str
    boards: Mapping[str, BoardPlan] = field(default_factory=dict)

    @property
    def buys(self) -> bool:
        """Whether something must be bought for it."""
        return any(isinstance(action, Buy | BuyBoard) for action in self.actions)

    @property
    def changes(self) -> tuple[ChangedCut, ...]:
        """What is cut otherwise than the changed job draws it."""
        return tuple(one for action in self.actions if isinstance(action, Mend) for one in action.changes)


@dataclass(frozen=True)
class Ways:
    """Every way found, best first.

    `must_buy` is True when it is proved that no layout avoids buying a sheet, and no other way `searched`
    does; `proof` says why.
    """

    options: tuple[Option, ...]
    must_buy: bool
    proof: str
    searched: tuple[WayKind, ...] = ()

    def best_of(self, kind: WayKind) -> Option | None:
        """The best way of one kind, if there is one."""
        return next((option for option in self.options if option.kind is kind), None)
