"""From sheet plans to operations: every cut of every sheet with its fence, and what it waits for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...planner.plan import Cut, Piece, PieceRole, Plan, Purpose, SheetPlan
from ...planner.problem import Direction, Edge
from ...shop.machines import Shop
from ..operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting, cut_key

SLED_RATIO = 2
"""A piece whose side along the fence is shorter than half the fence's distance swings: it goes on
the sled against a stop. Common practice, no source."""

_FAR = {Edge.LEFT: Edge.RIGHT, Edge.RIGHT: Edge.LEFT, Edge.NEAR: Edge.FAR, Edge.FAR: Edge.NEAR}


@dataclass(frozen=True)
class _Span:
    """What is left of a piece, across its cuts, while they are made."""

    low: Fraction
    high: Fraction

    @property
    def across(self) -> Fraction:
        return self.high - self.low

    def after(self, cut: Cut) -> tuple[_Span, _Span]:
        """What comes off at the cut's reference edge, and what is left."""
        lower = _Span(self.low, cut.at)
        upper = _Span(min(cut.at + cut.kerf, self.high), self.high)
        return (lower, upper) if cut.reference in (Edge.LEFT, Edge.NEAR) else (upper, lower)


def blade(shop: Shop) -> Cutter:
    """The table saw's own blade."""
    return Cutter(f"{shop.table_saw.name} blade", shop.table_saw.kerf)


def sheet_cuts(shop: Shop, material: str, thickness: Fraction, plan: Plan) -> Iterator[Operation]:
    """Every cut of a material's plan. A cut waits for the one that freed its piece."""
    for sheet in plan.sheets:
        yield from _SheetCuts(shop, material, thickness, sheet).cuts(sheet.root, ())


def _parts_of(piece: Piece) -> tuple[str, ...]:
    """The marks of the parts that come of a piece."""
    return tuple(part.item for part in piece.walk() if part.role is PieceRole.PART and part.item is not None)


def _sized(piece: Piece, cut: Cut) -> tuple[str, ...]:
    """The marks of the parts that this cut brings to their size: those across which nothing else is cut.

    A carrying cut does so where it leaves a finished edge; a trim too, from the good edge at the other end.
    """
    trims_last = cut.purpose is Purpose.TRIM and cut is piece.cuts[-1]
    kept = piece.children[-1] if trims_last else piece.sized_by(cut)
    return () if kept is None else tuple(_not_cut_across(kept, cut.direction))


def _not_cut_across(piece: Piece, direction: Direction) -> Iterator[str]:
    """The parts of a piece that come of it by cuts of the other direction alone."""
    if piece.role is PieceRole.PART and piece.item is not None:
        yield piece.item
    elif all(cut.direction is not direction for cut in piece.cuts):
        for child in piece.children:
            yield from _not_cut_across(child, direction)


@dataclass(frozen=True)
class _SheetCuts:
    shop: Shop
    material: str
    thickness: Fraction
    sheet: SheetPlan

    def cuts(self, piece: Piece, freed: tuple[str, ...]) -> Iterator[Operation]:
        """The cuts of `piece`, which the operations `freed` bring about, and of all below it."""
        if not piece.cuts:
            return
        crosscut = piece.cuts[0].direction is Direction.CROSSCUT
        low = piece.x if crosscut else piece.y
        span = _Span(low, low + (piece.length if crosscut else piece.width))
        after = freed
        bounds: dict[Fraction, str] = {}
        for cut in piece.cuts:
            operation = self._cut(piece, cut, span, after)
            yield operation
            bounds[cut.at] = operation.key
            bounds[cut.at + cut.kerf] = operation.key
            after = (operation.key,)
            span = span.after(cut)[1]
        for child in piece.children:
            begin = child.x if crosscut else child.y
            end = begin + (child.length if crosscut else child.width)
            # A later cut implies the earlier ones, so the last that touches the child suffices.
            touching = [bounds[at] for at in (end, begin) if at in bounds]
            yield from self.cuts(child, (touching[0],) if touching else freed)

    def _cut(self, piece: Piece, cut: Cut, span: _Span, after: tuple[str, ...]) -> Operation:
        crosscut = cut.direction is Direction.CROSSCUT
        along = piece.width if crosscut else piece.length
        size = (span.across, piece.width) if crosscut else (piece.length, span.across)
        parts = tuple(
            mark
            for child in piece.children
            if span.low <= (child.x if crosscut else child.y) < span.high
            for mark in _parts_of(child)
        )
        kept = span.after(cut)[1].across if cut.purpose is Purpose.TRIM else cut.setting
        sizes = _sized(piece, cut)
        if cut.tool == self.shop.hand_saw.name or self._beyond_fence(cut, kept):
            setting = self._by_hand()
            from_far = cut.purpose is Purpose.TRIM and bool(sizes)
            against = _FAR[cut.reference] if from_far else cut.reference
        else:
            setting, against = self._at_table(cut, span, along)
        kind = OperationKind.CROSSCUT if crosscut else OperationKind.RIP
        if cut.purpose is Purpose.CARRY:
            kind = OperationKind.CARRY
        elif cut.purpose is Purpose.TRIM and not sizes:
            kind = OperationKind.TRIM
        down = "good face" if setting.machine is Machine.HAND_SAW else "other face"
        return Operation(
            cut_key(self.material, self.sheet.number, cut.order),
            kind,
            f"{self.material} {self.sheet.number}",
            parts,
            setting,
            Hold(f"{against.value} edge", down, "", not crosscut),
            (*size, self.thickness),
            along,
            after,
            kept,
            sizes=sizes,
        )

    def _beyond_fence(self, cut: Cut, kept: Fraction) -> bool:
        """Whether what is kept is wider than the fence goes. The hand-held saw then cuts it from the trimmed
        edge: with the other piece against the fence, a trim would be caught between fence and blade, and a
        size would be measured from an edge that nobody has made or measured."""
        return kept > self.shop.table_saw.rip_capacity

    def _by_hand(self) -> Setting:
        saw = self.shop.hand_saw
        cutter = Cutter(f"{saw.name} blade", saw.kerf)
        return Setting(Machine.HAND_SAW, cutter, Guide.STRAIGHTEDGE, saw.base_offset)

    def _at_table(self, cut: Cut, span: _Span, along: Fraction) -> tuple[Setting, Edge]:
        """The fence or the sled's stop, and the edge that lies against it: the reference edge, or for a trim
        the other one, as the far side is kept."""
        if cut.purpose is Purpose.TRIM:
            distance, against = span.after(cut)[1].across, _FAR[cut.reference]
        else:
            distance, against = cut.setting, cut.reference
        guide = Guide.STOP if along * SLED_RATIO < distance else Guide.FENCE
        return Setting(Machine.TABLE_SAW, blade(self.shop), guide, distance), against
