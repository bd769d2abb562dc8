"""A board plan carried over to a problem that is not the one it was made for: what can stay stays."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from .board_faults import board_plan_faults
from .board_plan import BoardLength, BoardPlan, CutBoard, boards_renumbered
from .board_problem import BoardPart, BoardProblem
from .glue_up import in_strips, strips_as_planned
from .plan_boards import plan_boards


def keep_boards(problem: BoardProblem, plan: BoardPlan) -> BoardPlan:
    """The plan itself where nothing is wrong with it for this problem, else the plan with each board as it
    was where its parts are still wanted, those glued up in as many strips; what is left of the parts is cut
    from other boards, numbered after those. What was proved of the plan is not proved of such a one."""
    if not board_plan_faults(problem, plan):
        return plan
    return _with_boards(problem, plan, plan.boards)


@dataclass(frozen=True)
class BegunBoards:
    """The board plan that a shop works by, and the `numbers` of its boards that a saw has touched."""

    plan: BoardPlan
    numbers: frozenset[int]

    @property
    def boards(self) -> tuple[CutBoard, ...]:
        return tuple(one for one in self.plan.boards if one.number in self.numbers)


def plan_around(problem: BoardProblem, begun: BegunBoards) -> BoardPlan:
    """The best plan found that leaves the boards that are begun as they are. Nothing is proved of it."""
    return _with_boards(problem, begun.plan, begun.boards)


def _with_boards(problem: BoardProblem, plan: BoardPlan, boards: Sequence[CutBoard]) -> BoardPlan:
    """These boards of a plan with what is still wanted of them, and the other parts from other boards."""
    panels = {part.panel for board in boards for part in board.parts}
    strips = {name: count for name, count in strips_as_planned(problem, plan).items() if name in panels}
    parts = in_strips(problem, strips).parts
    wanted = {part.name: part for part in parts}
    kept = [one for board in boards if (one := _still_cut(problem, board, wanted)) is not None]
    made = {part.name for one in kept for part in one.parts}
    used = {one.board.name for one in kept if not one.to_buy}
    rest = replace(
        problem,
        parts=tuple(part for part in parts if part.name not in made),
        at_hand=tuple(board for board in problem.at_hand if board.name not in used),
    )
    new = plan_boards(rest) if rest.parts else BoardPlan((), Fraction(0), 0)
    highest = max((one.number for one in plan.boards), default=0)
    more = [replace(one, number=highest + at) for at, one in enumerate(new.boards, 1)]
    carried = BoardPlan((*kept, *more), Fraction(0), 0, new.unplaced)
    # A plan that cannot be mended so is made anew: nothing wrong is ever handed to a saw.
    return plan_boards(problem) if board_plan_faults(problem, carried) else carried


def renumber_boards(plan: BoardPlan, earlier: list[BoardPlan], used: int = 0) -> BoardPlan:
    """The plan with its boards numbered so that no step already handed out comes to mean another cut: a board
    cut as one of the `earlier` plans has it keeps that number, every other has one that none has had, beyond
    the one `used` too."""
    before = [one for then in reversed(earlier) for one in then.boards]
    unused = max((one.number for one in before), default=0)
    unused = max(unused, used) + 1
    taken: set[int] = set()
    numbers = []
    for board in plan.boards:
        alike = (one.number for one in before if _same_cuts(one, board) and one.number not in taken)
        number = next(alike, None)
        if number is None:
            number, unused = unused, unused + 1
        taken.add(number)
        numbers.append(number)
    return boards_renumbered(plan, numbers)


def _same_cuts(one: CutBoard, other: CutBoard) -> bool:
    return replace(one, number=0) == replace(other, number=0)


def _still_cut(problem: BoardProblem, board: CutBoard, wanted: Mapping[str, BoardPart]) -> CutBoard | None:
    """The board with those of its parts that are still wanted and still come out of their rough sizes, and
    what is spent of it; None where there is nothing of either, or where the board is no longer there."""
    if board.board not in ((problem.bought,) if board.to_buy else problem.at_hand):
        return None
    lengths = tuple(_lengths(problem, board, wanted))
    return replace(board, lengths=lengths) if lengths else None


def _lengths(
    problem: BoardProblem, board: CutBoard, wanted: Mapping[str, BoardPart]
) -> Iterator[BoardLength]:
    for length in board.lengths:
        strips = []
        for strip in length.strips:
            parts = tuple(
                part
                for part in strip.parts
                if part.spent
                or (
                    part.name in wanted
                    and part.panel == wanted[part.name].panel
                    and part.length >= problem.rough_length(wanted[part.name])
                    and strip.width >= problem.rough_width(wanted[part.name])
                )
            )
            if parts:
                strips.append(replace(strip, parts=parts))
        if strips:
            yield BoardLength(length.x, length.length, tuple(strips))
