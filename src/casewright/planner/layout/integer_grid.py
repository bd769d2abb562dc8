"""The problem on an integer grid: every length an exact whole number of one common step."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import ceil, gcd

from ..problem import Bin, Direction, Item, Problem, Trim


@dataclass(frozen=True, slots=True)
class GridItem:
    """A part; or, with `parts`, a blank of several that are parted in this order, `parted_lengthwise` or side
    by side. They are indices of items of which none is asked for by itself."""

    length: int
    width: int
    count: int
    may_turn: bool
    parts: tuple[int, ...] = ()
    parted_lengthwise: bool = False

    def size(self, turned: bool) -> tuple[int, int]:
        """Its size along x and along y."""
        return (self.width, self.length) if turned else (self.length, self.width)

    def parted_along_x(self, turned: bool) -> bool:
        """Whether its parts lie one after another along x."""
        return self.parted_lengthwise is not turned


@dataclass(frozen=True, slots=True)
class EdgeZones:
    """What each edge of a piece must lose before a part may reach it."""

    left: int = 0
    right: int = 0
    near: int = 0
    far: int = 0

    def ends(self, along_x: bool) -> tuple[int, int]:
        """What the low and the high end lose, along x or along y."""
        return (self.left, self.right) if along_x else (self.near, self.far)

    def with_ends(self, along_x: bool, low: int, high: int) -> EdgeZones:
        """The same but for the ends along x, or along y."""
        if along_x:
            return EdgeZones(low, high, self.near, self.far)
        return EdgeZones(self.left, self.right, low, high)


@dataclass(frozen=True, slots=True)
class GridBin:
    length: int
    width: int
    count: int | None
    cost: Fraction
    zones: EdgeZones
    max_area: int | None  # the largest piece of it that may be carried
    keep: tuple[int, int]  # the shorter and longer side of the smallest leftover worth keeping

    def kept(self, length: int, width: int) -> bool:
        """Whether a leftover of this size goes to the rack (see `Problem.keep_from`)."""
        short, long = (length, width) if length < width else (width, length)
        return short >= self.keep[0] and long >= self.keep[1]

    @property
    def usable(self) -> tuple[int, int]:
        """What is left between the trims."""
        zones = self.zones
        return self.length - zones.left - zones.right, self.width - zones.near - zones.far


@dataclass(frozen=True)
class IntegerGrid:
    """`step` is the length of one unit; all else is in units. `items` and `bins` keep the
    problem's order."""

    step: Fraction
    items: tuple[GridItem, ...]
    bins: tuple[GridBin, ...]
    kerf: int
    hand_kerf: int
    clean_up: int
    max_length: int | None
    reach: int | None  # of the table saw's fence

    def length(self, units: int) -> Fraction:
        known = self._lengths.get(units)
        if known is None:
            known = self._lengths[units] = units * self.step
        return known

    @cached_property
    def _lengths(self) -> dict[int, Fraction]:
        """Lengths asked for so far: the cuts of a job come back to the same few hundred."""
        return {}

    def in_one(self, item: int) -> GridItem:
        """What an item has to be carried as: the blank that it is parted from, or itself."""
        return self.items[self.blanks.get(item, item)]

    @cached_property
    def blanks(self) -> dict[int, int]:
        """The blank that each part of one is parted from."""
        return {part: blank for blank, item in enumerate(self.items) for part in item.parts}

    def carriable(self, bin_: GridBin, length: int, width: int) -> bool:
        """Whether one person may carry a piece of this size of `bin_`."""
        return not (self.too_long(length, width) or self.too_heavy(bin_, length, width))

    def too_long(self, length: int, width: int) -> bool:
        """Whether a piece of this size is longer than one person carries."""
        return self.max_length is not None and max(length, width) > self.max_length

    def too_heavy(self, bin_: GridBin, length: int, width: int) -> bool:
        """Whether a piece of this size of `bin_` is heavier than one person carries."""
        return bin_.max_area is not None and length * width > bin_.max_area


def grid_of(problem: Problem) -> IntegerGrid:
    """The coarsest grid on which every length of the problem is whole."""
    lengths = [length for item in problem.items for length in (item.length, item.width)]
    for bin_ in problem.bins:
        trim = bin_.trim
        lengths += [bin_.length, bin_.width, trim.left, trim.right, trim.near, trim.far]
    lengths.append(problem.table_saw.kerf)
    if problem.hand_saw is not None:
        lengths += [problem.hand_saw.kerf, problem.hand_saw.clean_up]
    longest = problem.limits.max_length
    step = _common_step(lengths)

    def units(length: Fraction) -> int:
        return int(length / step)

    def zones(trim: Trim) -> EdgeZones:
        return EdgeZones(units(trim.left), units(trim.right), units(trim.near), units(trim.far))

    places = {entry.name: place for place, entry in enumerate(problem.items)}
    blanks = {blank.name: blank for blank in problem.one_piece}

    def item(entry: Item) -> GridItem:
        single = GridItem(units(entry.length), units(entry.width), entry.count, entry.may_turn)
        blank = blanks.get(entry.name)
        if blank is None:
            return single
        parts = tuple(places[name] for name in blank.items)
        return replace(single, parts=parts, parted_lengthwise=blank.parted_by is Direction.CROSSCUT)

    heaviest = problem.limits.max_weight

    def stock(entry: Bin) -> GridBin:
        area = None
        if heaviest is not None and entry.weight_per_area:
            area = int(heaviest / entry.weight_per_area / step**2)
        smallest = problem.keep_from(entry)
        keep = (ceil(smallest.short / step), ceil(smallest.long / step))
        length, width = units(entry.length), units(entry.width)
        return GridBin(length, width, entry.count, entry.cost, zones(entry.trim), area, keep)

    hand = problem.hand_saw
    return IntegerGrid(
        step,
        tuple(item(entry) for entry in problem.items),
        tuple(stock(entry) for entry in problem.bins),
        kerf=units(problem.table_saw.kerf),
        hand_kerf=0 if hand is None else units(hand.kerf),
        clean_up=0 if hand is None else units(hand.clean_up),
        max_length=None if longest is None else int(longest // step),
        reach=None if problem.table_saw.reach is None else int(problem.table_saw.reach // step),
    )


def _common_step(lengths: list[Fraction]) -> Fraction:
    """The greatest length of which all these are whole multiples."""
    numerator, denominator = 0, 1
    for length in lengths:
        denominator = denominator * length.denominator // gcd(denominator, length.denominator)
    for length in lengths:
        numerator = gcd(numerator, int(length * denominator))
    return Fraction(numerator or 1, denominator)
