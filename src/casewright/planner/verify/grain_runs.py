"""The checker's rule for parts of one piece: neighbours in it, in the order asked for."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from ...findings import Finding
from ..plan import Piece, PieceRole, Plan
from ..problem import Direction, OnePiece, Problem


def grain_findings(problem: Problem, plan: Plan) -> Iterator[Finding]:
    """Parts that do not come of one piece side by side, without the plan saying so."""
    if not problem.one_piece:
        return
    said = {finding.place for finding in plan.findings if finding.code == "grain-broken"}
    placed = {part.item for _, part in plan.parts()}
    cut_up = [piece for sheet in plan.sheets for piece in sheet.root.walk() if piece.children]
    for one in problem.one_piece:
        neighbours = {pair for piece in cut_up for pair in _neighbours(problem, piece, one)}
        for pair in pairwise(one.items):
            place = " + ".join(pair)
            if placed.issuperset(pair) and pair not in neighbours and place not in said:
                text = f"{pair[1]} is not cut beside {pair[0]}, so the grain does not run on."
                yield Finding("grain-broken", place, text)


def _neighbours(problem: Problem, piece: Piece, one: OnePiece) -> Iterator[tuple[str, str]]:
    """The parts of a piece that lie beside each other as they would hang, both ways round: the whole piece
    may lie with either end first, its parts all turned or none."""
    parted = piece.cuts[0].direction if piece.cuts else None
    kept = [child for child in piece.children if child.role is not PieceRole.WASTE]
    ahead = [child for child in kept if child.item in one.items]
    upwards = [one.items.index(child.item or "") for child in ahead]
    if upwards not in (sorted(upwards), sorted(upwards, reverse=True)):
        return
    for first, second in pairwise(kept):
        if first.item is None or second.item is None or first.turned is not second.turned:
            continue
        lengthwise = (parted is Direction.CROSSCUT) is not first.turned
        if lengthwise is (one.parted_by is Direction.CROSSCUT) and _between(first, second) <= _taken(problem):
            yield first.item, second.item
            yield second.item, first.item


def _between(first: Piece, second: Piece) -> Fraction:
    """How far apart two children of a piece lie, across its cuts."""
    return max(second.x - first.x - first.length, second.y - first.y - first.width)


def _taken(problem: Problem) -> Fraction:
    """The most that saws take between two parts: a kerf, or one by hand and the clean-up of its edge."""
    hand = problem.hand_saw
    return max(problem.table_saw.kerf, hand.kerf + hand.clean_up if hand else Fraction(0))
