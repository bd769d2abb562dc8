"""Every part of a job as simulated shops make it: how far each size is off nominal, a value for each build.

What is set once is drawn once: the fence's scale, a number on a machine, a packing of the stack, a height of
the cutter, a pair sawn together, a sheet. Each draw has a name and comes from that name and the seed alone:
who names it again gets the same values, and two shops of one seed err alike in all that is not different.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from .geometry import CaseShape, Piece, Slot
from .shop_errors import CALIPER, DadoWidth, SheetErrors, ShopErrors

Builds = NDArray[np.float64]  # one value a build, in inches

Rounding = Callable[[float], float]
"""What a number is set to: the plan's own number, or the nearest mark of a rule."""

PLACES = 3  # along a joint: front, middle, rear
SHARED_IN_A_PART = 0.5  # of the variance within a sheet; the rest differs from place to place
SLED_ROOM = 24.0  # inches across the grain
USED = 0.8  # of a sheet's area goes into parts
READ_UNTOLD = 2  # readings taken of a material of which the job gives none


def as_planned(number: float) -> float:
    """No rounding."""
    return number


def nearest_mark(step: float) -> Rounding:
    """To the nearest of marks `step` apart; half way goes up."""
    return lambda number: float(np.floor(number / step + 0.5 + 1e-9) * step)


@dataclass(frozen=True)
class Stock:
    """A material in the job: its errors, the area of a sheet, and how many caliper readings were taken."""

    errors: SheetErrors
    area: float
    readings: int


@dataclass(frozen=True)
class Method:
    """How a job is made. `fence_reach` is the longest cut that the table saw's fence sets, `sled_room` the
    widest part that is crosscut on the sled; `caliper` is the deviation of a reading."""

    shop: ShopErrors
    dado: DadoWidth
    fence_reach: float
    rounding: Rounding = as_planned
    caliper: float = CALIPER
    sled_room: float = SLED_ROOM


class MadeParts:
    """The parts of a job, made `builds` times with one seed."""

    def __init__(
        self, cases: Sequence[CaseShape], stocks: Mapping[str, Stock], method: Method, builds: int, seed: int
    ) -> None:
        self.method = method
        self.stocks = stocks
        self.builds = builds
        self._seed = seed
        self._drawn: dict[tuple[str, ...], Builds] = {}
        self._pieces = [piece for case in cases for piece in case.pieces.values()]

    def draw(self, deviation: float, *name: str) -> Builds:
        """The values of that name: drawn once, the same whenever they are asked for."""
        known = self._drawn.get(name)
        if known is None:
            own = np.random.default_rng((self._seed, crc32("/".join(name).encode())))
            known = self._drawn[name] = own.standard_normal(self.builds)
        return np.asarray(known * deviation)

    def size(self, piece: Piece, axis: int) -> Builds:
        """How far a part's length, width or thickness is off."""
        if axis == piece.length:
            return self._sawn(piece, piece.size[axis], "length")
        if axis == piece.width:
            return self._sawn(piece, piece.size[axis], "width")
        return self.thickness(piece)

    def _sawn(self, piece: Piece, nominal: float, what: str) -> Builds:
        number = self.method.rounding(nominal)
        bias = number - nominal
        if number > self.method.fence_reach:
            off = self.draw(self.method.shop.hand_saw, "hand saw", piece.cut_with, _key(number))
        else:
            off = self._by_scale("blade", number) + self.draw(self.method.shop.cut, piece.mark, what)
            if what == "length" and piece.size[piece.width] <= self.method.sled_room:
                # Both ends lean by the sled's angle; the front edge lies half the width from the middle.
                leans = self.draw(self.method.shop.sled / 24, "sled")
                off = off + 2 * leans * piece.size[piece.width] / 2
        return np.asarray(off + bias)

    def _by_scale(self, cutter: str, number: float) -> Builds:
        shop = self.method.shop
        return self.draw(shop.scale, "scale") + self.draw(shop.setting, "fence", cutter, _key(number))

    def slot_at(self, piece: Piece, slot: Slot) -> Builds:
        """How far a channel's near wall is off its distance from its edge."""
        if slot.rabbet:
            return np.zeros(self.builds)
        number = self.method.rounding(slot.at)
        bias = number - slot.at
        if number > self.method.fence_reach:
            # A router along a straightedge is set as the hand-held saw is.
            off = self.draw(self.method.shop.hand_saw, "router", piece.cut_with, slot.name, _key(number))
        else:
            off = self._by_scale("groove" if slot.back else "stack", number)
            off = off + self.draw(self.method.shop.cut, piece.mark, slot.name, "at")
        return np.asarray(off + bias)

    def slot_width(self, piece: Piece, slot: Slot, housed: str) -> Builds:
        """How far a channel's width is off, for a panel of the material `housed`."""
        shop = self.method.shop
        key = _key(slot.width)
        if slot.rabbet:
            cut = self.draw(shop.cut, piece.mark, slot.name, "width")
            return self.draw(shop.gauged, "rabbet", key) + cut + self.thickest_sheet(housed)
        if slot.back:
            return self.draw(shop.two_passes, "two passes", key)
        if self.method.dado is DadoWidth.TRIED:
            return self.draw(shop.tried, "stack tried", key) + self.thickest_sheet(housed)
        return self.draw(shop.packed, "stack packed", key)

    def slot_depth(self, piece: Piece, slot: Slot) -> Builds:
        """How far a channel's depth is off."""
        shop = self.method.shop
        height = self.draw(shop.height, "height", _key(slot.depth), _key(slot.width))
        return height + self.draw(shop.flatness, piece.mark, slot.name, "flat")

    def thickness(self, piece: Piece) -> Builds:
        """How far a part's thickness is off the number in the plan, on the whole."""
        errors = self.stocks[piece.material].errors
        share = errors.within * SHARED_IN_A_PART**0.5
        sheet = self._sheets[piece.material][self._sheet_of[piece.mark]]
        return np.asarray(sheet + self.draw(share, piece.mark, "thickness"))

    def thickest(self, piece: Piece, place: str) -> Builds:
        """The same at the thickest of the places along a joint."""
        errors = self.stocks[piece.material].errors
        share = errors.within * (1 - SHARED_IN_A_PART) ** 0.5
        places = [self.draw(share, piece.mark, place, str(number)) for number in range(PLACES)]
        return np.asarray(self.thickness(piece) + np.max(places, axis=0))

    def thickest_sheet(self, material: str) -> Builds:
        """The thickest sheet of a material: the piece a stack is tried in."""
        return np.asarray(np.max(self._sheets[material], axis=0))

    @cached_property
    def _sheet_of(self) -> Mapping[str, int]:
        """Sheets are filled with parts in the order of the job, case after case."""
        filled: dict[str, float] = defaultdict(float)
        found = {}
        for piece in self._pieces:
            found[piece.mark] = int(filled[piece.material] / (USED * self.stocks[piece.material].area))
            filled[piece.material] += piece.size[piece.length] * piece.size[piece.width]
        return found

    @cached_property
    def _sheets(self) -> Mapping[str, Builds]:
        """Each sheet against the plan's number, which is the mean of readings on the first sheets."""
        found = {}
        for material, stock in self.stocks.items():
            marks = [piece.mark for piece in self._pieces if piece.material == material]
            count = 1 + max((self._sheet_of[mark] for mark in marks), default=0)
            sheets = np.array(
                [self.draw(stock.errors.between, "sheet", material, str(number)) for number in range(count)]
            )
            readings = [
                sheets[number % count]
                + self.draw(stock.errors.within, "read at", material, str(number))
                + self.draw(self.method.caliper, "caliper", material, str(number))
                for number in range(stock.readings)
            ]
            found[material] = sheets - np.mean(readings, axis=0)
        return found


def _key(number: float) -> str:
    return f"{number:.4f}"
