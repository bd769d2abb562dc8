"""One operation: a piece, a machine, how the machine is set, and what must be done first.

Operations with the same setting are one batch. Distances of the fence are from its face to the
nearer side of the cutter, so the kerf is accounted for whichever part of the piece is kept.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ..casework.fronts_in_one_piece import FrontsInOnePiece
from .freed_pieces import FreedPiece, StackedPiece


class OperationKind(Enum):
    """What is done to the wood."""

    ROUGH_CROSSCUT = "crosscut to rough length"  # of a board, as is jointing, ripping and planing
    JOINT = "joint"
    ROUGH_RIP = "rip to rough width"
    PLANE = "plane"
    EDGE_AGAIN = "joint an edge again"  # of a planed strip, before it is ripped to size
    EDGE_PAIRS = "joint edges in pairs"  # of strips that are glued up to a panel
    GLUE_PANEL = "glue up"
    FLUSH = "level"  # a panel, once it is glued up
    CARRY = "carry cut"  # cuts a sheet into pieces that can be carried, with the hand-held saw
    TRIM = "trim cut"
    RIP = "rip"
    CROSSCUT = "crosscut"
    DADO = "dado"
    GROOVE = "groove"
    RABBET = "rabbet"
    LAP = "half lap"
    TONGUE = "tongue"
    NOTCH = "notch"
    BORE = "bore"
    FRAME_JOINT = "frame joint"
    DOVETAILS = "dovetails"
    EDGE = "edging"
    DRY_FIT = "dry fit"
    JOIN = "assemble"
    EDGE_CASE = "edging over the front"

    @property
    def cuts_up_a_sheet(self) -> bool:
        """Whether it cuts up a sheet, rather than machines a part."""
        return self in (OperationKind.CARRY, OperationKind.TRIM, OperationKind.RIP, OperationKind.CROSSCUT)

    @property
    def is_channel(self) -> bool:
        """Whether it is a pass over a cutter that does not part the wood."""
        return self.on_sled or self in (OperationKind.DADO, OperationKind.GROOVE, OperationKind.RABBET)

    @property
    def on_sled(self) -> bool:
        """Whether it is a pass across a narrow piece, which lies on the crosscut sled."""
        return self in (OperationKind.LAP, OperationKind.TONGUE)

    @property
    def mills_boards(self) -> bool:
        """Whether it brings rough boards to strips and panels of one thickness, before parts are cut to
        size."""
        return self in (
            OperationKind.ROUGH_CROSSCUT,
            OperationKind.JOINT,
            OperationKind.ROUGH_RIP,
            OperationKind.PLANE,
            OperationKind.EDGE_AGAIN,
            OperationKind.EDGE_PAIRS,
            OperationKind.GLUE_PANEL,
            OperationKind.FLUSH,
        )

    @property
    def edges(self) -> bool:
        """Whether it puts edging on, over a part or over the front of a case."""
        return self in (OperationKind.EDGE, OperationKind.EDGE_CASE)


class Machine(Enum):
    HAND_SAW = "hand-held saw"
    TABLE_SAW = "table saw"
    DRILL = "drill"
    CROSSCUT_SAW = "any crosscut saw"
    JOINTER = "jointer"
    PLANER = "planer"
    BENCH = "bench"  # hands, clamps and glue: nothing to set

    @property
    def has_settings(self) -> bool:
        """Whether it keeps a setting from one piece to the next; a straightedge does not."""
        return self in (Machine.TABLE_SAW, Machine.DRILL)


class Guide(Enum):
    """What guides the piece past the cutter, or the saw past the piece."""

    STRAIGHTEDGE = "straightedge"
    FENCE = "fence"
    SACRIFICIAL_FENCE = "sacrificial fence"
    STOP = "crosscut sled and stop"
    PIN_JIG = "pin jig"
    STORY_STICK = "story stick"
    FRONT_FACE = "fence or jig on the front face"
    CLAMPS = "clamps"
    LINE = "pencil line"
    BED = "planer's bed"


@dataclass(frozen=True, slots=True)
class Cutter:
    """The blade, stack or bit in a machine; `width` is what one pass removes, in inches."""

    name: str
    width: Fraction


@dataclass(frozen=True, slots=True)
class Setting:
    """How a machine is set; equal settings need no change between them.

    `distance` is from the guide's face to the near side of the cutter (to the holes' centre for
    a drill). `height` is how far the cutter stands above the table (the bit's stop for a drill);
    None where it goes right through. `buried` is how much of the cutter stands inside a
    sacrificial fence; then `distance` is zero.
    """

    machine: Machine
    cutter: Cutter
    guide: Guide
    distance: Fraction
    height: Fraction | None = None
    buried: Fraction = Fraction(0)

    @property
    def far_side(self) -> Fraction:
        """From the guide's face to the far side of the cutter."""
        return self.distance + self.cutter.width


HANDS = Setting(Machine.BENCH, Cutter("by hand", Fraction(0)), Guide.CLAMPS, Fraction(0))
"""Work at the bench: nothing is set."""


@dataclass(frozen=True, slots=True)
class Hold:
    """How to hold the piece, in words a maker reads at the machine.

    `against` is the edge held against the guide, `down` what lies on the table and `leads` the
    edge that goes first, with the fence to the right of the blade. `lengthwise` tells whether the
    piece's length runs along the guide.
    """

    against: str
    down: str
    leads: str
    lengthwise: bool


@dataclass(frozen=True, slots=True)
class Operation:
    """One pass on one piece.

    `key` is a stable name (`B1-L dado-bottom`, `ply 1 cut 3`); ticks are kept under it. `piece`
    is what is being worked on, `parts` the marks of the parts that come of it (or that a joining
    brings together), `after` the keys of operations that must be done first. `size` is the
    piece's length, width and thickness as it comes to the machine (along the grain first),
    `travel` how far the cutter runs in it, `makes` the size that is kept for cuts that part a piece,
    `holes` how many are bored, `feature` the name of the feature of a part that it cuts, `sizes` the marks of
    the parts in the piece that it cuts to size. `together` are the keys of the cuts by hand that are made in
    one pass with it, its own among them; `marked_from` is the part from which its line is struck in place of
    the rule; `fronts` are those that come from one piece and that it is the first to part. A cut of a sheet
    also names the piece taken to the table saw that it cuts or cuts a piece of (`carried`; None before the
    sheet has been there), what it `leaves`, and how much of what lies beyond it may be lost without harm to a
    part, here and at each cut before (`spare`). `moved` is how much further from the cutter the fence stands
    than for the pass before in the same channel. What is done `when_finished` comes at the end of the job,
    although little of it must be there first.
    """

    key: str
    kind: OperationKind
    piece: str
    parts: tuple[str, ...]
    setting: Setting
    hold: Hold
    size: tuple[Fraction, Fraction, Fraction]
    travel: Fraction
    after: tuple[str, ...] = ()
    makes: Fraction | None = None
    holes: int = 0
    feature: str = ""
    sizes: tuple[str, ...] = ()
    together: tuple[str, ...] = ()
    marked_from: str = ""
    fronts: FrontsInOnePiece | None = None
    carried: StackedPiece | None = None
    leaves: tuple[FreedPiece, ...] = ()
    spare: Fraction = Fraction(0)
    moved: Fraction = Fraction(0)
    when_finished: bool = False

    @property
    def across(self) -> Fraction:
        """The piece's size from the edge that lies against the guide to the one opposite."""
        return self.size[1] if self.hold.lengthwise else self.size[0]

    @property
    def along(self) -> Fraction:
        """The length of the edge that lies against the guide."""
        return self.size[0] if self.hold.lengthwise else self.size[1]

    @property
    def waste(self) -> Fraction:
        """What a trim takes off, kerf included."""
        return self.across - (self.makes or Fraction(0))

    @property
    def straightedge(self) -> Fraction:
        """Where the straightedge stands on the side that is kept, from the edge that is named; zero or less
        where the piece is narrower than the saw's base reaches."""
        if self.kind is OperationKind.TRIM:
            return self.waste + self.setting.distance
        return (self.makes or Fraction(0)) - self.setting.distance


def cut_key(material: str, sheet: int, order: int) -> str:
    """The key of a cut of a sheet plan."""
    return f"{material} {sheet} cut {order}"


_CUT_KEY = re.compile(r"(.+) (\d{1,9}) cut \d+", re.ASCII)


def sheet_of_cut(key: str) -> tuple[str, int] | None:
    """The material and the number of the sheet that a key made by `cut_key` names; None for any other key."""
    named = _CUT_KEY.fullmatch(key)
    return None if named is None else (named[1], int(named[2]))
