"""A plan as JSON, in the form that `schema/answer.json` publishes."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from .plan import Piece, Plan, SheetPlan
from .problem import Problem

Json = Any


def answer(problem: Problem, plan: Plan, seconds: float) -> dict[str, Json]:
    """The plan as the published answer.

    `bound` is in sheets where all kinds of sheet cost the same, else in money.
    """
    figures = plan.figures
    one_cost = len({bin_.cost for bin_ in problem.bins}) == 1
    return {
        "status": plan.status.value,
        "bound": plan.bound_sheets if one_cost else _number(plan.bound),
        "bound_sheets": plan.bound_sheets,
        "bound_money": _number(plan.bound),
        "seconds": round(seconds, 3),
        "statement": plan.statement(),
        "figures": {
            "sheets": figures.sheets,
            "money": _number(figures.money),
            "leftover_worth": _number(figures.leftover_worth),
            "largest_offcut": _number(figures.largest_offcut),
            "settings": figures.settings,
            "cuts": figures.cuts,
            "turns": figures.turns,
            "used": _number(figures.used),
        },
        "sheets": [_sheet(sheet) for sheet in plan.sheets],
        "unplaced": [{"item": entry.item, "count": entry.count} for entry in plan.unplaced],
        "findings": [
            {"code": f.code, "place": f.place, "text": f.text, "fix": f.fix, "weight": f.weight.value}
            for f in plan.findings
        ],
    }


def _sheet(sheet: SheetPlan) -> dict[str, Json]:
    return {
        "bin": sheet.bin,
        "parts": [
            {
                "item": part.item,
                "x": _number(part.x),
                "y": _number(part.y),
                "length": _number(part.length),
                "width": _number(part.width),
            }
            for part in sheet.parts
        ],
        "cuts": _tree(sheet.root),
    }


def _tree(piece: Piece) -> dict[str, Json]:
    tree: dict[str, Json] = {
        "role": piece.role.value,
        "x": _number(piece.x),
        "y": _number(piece.y),
        "length": _number(piece.length),
        "width": _number(piece.width),
    }
    if piece.item is not None:
        tree |= {"item": piece.item, "turned": piece.turned}
    if piece.cuts:
        tree["cuts"] = [
            {
                "order": cut.order,
                "tool": cut.tool,
                "direction": cut.direction.value,
                "at": _number(cut.at),
                "kerf": _number(cut.kerf),
                "setting": _number(cut.setting),
                "reference": cut.reference.value,
                "purpose": cut.purpose.value,
            }
            for cut in piece.cuts
        ]
        tree["pieces"] = [_tree(child) for child in piece.children]
    return tree


def _number(value: Fraction) -> int | float:
    """Whole numbers as such; others as the nearest decimal JSON can carry."""
    return int(value) if value.denominator == 1 else float(value)
