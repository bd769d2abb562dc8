"""From sheet plans to operations: every cut of every sheet with its fence, and what it waits for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from ...casework.project import Project
from ...casework.size_names import thickness_of
from ...planner.plan import Cut, Piece, PieceRole, Plan, Purpose, SheetPlan
from ...planner.problem import Direction, Edge
from ...shop.machines import Shop
from ..freed_pieces import Freed, FreedPiece, StackedPiece, letter_of
from ..operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting, cut_key
from .parted_fronts import parted_fronts

AS_GOOD_AS_SQUARE = Fraction(7, 8)
SLED_ROOM = Fraction(24)
SLED_RATIO = 2
"""A piece whose side along the fence is shorter than what lies between blade and fence swings: it goes on the
sled against a stop, unless the two are all but equal. A side as long as a sled has room for is long enough to
run along the fence, unless it is shorter than half that distance. Common practice, no source."""

_LATER_SIDES = (Edge.RIGHT.value, Edge.FAR.value)

_KEPT = {PieceRole.PART: Freed.PART, PieceRole.OFFCUT: Freed.OFFCUT}

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


def cuts_of_plans(project: Project, plans: Mapping[str, Plan]) -> Iterator[Operation]:
    """Every cut of every sheet, material by material; `plans` by the material's key."""
    shop = project.job.shop
    cuts = [
        cut
        for material, plan in plans.items()
        for cut in sheet_cuts(shop, material, project.sizes.of(thickness_of(material)), plan)
    ]
    parted = {one.first_cut: one.fronts for one in parted_fronts(project, plans)}
    at_stop = {cut.setting for cut in cuts if cut.setting.guide is Guide.STOP}
    for cut in cuts:
        # One stop in place of a stop and a fence: whatever the sled holds goes on it too.
        stop = replace(cut.setting, guide=Guide.STOP)
        fits = not cut.hold.lengthwise and cut.along <= SLED_ROOM
        setting = stop if fits and stop in at_stop else cut.setting
        yield replace(cut, setting=setting, fronts=parted.get(cut.key))


def sheet_cuts(shop: Shop, material: str, thickness: Fraction, plan: Plan) -> Iterator[Operation]:
    """Every cut of a material's plan. A cut waits for the one that freed its piece."""
    for sheet in plan.sheets:
        cutting = _SheetCuts(shop, material, thickness, sheet)
        cutting.cut_up(sheet.root, _Came())
        yield from _lettered(cutting)


def _lettered(cutting: _SheetCuts) -> Iterator[Operation]:
    """A sheet's cuts with the letters of its carried pieces: left to right and near to far as they come
    apart, those that come back from the table saw last."""
    found = dict.fromkeys(one.carried for one in cutting.made if one.carried)
    by_trip = sorted(found, key=lambda piece: piece.trips)
    letters = {
        piece: replace(piece, letter=letter_of(number))
        for number, piece in enumerate(piece for piece in by_trip if piece.freed_by)
    }
    for piece in letters.values():
        freed = FreedPiece(Freed.CARRIED, piece.chalk, piece.side, piece.length, piece.width)
        cutting.leaves.setdefault(piece.freed_by, []).append(freed)
    for one in cutting.made:
        carried = letters.get(one.carried, one.carried) if one.carried else None
        leaves = sorted(cutting.leaves.get(one.key, ()), key=lambda left: left.side in _LATER_SIDES)
        yield replace(one, carried=carried, leaves=tuple(leaves))


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


def _spare_beyond(piece: Piece, cut: Cut, before: int) -> Fraction:
    """How much may be lost beyond a cut, across it, without harm to a part, where each of so many cuts
    `before` it may have lost as much."""
    crosscut = cut.direction is Direction.CROSSCUT
    beyond = [child for child in piece.children if (child.x if crosscut else child.y) >= cut.at + cut.kerf]
    spare = sum((_to_spare(child, cut.direction) for child in beyond), Fraction(0))
    return spare / (before + 1) if any(map(_parts_of, beyond)) else spare


def _to_spare(piece: Piece, direction: Direction) -> Fraction:
    """How much smaller a piece could be across cuts of this direction and still hold its parts."""
    if piece.role is PieceRole.PART:
        return Fraction(0)
    if not piece.cuts:
        return piece.length if direction is Direction.CROSSCUT else piece.width
    each = [_to_spare(child, direction) for child in piece.children]
    return sum(each, Fraction(0)) if piece.cuts[0].direction is direction else min(each)


@dataclass(frozen=True)
class _Came:
    """How a piece has come free: the cut it waits for, on which side of it the piece lies, the carried piece
    that it is cut from, whether it lies at the table saw, and how many cuts were made `before`."""

    after: tuple[str, ...] = ()
    side: str = ""
    carried: StackedPiece | None = None
    at_table: bool = False
    before: int = 0

    @property
    def trips(self) -> int:
        return 0 if self.carried is None else self.carried.trips + 1


def _of(cut: Operation, side: Edge, before: int) -> _Came:
    return _Came((cut.key,), side.value, cut.carried, cut.setting.machine is Machine.TABLE_SAW, before)


@dataclass
class _SheetCuts:
    """Cuts up one sheet: the operations `made`, and what each `leaves` by its key."""

    shop: Shop
    material: str
    thickness: Fraction
    sheet: SheetPlan
    made: list[Operation] = field(default_factory=list)
    leaves: dict[str, list[FreedPiece]] = field(default_factory=dict)

    def cut_up(self, piece: Piece, came: _Came) -> None:
        """Make the cuts of `piece` and of all below it."""
        if not piece.cuts:
            return
        crosscut = piece.cuts[0].direction is Direction.CROSSCUT
        low = piece.x if crosscut else piece.y
        span = _Span(low, low + (piece.length if crosscut else piece.width))
        now = came
        bounds: dict[Fraction, tuple[int, Operation]] = {}
        for number, cut in enumerate(piece.cuts):
            operation = self._cut(piece, cut, span, now)
            self.made.append(operation)
            bounds[cut.at] = bounds[cut.at + cut.kerf] = (number, operation)
            now = _of(operation, _FAR[cut.reference], now.before + 1)
            span = span.after(cut)[1]
        for child in piece.children:
            begin = child.x if crosscut else child.y
            end = begin + (child.length if crosscut else child.width)
            # A later cut implies the earlier ones, so the last that touches the child suffices.
            number, freeing = max(
                (bounds[at] for at in (begin, end) if at in bounds), key=lambda pair: pair[0]
            )
            below = begin < piece.cuts[number].at
            side = (Edge.LEFT if below else Edge.RIGHT) if crosscut else (Edge.NEAR if below else Edge.FAR)
            self.cut_up(child, _of(freeing, side, came.before + number + 1))
            if not child.cuts and child.role in _KEPT:
                name = child.item or ""
                left = FreedPiece(_KEPT[child.role], name, side.value, child.length, child.width)
                self.leaves.setdefault(freeing.key, []).append(left)

    def _carried(self, piece: Piece, span: _Span, came: _Came, crosscut: bool) -> StackedPiece:
        """The piece that a cut at the table saw finds: the one taken there before, or what is carried now."""
        if came.at_table and came.carried is not None:
            return came.carried
        x, y = (span.low, piece.y) if crosscut else (piece.x, span.low)
        size = (span.across, piece.width) if crosscut else (piece.length, span.across)
        freed_by = came.after[0] if came.after else ""
        return StackedPiece(self.material, self.sheet.number, x, y, *size, freed_by, came.side, came.trips)

    def _cut(self, piece: Piece, cut: Cut, span: _Span, came: _Came) -> Operation:
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
        carried = came.carried
        if cut.tool == self.shop.hand_saw.name or self._beyond_fence(kept):
            setting = self._by_hand()
            from_far = cut.purpose is Purpose.TRIM and bool(sizes)
            against = _FAR[cut.reference] if from_far else cut.reference
        else:
            setting, against = self._at_table(cut, span, along)
            carried = self._carried(piece, span, came, crosscut)
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
            came.after,
            kept,
            sizes=sizes,
            carried=carried,
            spare=_spare_beyond(piece, cut, came.before),
        )

    def _beyond_fence(self, kept: Fraction) -> bool:
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
        swings = along < min(distance * AS_GOOD_AS_SQUARE, max(SLED_ROOM, distance / SLED_RATIO))
        guide = Guide.STOP if swings else Guide.FENCE
        return Setting(Machine.TABLE_SAW, blade(self.shop), guide, distance), against
