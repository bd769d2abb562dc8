"""What to buy in board feet, how sure that is, and which boards at hand are used."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from ...boards.board_plan import BoardPlan
from ...boards.board_problem import BoardProblem
from ...boards.buying_odds import BuyingOdds, buying_odds, nothing_needed
from ...boards.glue_up import as_planned
from ...boards.plan_boards import lone_misfits
from ...casework.project import Project


@dataclass(frozen=True)
class BoardPurchase:
    """Boards of one material to buy. `odds` say how far they go in drawn lots of the grade.

    `clear_boards` and `clear_feet` are what the plan takes of clear boards of the usual size, `at_hand` the
    names of the boards at hand that it uses; `has_misfits` says that no board holds some part, even alone.
    `foot_price` is zero where none is given. `here` counts the boards that were to be bought and are begun,
    which are not among those to buy.
    """

    material: str
    name: str
    grade: str
    rough: Fraction
    foot_price: Fraction
    clear_boards: int
    clear_feet: Fraction
    at_hand: tuple[str, ...]
    odds: BuyingOdds
    has_misfits: bool
    here: int = 0

    @property
    def sure_feet(self) -> int | None:
        """The board feet to buy to be 95 times in 100 sure; None where so many lots never do."""
        return self.odds.to_buy()

    @property
    def feet(self) -> Fraction:
        """The board feet on the buying list: where none are sure, what the plan takes of clear boards."""
        return self.clear_feet if self.sure_feet is None else Fraction(self.sure_feet)

    @property
    def enough_in(self) -> int:
        """In how many of the drawn lots those are enough."""
        return self.odds.lots_enough(self.feet)

    @property
    def money(self) -> Fraction:
        return self.feet * self.foot_price


def boards_to_buy(
    project: Project,
    problems: Mapping[str, BoardProblem],
    plans: Mapping[str, BoardPlan],
    lots: int,
    seed: int = 0,
    begun: Collection[tuple[str, int]] = (),
) -> tuple[BoardPurchase, ...]:
    """A line for each material that is bought as boards, in the plans' order, by so many drawn lots. Boards
    that are `begun`, by material and number, are there already with all that comes of them."""
    lines = []
    for material, whole in plans.items():
        good = project.job.sheets[material]
        if good.boards is not None:
            numbers = {number for key, number in begun if key == material}
            problem, plan = _still_to_buy(problems[material], whole, numbers)
            at_hand_do = not plan.to_buy and not plan.unplaced
            lines.append(
                BoardPurchase(
                    material,
                    good.name,
                    good.boards.grade.name.value,
                    good.boards.rough,
                    good.boards.foot_price,
                    len(plan.to_buy),
                    plan.feet_to_buy,
                    tuple(one.board.name for one in whole.boards if not one.to_buy),
                    nothing_needed(lots)
                    if at_hand_do
                    else buying_odds(as_planned(problem, plan), good.boards.grade, lots, seed),
                    bool(lone_misfits(problem)),
                    len(whole.to_buy) - len(plan.to_buy),
                )
            )
    return tuple(lines)


def _still_to_buy(
    problem: BoardProblem, plan: BoardPlan, begun: Collection[int]
) -> tuple[BoardProblem, BoardPlan]:
    """What is to be cut from the other boards once these are begun."""
    if not begun:
        return problem, plan
    done = [one for one in plan.boards if one.number in begun]
    made = {mark for one in done for mark in one.marks}
    used = {one.board.name for one in done if not one.to_buy}
    left = replace(
        problem,
        parts=tuple(part for part in problem.parts if part.name not in made),
        at_hand=tuple(board for board in problem.at_hand if board.name not in used),
    )
    return left, replace(plan, boards=tuple(one for one in plan.boards if one.number not in begun))


def board_money(boards: Iterable[BoardPurchase]) -> Fraction:
    """The price of all boards to buy."""
    return sum((one.money for one in boards), Fraction(0))


def board_feet_of(boards: Iterable[BoardPurchase]) -> Fraction:
    """The board feet to buy in all."""
    return sum((one.feet for one in boards), Fraction(0))
