"""Where one more part may come from once a board plan is made: what its boards leave, a board at hand that it
does not use, or the smallest board of the grade that gives it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from ..shop.lumber import LumberGrade, board_feet
from .board_faults import faults_on_board
from .board_plan import BoardLength, BoardPlan, BoardStrip, CutBoard, RoughPart
from .board_problem import BoardPart, BoardProblem


@dataclass(frozen=True)
class LeftPlace:
    """A place for a strip on what a board of the plan leaves: on a length that is cut anyway, beside its
    strips, or `fresh`, on one of its own from the uncut end. `within` is the end of a strip of the plan: the
    `strip` is that one then, with the part after all others."""

    board: CutBoard
    length: BoardLength
    strip: BoardStrip
    fresh: bool = False
    within: bool = False


def left_place(problem: BoardProblem, plan: BoardPlan, part: BoardPart) -> LeftPlace | None:
    """The first place that the plan's boards leave for another such part, with all that is left on it; None
    where there is none. Each is judged as a plan is."""
    for board in plan.boards:
        for place in (
            *_within(problem, board, part),
            *_beside(problem, board, part),
            *_at_the_end(problem, board, part),
        ):
            if not any(faults_on_board(problem, _cut_too(board, place))):
                return place
    return None


def left_places(
    problem: BoardProblem, plan: BoardPlan, parts: Sequence[BoardPart]
) -> tuple[LeftPlace, ...] | None:
    """A place for each of several parts, such as the strips of a panel; None where one has none."""
    found = []
    for part in parts:
        place = left_place(problem, plan, part)
        if place is None:
            return None
        found.append(place)
        plan = with_place(plan, place)
    return tuple(found)


def fresh_places(plan: BoardPlan, mark: str) -> tuple[LeftPlace, ...]:
    """The places of a part in a plan that has it on boards, or lengths, of its own."""
    return tuple(
        LeftPlace(board, length, strip, fresh=True)
        for board, length, strip in plan.strips()
        if any(part.of_part == mark for part in strip.wanted)
    )


def with_place(plan: BoardPlan, place: LeftPlace) -> BoardPlan:
    """The plan with that strip cut as well."""
    boards = (_cut_too(one, place) if one.number == place.board.number else one for one in plan.boards)
    return replace(plan, boards=tuple(boards))


def _cut_too(board: CutBoard, place: LeftPlace) -> CutBoard:
    lengths = [one for one in board.lengths if one.x != place.length.x]
    strips = (*(one for one in place.length.strips if one.y != place.strip.y), place.strip)
    with_it = replace(place.length, strips=tuple(sorted(strips, key=lambda one: one.y)))
    return replace(board, lengths=tuple(sorted((*lengths, with_it), key=lambda one: one.x)))


def smallest_board(
    problem: BoardProblem, grade: LumberGrade, parts: Sequence[BoardPart], rough: Fraction
) -> tuple[Fraction, Fraction, int]:
    """Length, width and whole board feet of the smallest clear board of the grade that gives parts of one
    size: side by side where its least width holds several, else one after another."""
    part, kerf, edge = parts[0], problem.kerf, problem.milling.first_edge
    each = problem.rough_width(part) + kerf
    beside = max(1, int((grade.least_width - edge + kerf) // each))
    lengths = ceil(len(parts) / beside)
    length = max(problem.rough_length(part), problem.shortest)
    long = lengths * (length + kerf) - kerf + 2 * problem.milling.end_trim
    wide = min(beside, len(parts)) * each - kerf + edge
    size = (max(long, grade.least_length), max(wide, grade.least_width))
    return *size, ceil(board_feet(*size, rough))


def _within(problem: BoardProblem, board: CutBoard, part: BoardPart) -> Iterator[LeftPlace]:
    """In a strip, behind its last part, where all of them are planed and ripped as this one is."""
    widths = {one.name: one.width for one in problem.parts}
    for length in board.lengths:
        for strip in length.strips:
            alike = {widths.get(one.name) for one in strip.parts} == {part.width}
            # Where a part was spoiled, the whole strip may have been ripped too narrow.
            if alike and strip.wanted == strip.parts and strip.is_glued == bool(part.panel):
                last = strip.parts[-1]
                x = last.x + last.length + problem.kerf
                new = RoughPart(part.name, x, problem.rough_length(part), part.panel)
                yield LeftPlace(board, length, replace(strip, parts=(*strip.parts, new)), within=True)


def _strip(problem: BoardProblem, part: BoardPart, x: Fraction, y: Fraction) -> BoardStrip:
    rough = RoughPart(part.name, x, problem.rough_length(part), part.panel)
    return BoardStrip(y, problem.rough_width(part), (rough,))


def _beside(problem: BoardProblem, board: CutBoard, part: BoardPart) -> Iterator[LeftPlace]:
    """On each length that is cut, beyond its last strip or beyond a defect there."""
    for length in board.lengths:
        edge = max(strip.y + strip.width for strip in length.strips) + problem.kerf
        for y in (edge, *_past_defects(problem, board, edge)):
            yield LeftPlace(board, length, _strip(problem, part, length.x, y))


def _at_the_end(problem: BoardProblem, board: CutBoard, part: BoardPart) -> Iterator[LeftPlace]:
    """On a length of its own: from the last cut, or behind a defect."""
    start = board.lengths[-1].end + problem.kerf
    long = max(problem.rough_length(part), problem.shortest)
    behind = (problem.up_to_mark(one.end) for one in board.board.defects if one.end > start)
    edge = problem.milling.first_edge
    for x in (start, *sorted(behind)):
        for y in (edge, *_past_defects(problem, board, edge)):
            yield LeftPlace(board, BoardLength(x, long, ()), _strip(problem, part, x, y), fresh=True)


def _past_defects(problem: BoardProblem, board: CutBoard, edge: Fraction) -> list[Fraction]:
    """Where a strip may begin across the board to pass its defects."""
    return sorted(problem.up_to_mark(one.high) for one in board.board.defects if one.high > edge)
