"""Fronts that a sheet plan cuts from one piece, and the cut before which they are to be numbered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from ...casework.fronts_in_one_piece import FrontsInOnePiece, fronts_in_one_piece
from ...casework.project import Project
from ...planner.plan import Piece, PieceRole, Plan
from ...planner.problem import Direction
from ..operations import cut_key


@dataclass(frozen=True)
class PartedFronts:
    """Neighbours among the fronts of a bay that come from one piece of a sheet, and the key of the first cut
    that parts some of them from others."""

    fronts: FrontsInOnePiece
    first_cut: str


def parted_fronts(project: Project, plans: Mapping[str, Plan]) -> tuple[PartedFronts, ...]:
    """All fronts that come from one piece with a neighbour, bay by bay."""
    return tuple(
        PartedFronts(
            replace(bank, marks=marks), cut_key(material, sheet.number, _first_between(piece, marks))
        )
        for bank in fronts_in_one_piece(project)
        for material, plan in plans.items()
        for sheet in plan.sheets
        for piece in sheet.root.walk()
        for marks in _side_by_side(piece, bank.marks)
    )


def _side_by_side(piece: Piece, marks: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """The neighbours among these marks that lie beside each other in a piece, in the order of the marks."""
    items = [child.item for child in piece.children if child.role is not PieceRole.WASTE]
    beside = {frozenset(pair) for pair in pairwise(items)}
    runs = [[marks[0]]]
    for last, mark in pairwise(marks):
        if frozenset((last, mark)) in beside:
            runs[-1].append(mark)
        else:
            runs.append([mark])
    yield from (tuple(run) for run in runs if len(run) > 1)


def _first_between(piece: Piece, marks: tuple[str, ...]) -> int:
    """The order of the first cut that parts some of these from others."""
    across = piece.cuts[0].direction is Direction.CROSSCUT
    begin = [child.x if across else child.y for child in piece.children if child.item in marks]
    return min(cut.order for cut in piece.cuts if min(begin) < cut.at < max(begin))
