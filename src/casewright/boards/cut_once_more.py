"""A part of a board plan is to be cut once more: where it may come from, each answer a whole plan.

Wood that was cut already is spent. A board that is begun keeps every cut that it has; of what it leaves a
strip may still be cut, in a later round. Boards that nothing is cut from may be cut otherwise than planned,
and get new numbers then, so that no step comes to mean another cut.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from ..shop.rough_boards import RoughBoard
from .board_faults import board_plan_faults
from .board_plan import BoardLength, BoardPlan, CutBoard
from .board_problem import BoardPart, BoardProblem
from .glue_up import as_planned, in_strips, to_glue_up
from .one_more import LeftPlace, fresh_places, left_places, with_place
from .plan_boards import plan_boards


class WoodSource(Enum):
    """Where another such part comes from, what is taken first before what is taken last."""

    LEFT = "what the boards of the plan leave"
    AT_HAND = "a board at hand that the plan does not use"
    LAID_OUT = "boards not cut yet, laid out again"
    BOUGHT = "a board to buy"


@dataclass(frozen=True)
class BoardsInHand:
    """A board plan part way through: the numbers of the boards that are `begun`, whether its strips are
    `planed`, and the parts that came of it and are `no_good`."""

    plan: BoardPlan
    begun: frozenset[int] = frozenset()
    planed: bool = False
    no_good: frozenset[str] = frozenset()

    @property
    def placed(self) -> frozenset[str]:
        """The parts that the plan gives, and that are not known to be no good."""
        return self.plan.marks - self.no_good


@dataclass(frozen=True)
class OnceMore:
    """A plan with a part cut once more: where that lies (`places`), on boards of the plan before where it is
    of what they leave. `laid_out` are the parts that got other places beside it, `boards` the boards that
    were touched."""

    mark: str
    plan: BoardPlan
    source: WoodSource
    places: tuple[LeftPlace, ...]
    laid_out: tuple[str, ...] = ()
    boards: int = 0


def once_more(problem: BoardProblem, hand: BoardsInHand, mark: str, source: WoodSource) -> OnceMore | None:
    """The plan with this part cut again from that source; None where it gives none. In the plan so far the
    part has no place, or only spent wood."""
    (part,) = (one for one in problem.parts if one.name == mark)
    find = {
        WoodSource.LEFT: _from_what_is_left,
        WoodSource.AT_HAND: _from_a_board_at_hand,
        WoodSource.LAID_OUT: _laid_out_again,
        WoodSource.BOUGHT: _from_a_board_to_buy,
    }[source]
    return next(find(problem, hand, part), None)


def with_spent(hand: BoardsInHand, marks: Collection[str]) -> BoardsInHand:
    """The plan once these parts are wanted no more: the wood of those on boards that are begun is spent, that
    of the others is there again."""
    boards = []
    for board in hand.plan.boards:
        lengths = tuple(_less(board, marks, keep=board.number in hand.begun))
        if lengths:
            boards.append(replace(board, lengths=lengths))
    return replace(hand, plan=replace(hand.plan, boards=tuple(boards)))


def outgrown(problem: BoardProblem, hand: BoardsInHand) -> frozenset[str]:
    """The parts of the plan that no longer come out of their places, or are no longer wanted."""
    wanted = {part.name: part for part in as_planned(problem, hand.plan).parts}
    return frozenset(
        part.of_part
        for _, _, strip in hand.plan.strips()
        for part in strip.wanted
        if part.name not in wanted
        or part.length < problem.rough_length(wanted[part.name])
        or strip.width < problem.rough_width(wanted[part.name])
    )


def _less(board: CutBoard, marks: Collection[str], *, keep: bool) -> Iterator[BoardLength]:
    for length in board.lengths:
        strips = []
        for strip in length.strips:
            parts = tuple(
                replace(part, spent=True) if part.of_part in marks else part
                for part in strip.parts
                if keep or part.spent or part.of_part not in marks
            )
            if parts:
                strips.append(replace(strip, parts=parts))
        if strips:
            yield replace(length, strips=tuple(strips))


def _from_what_is_left(problem: BoardProblem, hand: BoardsInHand, part: BoardPart) -> Iterator[OnceMore]:
    """On one kind of boards first, those not begun before all: there it is milled in one go with the rest.
    Of those the ones that parts seen with it come from are looked at first."""
    boards, numbers = hand.plan.boards, {one.number for one in hand.plan.boards}
    parts = _pieces(problem, part)
    others = (one for one in as_planned(problem, hand.plan).parts if one.name != part.name)
    whole = replace(problem, parts=(*others, *parts))
    mates = {one.name for one in problem.parts if one.together == part.together}
    tried = [numbers - hand.begun, numbers & hand.begun, numbers]
    for allowed in (one for at, one in enumerate(tried) if one and one not in tried[:at]):
        some = [one for one in boards if one.number in allowed]
        some.sort(key=lambda one: mates.isdisjoint(one.marks))
        places = left_places(whole, replace(hand.plan, boards=tuple(some)), parts)
        if places is None:
            continue
        later = _round_of(hand, {one.board.number for one in places})
        plan = hand.plan
        for place in places:
            now = plan.numbered(place.board.number)
            length = next((one for one in now.lengths if one.x == place.length.x), place.length)
            # The end of a strip is of that strip's round, even where that was placed just now.
            there = (one.later for one in length.strips if place.within and one.y == place.strip.y)
            strip = replace(place.strip, later=next(there, later))
            plan = with_place(plan, replace(place, board=now, length=length, strip=strip))
        yield from _sound(problem, OnceMore(part.name, plan, WoodSource.LEFT, places))


def _from_a_board_at_hand(problem: BoardProblem, hand: BoardsInHand, part: BoardPart) -> Iterator[OnceMore]:
    used = [one.board.name for one in hand.plan.boards if not one.to_buy]
    free = tuple(board for board in problem.at_hand if board.name not in used)
    if free:
        alone = replace(problem, parts=(part,), at_hand=free, bought=None)
        yield from _beside_the_rest(problem, hand, alone, WoodSource.AT_HAND)


def _from_a_board_to_buy(problem: BoardProblem, hand: BoardsInHand, part: BoardPart) -> Iterator[OnceMore]:
    if problem.bought is not None:
        alone = replace(problem, parts=(part,), at_hand=())
        yield from _beside_the_rest(problem, hand, alone, WoodSource.BOUGHT)


def _beside_the_rest(
    problem: BoardProblem, hand: BoardsInHand, alone: BoardProblem, source: WoodSource
) -> Iterator[OnceMore]:
    """From boards that the plan does not have yet."""
    found = plan_boards(alone)
    if found.unplaced:
        return
    plan = _with_new_boards(hand, hand.plan.boards, found.boards)
    (part,) = alone.parts
    places = fresh_places(plan, part.name)
    yield from _sound(problem, OnceMore(part.name, plan, source, places, boards=len(found.boards)))


def _laid_out_again(problem: BoardProblem, hand: BoardsInHand, part: BoardPart) -> Iterator[OnceMore]:
    """Boards that nothing is cut from, with their parts and this one on them: one board first, then all."""
    uncut = [one for one in hand.plan.boards if one.number not in hand.begun]
    uncut.sort(key=lambda one: len(one.parts))
    several = [uncut] if len(uncut) > 1 else []
    for boards in (*([one] for one in uncut), *several):
        there = {_as_uncut(one): one for one in boards}
        again = {mark for one in boards for mark in one.marks}
        elsewhere = {mark for one in hand.plan.boards if one not in boards for mark in one.marks}
        if again & elsewhere:
            continue  # a panel with strips of another board too
        parts = tuple(one for one in problem.parts if one.name in again or one.name == part.name)
        found = plan_boards(replace(problem, parts=parts, at_hand=tuple(there), bought=None))
        if found.unplaced:
            continue
        new = [
            replace(one, board=there[one.board].board, to_buy=there[one.board].to_buy) for one in found.boards
        ]
        plan = _with_new_boards(hand, [one for one in hand.plan.boards if one not in boards], new)
        places = fresh_places(plan, part.name)
        marks = tuple(one.name for one in parts if one.name != part.name)
        yield from _sound(problem, OnceMore(part.name, plan, WoodSource.LAID_OUT, places, marks, len(boards)))


def _as_uncut(one: CutBoard) -> RoughBoard:
    """A board of the plan under a name that no other has: boards to buy have none."""
    return replace(one.board, name=f"board {one.number}")


def _pieces(problem: BoardProblem, part: BoardPart) -> tuple[BoardPart, ...]:
    """The part itself, or the strips that it is glued up from."""
    numbers = {name: fewest for name, (fewest, *_) in to_glue_up(replace(problem, parts=(part,))).items()}
    return in_strips(replace(problem, parts=(part,)), numbers).parts


def _round_of(hand: BoardsInHand, numbers: Collection[int]) -> int:
    """The round for what is cut from boards of these numbers: with all the rest where none of them is begun
    and nothing is planed yet, else one after all others."""
    if not hand.planed and hand.begun.isdisjoint(numbers):
        return 0
    return 1 + max((strip.later for _, _, strip in hand.plan.strips()), default=0)


def _with_new_boards(hand: BoardsInHand, kept: Sequence[CutBoard], new: Sequence[CutBoard]) -> BoardPlan:
    """These boards of the plan, and new ones under numbers that it does not have yet."""
    highest, later = max((one.number for one in hand.plan.boards), default=0), _round_of(hand, ())
    numbered = (_in_round(replace(one, number=highest + at), later) for at, one in enumerate(new, 1))
    return BoardPlan((*kept, *numbered), Fraction(0), 0, hand.plan.unplaced)


def _in_round(one: CutBoard, later: int) -> CutBoard:
    lengths = (
        replace(length, strips=tuple(replace(strip, later=later) for strip in length.strips))
        for length in one.lengths
    )
    return replace(one, lengths=tuple(lengths))


def _sound(problem: BoardProblem, made: OnceMore) -> Iterator[OnceMore]:
    """The answer; none where the plan cannot be cut so. Other parts may still be without a place."""
    given = made.plan.marks
    judged = replace(problem, parts=tuple(one for one in problem.parts if one.name in given))
    if not board_plan_faults(judged, replace(made.plan, unplaced=())):
        yield made


def renumbered_since(hand: BoardsInHand, plan: BoardPlan) -> BoardPlan:
    """The plan that `hand` has come to, with new numbers on the boards that are cut otherwise now though
    nothing is cut from them yet; of the parts left without a place those that have one now are none. What was
    proved of the plan before is not proved of it."""
    was, boards = {one.number: one for one in hand.plan.boards}, []
    unused = max((one.number for one in (*hand.plan.boards, *plan.boards)), default=0) + 1
    for one in plan.boards:
        if one.number in was and one != was[one.number] and one.number not in hand.begun:
            one, unused = replace(one, number=unused), unused + 1
        boards.append(one)
    given = plan.marks
    unplaced = tuple(name for name in plan.unplaced if name not in given)
    return BoardPlan(tuple(boards), Fraction(0), 0, unplaced)
