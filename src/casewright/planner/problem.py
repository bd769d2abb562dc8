"""A break-down problem: the parts to cut, the sheets to cut them from, and how this shop cuts.

Lengths are exact `Fraction`s in one unit throughout: inches in the shop, any unit where nothing has a weight.
A sheet lies with its length, and its grain, along x and its width along y. A part's length lies along the
grain unless the part may be turned.
"""

from __future__ import annotations

from collections.abc import Container, Iterator
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction
from itertools import groupby

ZERO = Fraction(0)


class Direction(Enum):
    """Which way a cut runs."""

    RIP = "rip"  # with the length: the cut lies at one y
    CROSSCUT = "crosscut"  # across the length: the cut lies at one x


class Edge(Enum):
    """An edge of a sheet or piece whose length runs from left to right, with its near edge towards the
    maker."""

    LEFT = "left"
    RIGHT = "right"
    NEAR = "near"
    FAR = "far"


class SawKind(Enum):
    HAND_SAW = "hand saw"  # hand-held, along a clamped straightedge
    TABLE_SAW = "table saw"


class FirstCut(Enum):
    """Which way the first cuts of a sheet must run."""

    ANY = "any"
    ALONG = "along"  # rips
    ACROSS = "across"  # crosscuts


class Goal(Enum):
    """What makes one plan better than another. Goals are compared in order; the first difference decides."""

    SHEET_MONEY = "sheet-money"
    LEFTOVER_WORTH = "leftover-worth"
    FENCE_SETTINGS = "fence-settings"
    CUTS = "cuts"
    TURNS = "turns"


@dataclass(frozen=True)
class Trim:
    """What is taken off each edge of a sheet before it counts as a good edge; the kerf lies within it."""

    left: Fraction = ZERO
    right: Fraction = ZERO
    near: Fraction = ZERO
    far: Fraction = ZERO

    @classmethod
    def all_round(cls, amount: Fraction) -> Trim:
        return cls(amount, amount, amount, amount)


@dataclass(frozen=True)
class Item:
    """`count` parts of one size. Parts with the same `match` mark must come out exactly alike wherever their
    sizes are the same, so those sizes are cut on one setting."""

    name: str
    length: Fraction
    width: Fraction
    count: int = 1
    may_turn: bool = False
    match: str | None = None


@dataclass(frozen=True)
class OnePiece:
    """Parts that are cut out of one piece in this order, so that the grain runs on from each to the next.

    Where they are `parted_by` crosscuts they lie one after another along their length, by rips side by side.
    Each is a single part; the side along which they are parted is the same in all."""

    items: tuple[str, ...]
    parted_by: Direction

    @property
    def name(self) -> str:
        """What the piece itself is called, as long as it is in one."""
        return " + ".join(self.items)

    def among(self, wanted: Container[str]) -> Iterator[OnePiece]:
        """What is left of it where only some parts are wanted: those of them that follow one another."""
        for here, group in groupby(self.items, key=lambda item: item in wanted):
            items = tuple(group)
            if here and len(items) > 1:
                yield OnePiece(items, self.parted_by)


@dataclass(frozen=True)
class Bin:
    """`count` sheets (or offcuts from the rack) of one size; `count` None is as many as it takes.

    `price` is what using one costs: the money for a bought sheet, what an offcut is worth to the maker. None
    prices it by its area. `weight_per_area` is in pounds per square
    unit of length; None is unknown.
    """

    name: str
    length: Fraction
    width: Fraction
    count: int | None = None
    price: Fraction | None = None
    trim: Trim = field(default_factory=Trim)
    offcut: bool = False
    weight_per_area: Fraction | None = None

    @property
    def area(self) -> Fraction:
        return self.length * self.width

    @property
    def cost(self) -> Fraction:
        """What using one costs: its area if it has no price."""
        return self.area if self.price is None else self.price


@dataclass(frozen=True)
class Saw:
    """A saw. `clean_up` is what the table saw takes off an edge that this saw cut, kerf included. `reach` is
    the widest piece that fits between its fence and blade (None: no limit)."""

    name: str
    kind: SawKind
    kerf: Fraction
    clean_up: Fraction = ZERO
    reach: Fraction | None = None


@dataclass(frozen=True)
class Limits:
    """The most that one person carries to the table saw; None is no limit."""

    max_weight: Fraction | None = None
    max_length: Fraction | None = None

    @property
    def any(self) -> bool:
        return self.max_weight is not None or self.max_length is not None


@dataclass(frozen=True)
class PatternKind:
    """The patterns allowed within a carried piece, or within the sheet if nothing is carried.

    A stage is a set of cuts that all run one way; each quarter turn of the work begins another. `stages` is
    the most allowed, a last cut that only frees a part from waste not counted. None is any number.
    """

    stages: int | None = None
    first_cut: FirstCut = FirstCut.ANY


@dataclass(frozen=True)
class Keep:
    """The smallest leftover worth putting on the rack: its shorter and its longer side."""

    short: Fraction
    long: Fraction


DEFAULT_GOALS = (
    Goal.SHEET_MONEY,
    Goal.LEFTOVER_WORTH,
    Goal.FENCE_SETTINGS,
    Goal.CUTS,
    Goal.TURNS,
)


@dataclass(frozen=True)
class Problem:
    """Everything that a plan depends on.

    Without a `hand_saw` the whole sheet goes to the table saw. With `keep` None a leftover is kept if its
    shorter side is at least a sixteenth of the sheet's width and its longer side at least an eighth of the
    sheet's length. An item is in one of `one_piece` at most.
    """

    items: tuple[Item, ...]
    bins: tuple[Bin, ...]
    table_saw: Saw = Saw("table saw", SawKind.TABLE_SAW, ZERO)
    hand_saw: Saw | None = None
    limits: Limits = Limits()
    pattern: PatternKind = PatternKind()
    goals: tuple[Goal, ...] = DEFAULT_GOALS
    keep: Keep | None = None
    # Not in the repr: plans on record know their problem by it, from before parts came of one piece.
    one_piece: tuple[OnePiece, ...] = field(default=(), repr=False)

    @property
    def parts(self) -> int:
        """How many parts there are to cut, copies included."""
        return sum(item.count for item in self.items)

    def item(self, name: str) -> Item:
        return next(item for item in self.items if item.name == name)

    def bin(self, name: str) -> Bin:
        return next(bin_ for bin_ in self.bins if bin_.name == name)

    def keep_from(self, bin_: Bin) -> Keep:
        """The smallest leftover out of `bin_` that goes to the rack."""
        if self.keep is not None:
            return self.keep
        sides = sorted((bin_.length, bin_.width))
        return Keep(sides[0] / 16, sides[1] / 8)
