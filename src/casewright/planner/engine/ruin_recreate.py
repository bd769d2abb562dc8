"""The kernel's ruin-and-recreate search (search.c), owned through a handle, and its plans decoded.

Each iteration takes a few pieces, strips or bins out of the plan and puts the items back where they spoil
least. The search does not minimise the number of bins directly, a measure that hardly ever changes. It gets a
goal, a cost below that of the best plan, keeps to it by leaving items out, and works to bring the left-out
area to zero.
"""

from __future__ import annotations

import ctypes
from collections.abc import Iterator
from ctypes import c_int32, c_int64
from types import TracebackType

import numpy as np
from numpy.typing import NDArray

from ...errors import OutOfMemory
from .columns import Box, ItemKinds, cut_box, place_in_corner
from .instance import Instance, Pattern, PatternNode, PlacedItem, RowAxis, Strip, Waste
from .kernel_binding import INTEGERS, SHORTS, BinType, ItemType, Rules, kernel

ANY_NUMBER = 1_000_000
"""Stages or bins when there is no limit."""


class RuinRecreate:
    """One search; use it in a `with` block, which frees the kernel's memory.

    `goal` sets the most that the next plan may cost. `run` works until such a plan is found (`plan` returns
    it) or the iterations are used up. In `restricted` patterns every piece that is cut off has the size of
    some item in that direction, but for one piece of each row that may keep what is left (restricted cuts: F.
    Clautiaux, R. Sadykov, F. Vanderbeck, Q. Viaud, Discrete Optimization 29, 2018, from memory).
    """

    def __init__(self, instance: Instance, seed: int, restricted: bool = False) -> None:
        self._instance = instance
        items = (ItemType * len(instance.items))(
            *[ItemType(i.length, i.width, i.count, i.may_turn) for i in instance.items]
        )
        most = instance.copies
        bins = (BinType * len(instance.bins))(
            *[
                BinType(b.length, b.width, most if b.count is None else min(b.count, most), 0, b.price)
                for b in instance.bins
            ]
        )
        rules = Rules(instance.stages or ANY_NUMBER, instance.first_cut.value, restricted)
        self._handle = kernel().search_new(
            len(items), items, len(bins), bins, ctypes.byref(rules), seed & (2**64 - 1)
        )
        if not self._handle:
            raise OutOfMemory("beginning to fill sheets")
        self.worked = 0
        """The work of the last `run`: the same on every machine, and about the nanoseconds it takes."""

    def __enter__(self) -> RuinRecreate:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        kernel().search_free(self._handle)
        self._handle = None

    def goal(self, cost: int) -> None:
        kernel().search_set_goal(self._handle, cost)

    def pace(self, history: int, patience: int = 0) -> None:
        """Set how far back late acceptance looks: the further, the slower and deeper the search settles.
        After `patience` iterations without a better state it restarts from a part of its plan (0: never)."""
        kernel().search_set_pace(self._handle, history, patience)

    def remember(self, least_fill: float, most: int) -> None:
        """From now on remember patterns with at least so much item area for a unit of price, each set of
        items once, whatever becomes of their plan. The first call fixes how many at most."""
        if not kernel().search_remember(self._handle, least_fill, most):
            raise OutOfMemory("remembering cutting patterns")

    def learn(self, pattern: Pattern) -> None:
        """Remember a pattern found elsewhere, as long as there is room. Call `remember` first."""
        code = np.array(encode_pattern(pattern), dtype=np.int32)
        kernel().search_learn(self._handle, code.ctypes.data_as(INTEGERS), len(code))

    def remembered(self) -> int:
        return int(kernel().search_remembered(self._handle))

    def remembered_counts(self, first: int, kinds: ItemKinds) -> tuple[NDArray[np.int32], NDArray[np.int16]]:
        """Of the patterns remembered from `first` on: the bin of each, and how often it holds each kind of
        item."""
        number = self.remembered() - first
        bins = np.zeros(number, dtype=np.int32)
        counts = np.zeros((number, len(kinds.item)), dtype=np.int16)
        kind_of = np.array(kinds.kind_of, dtype=np.int32)
        kernel().search_remembered_counts(
            self._handle,
            first,
            kind_of.ctypes.data_as(INTEGERS),
            len(kinds.item),
            bins.ctypes.data_as(INTEGERS),
            counts.ctypes.data_as(SHORTS),
        )
        return bins, counts

    def remembered_pattern(self, place: int) -> Pattern:
        length = c_int32()
        code = kernel().search_remembered_code(self._handle, place, ctypes.byref(length))
        return decode_patterns(self._instance, code[: length.value])[0]

    def run(self, iterations: int) -> tuple[bool, int]:
        """Whether a plan within the goal was found, and the iterations used."""
        used, before = c_int64(), kernel().search_work(self._handle)
        found = kernel().search_run(self._handle, iterations, ctypes.byref(used))
        if not found and used.value < iterations:  # it ends early with a plan alone, and had no room for one
            raise OutOfMemory("keeping a plan")
        self.worked = kernel().search_work(self._handle) - before
        return bool(found), used.value

    def out_area(self) -> int:
        """The area of the items that the present state leaves out."""
        return int(kernel().search_out_area(self._handle))

    def state(self) -> tuple[Pattern, ...]:
        """The present plan, whether or not items are left out."""
        if not kernel().search_encode(self._handle):
            raise OutOfMemory("keeping a plan")
        return self.plan()

    def plan(self) -> tuple[Pattern, ...]:
        length = kernel().search_kept_length(self._handle)
        code = kernel().search_kept(self._handle)[:length] if length else []
        return decode_patterns(self._instance, code)


def encode_pattern(pattern: Pattern) -> list[int]:
    """The kernel's row of integers for one pattern (see encode.c)."""
    return [pattern.bin, pattern.root.axis.value, *_children(pattern.root)]


def _children(strip: Strip) -> list[int]:
    """How many parts it has, rests not counted, then these."""
    parts = [part for part in strip.parts if not isinstance(part, Waste)]
    code = [len(parts)]
    for part in parts:
        extent = part.length if strip.axis is RowAxis.X else part.width
        if isinstance(part, PlacedItem):
            code += [part.item, part.turned, extent, 0]
        else:
            code += [-1, 0, extent, *_children(part)]
    return code


def decode_patterns(instance: Instance, code: list[int]) -> tuple[Pattern, ...]:
    """Patterns with coordinates from the kernel's row of integers (see encode.c)."""
    numbers = iter(code)
    patterns = []
    for bin_number in numbers:
        axis, children = RowAxis(next(numbers)), next(numbers)
        box = instance.bins[bin_number]
        root = _strip(instance, numbers, axis, children, (0, 0, box.length, box.width))
        patterns.append(Pattern(bin_number, root))
    return tuple(patterns)


def _strip(instance: Instance, numbers: Iterator[int], axis: RowAxis, children: int, box: Box) -> Strip:
    parts: list[PatternNode] = []
    start = 0
    for _ in range(children):
        item, turned, extent, below = (next(numbers) for _ in range(4))
        place = cut_box(box, axis, start, extent)
        start += extent
        if item < 0:
            parts.append(_strip(instance, numbers, axis.other, below, place))
        else:
            kind = instance.items[item]
            length, width = (kind.width, kind.length) if turned else (kind.length, kind.width)
            parts.append(
                place_in_corner(PlacedItem(place[0], place[1], length, width, item, bool(turned)), place)
            )
    size = box[2] if axis is RowAxis.X else box[3]
    if start < size:
        parts.append(Waste(*cut_box(box, axis, start, size - start)))
    return Strip(*box, axis, tuple(parts))
