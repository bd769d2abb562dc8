"""Cases made without a fault but in named sizes, so that what follows can be worked out on paper."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F

import numpy as np

from casewright.casework.job import BackKind, Bay, CaseKind, Construction, Job, ToeKind, TopKind
from casewright.casework.project import draw_up
from samples import job, spec

from .closed_case import Closed, Effort
from .closing import CaseProgramme
from .geometry import CaseShape, Piece, Slot, shapes_of
from .made_parts import Builds, MadeParts, Method, Stock
from .shop_errors import PLY_E, DadoWidth, SheetErrors, ShopErrors

LIKE_GLASS = SheetErrors("like glass", 0.0, 0.0, PLY_E)
FAULTLESS = Method(ShopErrors("faultless", *(0.0,) * 12), DadoWidth.BY_NUMBERS, 52.0, caliper=0.0)
HARD_PUSH = Effort(10_000.0, 0.0)
WALL = Construction(
    top=TopKind.DADO, back=BackKind.NONE, toe=ToeKind.NONE, bottom_up=F(1), dado_play=F(1, 64)
)


GROOVED = replace(WALL, back=BackKind.GROOVE, strips=0)  # 1/16 of play about the back, 1/64 in its grooves


class OneOff(MadeParts):
    """Parts made without a fault but in the sizes of `off`, by so many inches: `W1-F11 length`, or
    `W1-L dado-F11 depth` of a channel."""

    off: Mapping[str, float]

    def size(self, piece: Piece, axis: int) -> Builds:
        kind = "length" if axis == piece.length else "width" if axis == piece.width else ""
        return np.asarray(super().size(piece, axis) + self.off.get(f"{piece.mark} {kind}", 0.0))

    def thickness(self, piece: Piece) -> Builds:
        return np.asarray(super().thickness(piece) + self.off.get(f"{piece.mark} thickness", 0.0))

    def slot_at(self, piece: Piece, slot: Slot) -> Builds:
        return np.asarray(super().slot_at(piece, slot) + self.off.get(f"{piece.mark} {slot.name} at", 0.0))

    def slot_width(self, piece: Piece, slot: Slot, housed: str) -> Builds:
        off = self.off.get(f"{piece.mark} {slot.name} width", 0.0)
        return np.asarray(super().slot_width(piece, slot, housed) + off)

    def slot_depth(self, piece: Piece, slot: Slot) -> Builds:
        return np.asarray(
            super().slot_depth(piece, slot) + self.off.get(f"{piece.mark} {slot.name} depth", 0.0)
        )


def wall_case(
    bays: tuple[Bay, ...], width: F = F(36), depth: F = F(24), construction: Construction = WALL
) -> Job:
    one = spec(
        "W1", construction=construction, width=width, depth=depth, height=F(30), bays=bays, kind=CaseKind.WALL
    )
    return job(one, construction=construction)


def made_but(of: Job, off: Mapping[str, float]) -> tuple[CaseShape, OneOff]:
    shapes = shapes_of(draw_up(of))
    stocks = {key: Stock(LIKE_GLASS, 96.0 * 48.0, 1) for key in of.sheets}
    made = OneOff(shapes, stocks, FAULTLESS, 1, 0)
    made.off = off
    return shapes[0], made


def closed(of: Job, off: Mapping[str, float], effort: Effort = HARD_PUSH) -> tuple[CaseShape, Closed]:
    shape, made = made_but(of, off)
    return shape, CaseProgramme(shape, made).close(effort)
