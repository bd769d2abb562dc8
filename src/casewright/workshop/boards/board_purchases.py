"""What to buy in board feet, and which boards at hand are used."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...boards.board_plan import BoardPlan
from ...casework.project import Project


@dataclass(frozen=True)
class BoardPurchase:
    """Boards of one material: the board `feet` that the plan takes of bought ones of the usual size, how many
    `boards` that is, and the names of those `at_hand` that it uses. `foot_price` is zero where none is given.
    """

    material: str
    name: str
    grade: str
    rough: Fraction
    boards: int
    feet: Fraction
    foot_price: Fraction
    at_hand: tuple[str, ...]

    @property
    def money(self) -> Fraction:
        return self.feet * self.foot_price


def boards_to_buy(project: Project, plans: Mapping[str, BoardPlan]) -> tuple[BoardPurchase, ...]:
    """A line for each material that is bought as boards, in the plans' order."""
    lines = []
    for material, plan in plans.items():
        good = project.job.sheets[material]
        if good.boards is not None:
            used = tuple(one.board.name for one in plan.boards if not one.to_buy)
            lines.append(
                BoardPurchase(
                    material,
                    good.name,
                    good.boards.grade.name.value,
                    good.boards.rough,
                    len(plan.to_buy),
                    plan.feet_to_buy,
                    good.boards.foot_price,
                    used,
                )
            )
    return tuple(lines)


def board_money(boards: Iterable[BoardPurchase]) -> Fraction:
    """The price of all boards to buy."""
    return sum((one.money for one in boards), Fraction(0))


def board_feet_of(boards: Iterable[BoardPurchase]) -> Fraction:
    """The board feet to buy in all."""
    return sum((one.feet for one in boards), Fraction(0))
