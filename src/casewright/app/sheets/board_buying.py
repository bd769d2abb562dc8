"""How many board feet of each solid wood to buy, and how sure that is, in lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ...casework.project import Project
from ...lengths.quantities import json_number
from ...workshop.boards.board_purchases import BoardPurchase
from ...workshop.boards.buying_wording import less_to_buy, what_to_buy
from ..jobs.worked_job import PlannedJob
from .made_already import MadeAlready


def boards_left_to_buy(planned: PlannedJob, already: MadeAlready) -> tuple[BoardPurchase, ...]:
    """The boards to buy of each solid wood beside those that are begun `already`."""
    begun = already.begun_boards
    return planned.boards_to_buy(begun=begun) if begun else planned.board_purchases


def wood_to_buy_lines(project: Project, wood: BoardPurchase) -> Iterator[str]:
    """What to buy of one solid wood, then how sure less would be, a line each."""
    yield f"{wood.name}: {what_to_buy(project, wood)}"
    yield from (f"  {line}" for line in less_to_buy(wood))


def wood_to_buy_json(wood: BoardPurchase) -> dict[str, Any]:
    """One solid wood: `board_feet` is None where no amount is sure to do."""
    return {
        "material": wood.material,
        "name": wood.name,
        "grade": wood.grade,
        "board_feet": wood.sure_feet,
        "lots": wood.odds.drawn,
        "enough_in": None if wood.sure_feet is None else wood.enough_in,
        "clear_board_feet": json_number(wood.clear_feet),
        "price": json_number(wood.foot_price),
        "money": json_number(wood.money),
        "at_hand": list(wood.at_hand),
    }
