"""The pieces of part-cut sheets: what the cuts done so far have left."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..planner.plan import Piece, PieceRole, SheetPlan
from ..planner.problem import Direction
from ..workshop.operations import cut_key


@dataclass(frozen=True, slots=True)
class StandingPiece:
    """A piece of wood as it now is: a corner at `x`, `y` on its sheet, and its size in inches.

    `role` is what the plan makes of it (None where it is still to be cut up),
    `parts` the marks of the parts still to be cut from it. `begun` is False for a sheet no saw has touched.
    """

    material: str
    sheet: int
    x: Fraction
    y: Fraction
    length: Fraction
    width: Fraction
    role: PieceRole | None
    parts: tuple[str, ...]
    begun: bool


def standing_pieces(
    material: str, sheets: Iterable[SheetPlan], done: Collection[str]
) -> tuple[StandingPiece, ...]:
    """Every piece of these sheets as it stands once the cuts with keys in `done` are made."""
    return tuple(piece for sheet in sheets for piece in _left(material, sheet, sheet.root, done))


def _left(material: str, sheet: SheetPlan, piece: Piece, done: Collection[str]) -> Iterator[StandingPiece]:
    made = sorted(
        (cut for cut in piece.cuts if cut_key(material, sheet.number, cut.order) in done),
        key=lambda cut: cut.at,
    )
    if not made:
        begun = piece is not sheet.root
        size = (piece.x, piece.y, piece.length, piece.width)
        yield StandingPiece(material, sheet.number, *size, piece.role, _parts(piece), begun)
        return
    crosscut = piece.cuts[0].direction is Direction.CROSSCUT
    low = piece.x if crosscut else piece.y
    end = low + (piece.length if crosscut else piece.width)
    starts = [low, *(cut.at + cut.kerf for cut in made)]
    ends = [*(cut.at for cut in made), end]
    for start, stop in zip(starts, ends, strict=True):
        if stop <= start:
            continue  # the kerf ran off the edge
        within = tuple(child for child in piece.children if start <= _low(child, crosscut) < stop)
        if len(within) == 1 and _extent(within[0], crosscut) == stop - start:
            yield from _left(material, sheet, within[0], done)
            continue
        span = (start, stop - start)
        x, length = span if crosscut else (piece.x, piece.length)
        y, width = (piece.y, piece.width) if crosscut else span
        parts = tuple(part for child in within for part in _parts(child))
        yield StandingPiece(material, sheet.number, x, y, length, width, None, parts, True)


def _parts(piece: Piece) -> tuple[str, ...]:
    return tuple(each.item for each in piece.walk() if each.role is PieceRole.PART and each.item is not None)


def _low(piece: Piece, crosscut: bool) -> Fraction:
    return piece.x if crosscut else piece.y


def _extent(piece: Piece, crosscut: bool) -> Fraction:
    return piece.length if crosscut else piece.width
