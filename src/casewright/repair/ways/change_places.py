"""Pieces that change places: a spoiled piece serves as another part, whose own piece serves for it.

Pieces are good parts that nothing is cut into yet, parts that are still to be cut (the piece is then their
place in the sheet plan), and the spoiled ones themselves. Each part is given one piece. The cheapest
exchange for one missing part is the shortest path from it, each step from a part to a piece that
serves as it, to a piece that no good part needs: a spoiled one (Dijkstra 1959). That path is an augmenting
path of the assignment problem, so no exchange of these pieces is cheaper.
"""

from __future__ import annotations

import heapq
from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import count

from ...casework.parts.part import Part
from ...casework.project import Project
from ..facts import AsCut, Facts, made_as, made_of, sound_size
from ..harm import HarmKind
from ..piece_shape import PieceShape, piece_shape, turn_that_serves
from ..repair_times import RepairPace
from .cure import PartCure
from .way import ServeAs, WayKind


@dataclass(frozen=True)
class PlacePiece:
    """A piece of wood in the shape of a part. `shape` is None while nothing is cut into it; `own` says that
    it is good for the part it was made as, `planned` that it is still to be cut. `made` are the features that
    are cut into it."""

    mark: str
    length: Fraction
    width: Fraction
    shape: PieceShape | None
    own: bool
    planned: bool = False
    made: tuple[str, ...] = ()


def exchanges(
    project: Project, facts: Facts, missing: Sequence[Part], pace: RepairPace
) -> Iterator[PartCure]:
    """For each missing part the cheapest exchange that gives it a piece, if there is one.

    Where that uses a piece of another part's exchange, the cheapest that does not is given too.
    """
    taken: set[str] = set()
    for part in missing:
        if part.mark not in facts.spoiled:
            continue
        pieces = pieces_for(project, facts, part, missing)
        cure = _exchange(project, part, pieces, pace)
        if cure and cure.touches & taken:
            yield cure
            free = {mark: piece for mark, piece in pieces.items() if mark not in taken}
            cure = _exchange(project, part, free, pace)
        if cure:
            taken |= cure.touches
            yield cure


def _exchange(
    project: Project, part: Part, pieces: Mapping[str, PlacePiece], pace: RepairPace
) -> PartCure | None:
    path = _cheapest(project, part, pieces, pace)
    if not path:
        return None
    touched = frozenset(one.piece for one in path) | frozenset(one.mark for one in path)
    saved = {part.mark}
    own, last = pieces.get(part.mark), path[-1].piece
    alone = serve_as(project, own, part) if own else None
    if alone and not alone.turn:
        return None  # its own piece serves: there is nothing to exchange
    # Two spoiled pieces may be each other's part: then the one exchange puts both right.
    back = serve_as(project, own, project.parts[last]) if own and last != part.mark else None
    if back:
        path, saved = (*path, back), saved | {last}
    return PartCure(_kind_of(project, path), frozenset(saved), path, touches=touched)


def _kind_of(project: Project, path: Sequence[ServeAs]) -> WayKind:
    """A piece that is turned and becomes its own mate is turned; all else is an exchange."""
    cases = {project.parts[mark].case for one in path for mark in (one.piece, one.mark)}
    turned = [one for one in path if one.worked and one.turn]
    return WayKind.TURN if turned and len(cases) == 1 else WayKind.ROLES


def pieces_for(
    project: Project, facts: Facts, part: Part, missing: Sequence[Part]
) -> Mapping[str, PlacePiece]:
    """The pieces that may change places for a part: all of its material, outside glued-up cases."""
    planned = {mark for blank in facts.blanks for mark in blank.planned}
    lacking = {one.mark for one in missing}
    found: dict[str, PlacePiece] = {}
    for other in project:
        mark = other.mark
        if facts.is_built_in(other) or mark in facts.given_up:
            continue
        material = made_of(other, facts.spoiled[mark]) if mark in facts.spoiled else other.material
        if material != part.material:
            continue
        if mark in facts.spoiled:
            if mark in lacking and (piece := _spoiled(project, other, facts.spoiled[mark])):
                found[mark] = piece
        elif mark in facts.finished:
            cut = facts.finished[mark]
            shape = piece_shape(project, other, only=cut.cut_so_far) if cut.worked else None
            found[mark] = PlacePiece(mark, cut.length, cut.width, shape, True, made=_made(other, cut))
        elif mark in planned:
            length, width, _ = project.dimensions(other)
            found[mark] = PlacePiece(mark, length, width, None, own=True, planned=True)
    return found


def _spoiled(project: Project, part: Part, cut: AsCut) -> PlacePiece | None:
    """A spoiled piece, if it is known what is cut into it."""
    if not cut.worked:
        sound = sound_size(part, cut)
        return PlacePiece(part.mark, *sound, None, own=False) if sound and min(sound) > 0 else None
    if any(harm.fault is HarmKind.LEFT_OUT for harm in cut.harms):
        return None
    if not cut.harms or sound_size(part, AsCut(cut.length, cut.width)) is None:
        return None
    if any(harm.side is not None for harm in cut.harms):
        return None
    shape = piece_shape(project, part, cut.harms, cut.cut_so_far)
    made = _made(made_as(project, cut.harms) or part, cut)
    return PlacePiece(part.mark, cut.length, cut.width, shape, own=False, made=made) if shape else None


def _made(part: Part, cut: AsCut) -> tuple[str, ...]:
    return tuple(one.name for one in cut.made_of_it(part))


def serve_as(project: Project, piece: PlacePiece, part: Part) -> ServeAs | None:
    """How the piece serves as the part, if it does."""
    length, width, _ = project.dimensions(part)
    half = project.job.mark.step / 2
    if piece.shape is not None:
        need = piece_shape(project, part)
        if need is None or abs(piece.length - length) > half or abs(piece.width - width) > half:
            return None
        turn = turn_that_serves(piece.shape, need, half)
        if turn is None:
            return None
        only = piece.made if len(piece.shape.cuts) < len(need.cuts) else ()
        return ServeAs(piece.mark, part.mark, turn, worked=True, only=only)
    for turned in (False, True):
        have = (piece.width, piece.length) if turned else (piece.length, piece.width)
        if have[0] >= length - half and have[1] >= width - half and (not turned or project.may_turn(part)):
            exact = abs(have[0] - length) <= half and abs(have[1] - width) <= half
            turn = "a quarter" if turned else ""
            trim = None if exact else (length, width)
            return ServeAs(piece.mark, part.mark, turn, trim, piece.planned)
    return None


def _cheapest(
    project: Project, part: Part, pieces: Mapping[str, PlacePiece], pace: RepairPace
) -> tuple[ServeAs, ...]:
    """The shortest path from the part to a piece that no good part needs; of two as short, the one with fewer
    pieces of other cases."""
    order = count()
    start = (Fraction(0), 0)
    waiting: list[tuple[tuple[Fraction, int], int, str]] = [(start, next(order), part.mark)]
    came: dict[str, ServeAs] = {}
    least: dict[str, tuple[Fraction, int]] = {part.mark: start}
    settled: set[Hashable] = set()
    ended: ServeAs | None = None
    best: tuple[Fraction, int] | None = None
    shaped = any(piece.shape is not None for piece in pieces.values())
    while waiting:
        spent, _, mark = heapq.heappop(waiting)
        if best is not None and spent >= best:
            break
        # A part that is made alike takes the same pieces, and reaches none of them for less. Only the first
        # part differs: its own piece is no answer for it, but may be one for a part like it.
        need = mark if mark == part.mark else _need(project, project.parts[mark], shaped)
        if need in settled:
            continue
        settled.add(need)
        for piece in pieces.values():
            step = None if piece.mark == mark else serve_as(project, piece, project.parts[mark])
            if step is None:
                continue
            foreign = project.parts[piece.mark].case != part.case
            reached = (spent[0] + pace.minutes(step, 0), spent[1] + foreign)
            if not piece.own:
                if best is None or reached < best:
                    best, ended = reached, step
            elif piece.mark not in least or reached < least[piece.mark]:
                least[piece.mark] = reached
                came[piece.mark] = step
                heapq.heappush(waiting, (reached, next(order), piece.mark))
    if ended is None:
        return ()
    path = [ended]
    while path[-1].mark != part.mark:
        path.append(came[path[-1].mark])
    return tuple(reversed(path))


def _need(project: Project, part: Part, shaped: bool) -> Hashable:
    """All that `serve_as` asks of the part; what is cut into it counts only where some piece is `shaped`."""
    cuts = piece_shape(project, part) if shaped else None
    return (*project.dimensions(part)[:2], project.may_turn(part), cuts)
