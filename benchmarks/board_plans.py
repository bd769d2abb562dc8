"""Board plans: how long they take, how far from the bound, and how often the board feet to buy are enough."""

from __future__ import annotations

import time
from fractions import Fraction as F

from board_lists import USUAL, any_list, doors_from, rough_boards
from casewright.app.choices import BOARD_LOTS
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.board_problem import BoardProblem
from casewright.boards.buying_odds import LotNeeds, buying_odds, lot_needs, lot_of
from casewright.boards.plan_boards import plan_boards
from casewright.shop.lumber import GRADES, GradeName
from casewright.shop.rough_boards import RoughBoard

TITLE = "Boards: plans and buying"
LOTS = 1000
SURE = (F(50, 100), F(80, 100), F(95, 100))
KERF = F(1, 8)


def run(quick: bool = False) -> str:
    """The tables as Markdown."""
    return "\n".join([*_plans(quick), "", *_lots(20 if quick else LOTS)])


def _plans(quick: bool) -> list[str]:
    lists = [("ten doors, bought boards", doors_from((), doors=10))]
    lists += [(f"ten doors, boards {seed}", doors_from(rough_boards(seed, 9), doors=10)) for seed in range(4)]
    lists += [
        (f"list {seed} of 60", BoardProblem(any_list(seed, 60), (), USUAL, KERF))
        for seed in range(2 if quick else 8)
    ]
    lines = ["| parts | number | boards | to buy, bf | bound, bf | used, bf | gap % | s | faults |"]
    lines.append("|---|---|---|---|---|---|---|---|---|")
    for name, problem in lists:
        start = time.process_time()
        plan = plan_boards(problem)
        took = time.process_time() - start
        faults = len(board_plan_faults(problem, plan)) + len(plan.unplaced)
        lines.append(
            f"| {name} | {len(problem.parts)} | {len(plan.boards)} | {float(plan.feet_to_buy):.1f} "
            f"| {float(plan.bound):.1f} | {float(plan.feet_used):.1f} | {100 * float(plan.gap):.0f} "
            f"| {took:.1f} | {faults} |"
        )
    return lines


def _lots(number: int) -> list[str]:
    """What is bought by the advice from as many lots as are drawn by default, in other lots: where it is not
    enough, board after board is bought until it is. Beside it the least that would have done in each lot, as
    far as was found."""
    head = (
        "| grade | sure | buy, bf | enough in % of lots | bought, mean bf | least found, mean bf | more, % |"
    )
    lines = [head, "|---|---|---|---|---|---|---|"]
    for name in (GradeName.FAS, GradeName.COMMON_1):
        grade = GRADES[name]
        usual = RoughBoard("", grade.least_length + 24, (grade.least_width + 1,), F(1))
        problem = doors_from((), usual, doors=6)
        advice = buying_odds(problem, grade, BOARD_LOTS)
        lots = [(lot_needs(problem, lot_of(usual, grade, 10**7 + at)), at) for at in range(number)]
        known = [(needs, at) for needs, at in lots if needs is not None]
        for sure in SURE:
            feet = advice.to_buy(sure)
            if feet is None:
                continue
            bought = [_bought(usual, name, at, feet, needs) for needs, at in known]
            enough = sum(needs.without_last < feet for needs, _ in known)
            least = sum(float(needs.needed) for needs, _ in known)
            lines.append(
                f"| {name.value} | {100 * float(sure):.0f} | {feet} | {100 * enough / number:.1f} "
                f"| {sum(bought) / len(bought):.1f} | {least / len(known):.1f} "
                f"| {100 * (sum(bought) / least - 1):.1f} |"
            )
    return [*lines, "", f"{number} lots; six doors (30 parts)."]


def _bought(usual: RoughBoard, name: GradeName, lot: int, feet: int, needs: LotNeeds) -> float:
    """The board feet of the boards taken: until there are so many, and on until they are enough."""
    total = F(0)
    for board in lot_of(usual, GRADES[name], 10**7 + lot):
        if total >= feet and total >= needs.needed:
            break
        total += board.feet
    return float(total)
