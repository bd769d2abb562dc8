"""Mill the parts of boards that are still needed once more, and find what must be bought for them."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from ...boards.board_plan import BoardPlan
from ...boards.board_problem import BoardPart, BoardProblem
from ...boards.buying_odds import buying_odds
from ...boards.cut_once_more import (
    BoardsInHand,
    OnceMore,
    WoodSource,
    once_more,
    outgrown,
    renumbered_since,
    with_spent,
)
from ...boards.glue_up import as_planned
from ...boards.one_more import LeftPlace, fresh_places, smallest_board
from ...casework.parts.part import Part
from ...casework.project import Project
from ...shop.lumber import board_feet
from ...shop.rough_boards import LOTS_DRAWN, BoughtAsBoards
from ...workshop.boards.board_problems import board_problem
from ..facts import Facts
from .way import Action, BuyBoard, MillAgain, MilledPlace, NewPlaces

LEFT_WORTH = Fraction(1, 4)
"""What wood that the plan leaves over is worth, as a share of its price: as of the offcuts of a sheet."""

WITHOUT_BUYING = (WoodSource.LEFT, WoodSource.AT_HAND, WoodSource.LAID_OUT)


@dataclass(frozen=True)
class MilledBoards:
    """The board `plans` that change, by material, with what to do, what is spent, and the worth of the wood
    at hand that is used up."""

    plans: Mapping[str, BoardPlan] = field(default_factory=dict)
    actions: tuple[Action, ...] = ()
    money: Fraction = Fraction(0)
    wood: Fraction = Fraction(0)


def mill_again(
    after: Project,
    facts: Facts,
    make: Sequence[Part],
    resized: Collection[str],
    *,
    buy: bool,
    source: WoodSource | None = None,
) -> MilledBoards | None:
    """All parts of `make` that are of boards, milled once more; None when that cannot be done.

    Each comes from what lies nearest, in the order of `WoodSource`; from the one `source` first where it is
    given, and then at least one must come from there.
    """
    made = {part.mark for part in make}
    gone = made | facts.given_up
    done, taken = MilledBoards(), False
    for material, hand in facts.boards.items():
        lost = gone & (hand.no_good | hand.placed)
        if not lost and material not in resized:
            continue
        parts = [part for part in after if part.material == material]
        problem = board_problem(after, material, parts)
        now = with_spent(hand, lost)
        small = outgrown(problem, now)
        begun = {mark for one in now.plan.boards if one.number in now.begun for mark in one.marks}
        if small & begun:
            return None  # nothing larger comes out of a board that is cut already
        now = with_spent(now, small)
        wanted = [part for part in parts if part.mark in made or part.mark in small]
        found = _one_wood(after, problem, now, wanted, buy, source)
        if found is None:
            return None
        plan, answers = renumbered_since(hand, found[0]), found[1]
        taken = taken or any(one.source is source for one in answers)
        done = _with(done, after, material, problem, hand, plan, answers, small)
    return None if source is not None and not taken else done


def _one_wood(
    after: Project,
    problem: BoardProblem,
    hand: BoardsInHand,
    wanted: Sequence[Part],
    buy: bool,
    source: WoodSource | None,
) -> tuple[BoardPlan, tuple[OnceMore, ...]] | None:
    """The plan with these parts, the largest first, and how each came into it."""
    order = (*WITHOUT_BUYING, *([WoodSource.BOUGHT] if buy else []))
    answers: list[OnceMore] = []
    for part in sorted(wanted, key=lambda part: -_area(after, part)):
        # The others take what is left of a board that is cut into, or bought, for the largest.
        first = [source] if source and not answers else []
        tried = (once_more(problem, hand, part.mark, one) for one in dict.fromkeys((*first, *order)))
        answer = next((one for one in tried if one is not None), None)
        if answer is None:
            return None
        hand = replace(hand, plan=answer.plan)
        answers.append(answer)
    return hand.plan, tuple(answers)


def _area(project: Project, part: Part) -> Fraction:
    length, width, _ = project.dimensions(part)
    return length * width


def _with(
    done: MilledBoards,
    after: Project,
    material: str,
    problem: BoardProblem,
    hand: BoardsInHand,
    plan: BoardPlan,
    answers: Sequence[OnceMore],
    small: Collection[str],
) -> MilledBoards:
    boards = after.job.sheets[material].boards
    assert boards is not None, f"{material} is bought as boards"
    actions = [*done.actions]
    money, wood = done.money, done.wood
    laid_out = {mark for one in answers for mark in one.laid_out} | {*small}
    for answer in answers:
        if answer.source is WoodSource.BOUGHT:
            bought = _board_to_buy(problem, material, boards, answer)
            actions.append(bought)
            money += boards.price_of(bought.feet)
        if answer.mark in small:
            continue
        if answer.mark in laid_out:
            answer = _laid_out_since(answer, plan)
        actions.append(_milled(problem, hand, answer, plan))
        wood += sum((_worth(boards, answer, one) for one in answer.places), Fraction(0))
    laid_out -= {answer.mark for answer in answers} - {*small}
    if laid_out:
        touched = sum(one.boards for one in answers if one.laid_out) or 1
        actions.append(NewPlaces(material, tuple(sorted(laid_out)), touched))
    return MilledBoards({**done.plans, material: plan}, tuple(actions), money, wood)


def _laid_out_since(answer: OnceMore, plan: BoardPlan) -> OnceMore:
    """The answer where another part, that came after, had its board laid out once more."""
    source = answer.source if answer.source is WoodSource.BOUGHT else WoodSource.LAID_OUT
    return replace(answer, source=source, places=fresh_places(plan, answer.mark))


def _milled(problem: BoardProblem, hand: BoardsInHand, answer: OnceMore, plan: BoardPlan) -> MillAgain:
    pieces = _pieces(problem, answer, plan)
    first = pieces[0]
    places = dict.fromkeys(_place(answer, one, plan, pieces) for one in answer.places)
    alone = hand.planed and any(not one.within for one in places)
    rough = (problem.rough_length(first), problem.rough_width(first))
    return MillAgain(answer.mark, answer.source, rough, tuple(places), len(pieces), alone)


def _pieces(problem: BoardProblem, answer: OnceMore, plan: BoardPlan) -> tuple[BoardPart, ...]:
    """The part in one piece, or its strips."""
    own = tuple(part for part in problem.parts if part.name == answer.mark)
    return as_planned(replace(problem, parts=own), plan).parts


def _place(answer: OnceMore, one: LeftPlace, plan: BoardPlan, pieces: Sequence[BoardPart]) -> MilledPlace:
    now = plan.board_of.get(one.strip.parts[-1].name, plan.board_of[pieces[0].name])
    name = "" if one.board.to_buy else one.board.board.name
    where = (one.length.x, one.length.end, one.strip.y, one.fresh, one.within)
    return MilledPlace(one.board.number, name, *where, now)


def _board_to_buy(problem: BoardProblem, material: str, boards: BoughtAsBoards, answer: OnceMore) -> BuyBoard:
    """The smallest board of the grade that gives the part, and how often one off the rack does."""
    pieces = _pieces(problem, answer, answer.plan)
    long, wide, feet = smallest_board(problem, boards.grade, pieces, boards.rough)
    alone = replace(problem, parts=pieces, at_hand=())
    odds = buying_odds(alone, boards.grade, LOTS_DRAWN)
    return BuyBoard(material, long, wide, feet, odds.lots_enough(Fraction(feet)), odds.drawn)


def _worth(boards: BoughtAsBoards, answer: OnceMore, one: LeftPlace) -> Fraction:
    """What the wood of a place at hand is worth: of a board that is cut into for it, all of it."""
    if answer.source is WoodSource.AT_HAND:
        return boards.price_of(one.board.board.feet)
    if answer.source is WoodSource.BOUGHT:
        return Fraction(0)
    long = one.strip.parts[-1].length
    return LEFT_WORTH * boards.price_of(board_feet(long, one.strip.width, boards.rough))
