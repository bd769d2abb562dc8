"""A board plan as plain values for JSON, lengths in inches."""

from __future__ import annotations

from typing import Any

from ..lengths.quantities import json_number
from .board_plan import BoardPlan, CutBoard


def board_answer(plan: BoardPlan) -> dict[str, Any]:
    """The boards with their lengths, strips and parts, what is to buy, and what is proved."""
    return {
        "board_feet_to_buy": json_number(plan.feet_to_buy),
        "board_feet_used": json_number(plan.feet_used),
        "bound": json_number(plan.bound),
        "gap": json_number(plan.gap),
        "unplaced": list(plan.unplaced),
        "boards": [_board(one) for one in plan.boards],
    }


def _board(one: CutBoard) -> dict[str, Any]:
    return {
        "number": one.number,
        "name": one.board.name,
        "to_buy": one.to_buy,
        "length": json_number(one.board.length),
        "widths": [json_number(width) for width in one.board.widths],
        "board_feet": json_number(one.board.feet),
        "lengths": [
            {
                "x": json_number(length.x),
                "length": json_number(length.length),
                "strips": [
                    {
                        "y": json_number(strip.y),
                        "width": json_number(strip.width),
                        **({"later": strip.later} if strip.later else {}),
                        "parts": [
                            {
                                "mark": part.name,
                                "x": json_number(part.x),
                                "length": json_number(part.length),
                                **({"strip_of": part.panel} if part.panel else {}),
                                **({"spent": True} if part.spent else {}),
                            }
                            for part in strip.parts
                        ],
                    }
                    for strip in length.strips
                ],
            }
            for length in one.lengths
        ],
    }
