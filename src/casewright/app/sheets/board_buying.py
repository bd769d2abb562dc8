"""How many board feet of each solid wood to buy, and how sure that is, in words and as plain values."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ...boards.board_plan import BoardPlan
from ...boards.board_problem import BoardPart
from ...boards.buying_odds import MOST_BOARDS, SURE, BuyingOdds, buying_odds
from ...boards.plan_boards import lone_misfits
from ...casework.project import Project
from ...lengths.quantities import json_number, with_cents
from ...shop.rough_boards import BoughtAsBoards
from ...workshop.boards.board_wording import feet_words, quarters_words
from ..jobs.job_plan import Report
from ..jobs.worked_job import WorkedJob

TOLD = (Fraction(1, 2), Fraction(4, 5), SURE)
"""How sure one may want to be, each with the board feet it takes."""


@dataclass(frozen=True)
class WoodToBuy:
    """One solid wood: what its plan takes of clear boards, and the odds in drawn lots of its grade. `misfits`
    are the parts that no board holds, even alone."""

    project: Project
    material: str
    boards: BoughtAsBoards
    plan: BoardPlan
    odds: BuyingOdds
    misfits: tuple[BoardPart, ...] = ()

    @property
    def feet(self) -> int | None:
        """What to buy to be 95 times in 100 sure; None where so many lots never do."""
        return self.odds.to_buy()

    def words(self) -> Iterator[str]:
        """What to buy, and how sure less or more would be, a line each."""
        name, feet, lots = self.project.job.sheets[self.material].name, self.feet, self.odds.drawn
        what = f"{quarters_words(self.project, self.boards.rough)} {self.boards.grade.name.value}"
        if feet == 0:
            yield f"{name}: nothing to buy; the boards at hand are enough."
            return
        if feet is None:
            yield f"{name}: {self._why_none(what)}"
            return
        money = self.boards.price_of(feet)
        price = f" ({self.project.job.money}{with_cents(money)})" if money else ""
        enough = f"enough in {self._enough(feet)} of {lots} drawn lots"
        yield f"{name}: buy at least {feet} bf of {what}{price}: {enough}."
        others = (self.odds.to_buy(sure) for sure in TOLD)
        less = [one for one in dict.fromkeys(others) if one is not None and one < feet]
        yield from (f"  {one} bf would be enough in {self._enough(one)} of them." for one in less)
        yield f"  Of clear boards of the usual size the plan takes {feet_words(self.plan.feet_to_buy)}."

    def _why_none(self, what: str) -> str:
        """Why no amount is sure to do, and what helps: one part that no board holds, or too many parts."""
        lots = f"in {self.odds.hopeless} of {self.odds.drawn} drawn lots"
        if self.misfits:
            return (
                f"no amount of {what} is sure to do: {lots} some part fits no board. "
                "Look for longer or wider boards, or a better grade."
            )
        return (
            f"no amount of {what} can be named: {lots} not even {MOST_BOARDS} boards give every part. "
            "Enter the size of larger boards, choose a better grade, or divide the cases over two job files."
        )

    def _enough(self, feet: int) -> int:
        return self.odds.lots_enough(Fraction(feet))

    def plain(self) -> dict[str, Any]:
        """The same as JSON."""
        return {
            "material": self.material,
            "grade": self.boards.grade.name.value,
            "board_feet": self.feet,
            "lots": self.odds.drawn,
            "enough_in": None if self.feet is None else self._enough(self.feet),
            "clear_board_feet": json_number(self.plan.feet_to_buy),
        }


def wood_to_buy(
    worked: WorkedJob, lots: int, seed: int = 0, progress: Report | None = None
) -> tuple[WoodToBuy, ...]:
    """Every solid wood of a job that is bought as boards. Raises JobError where no parts can be made."""
    project = worked.needed_sound()
    found = []
    for material, problem in worked.board_problems.items():
        boards = project.job.sheets[material].boards
        assert boards is not None, f"{material} is bought as boards"
        if progress:
            progress(f"{project.job.sheets[material].name}: drawing {lots} lots")
        odds, misfits = buying_odds(problem, boards.grade, lots, seed), lone_misfits(problem)
        found.append(WoodToBuy(project, material, boards, worked.board_plans[material], odds, misfits))
    return tuple(found)
