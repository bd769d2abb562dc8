"""What sheets, offcuts, boards and edging cost, each with how much of it ends up in parts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from math import prod

from ...casework.project import Project
from ...lengths.length import show
from ...lengths.quantities import running_length, with_cents
from ...planner.plan import Plan, SheetPlan
from ...shop.lumber import CUBIC_INCHES
from ..boards.board_purchases import BoardPurchase
from ..boards.board_wording import feet_figure, feet_words, grade_words
from ..edging_work import EdgingBought
from ..sheets.purchases import Purchase
from .cost_lines import CostKind, CostLine, cents


def material_lines(
    project: Project,
    plans: Mapping[str, Plan],
    purchases: Iterable[Purchase],
    boards: Iterable[BoardPurchase],
    edging: Iterable[EdgingBought],
) -> Iterator[CostLine]:
    """A line for each size of sheet, each piece off the rack, each solid wood and each edging."""
    for purchase in purchases:
        yield from _sheets(project, plans[purchase.material], purchase)
    for wood in boards:
        yield _boards(project, wood)
    for one in edging:
        yield _edging(project, one)


def share_in_parts(sheets: Iterable[SheetPlan]) -> Fraction:
    """The share of the area of these sheets that is in parts; the rest is offcuts, kerfs and waste."""
    cut = list(sheets)
    whole = sum((sheet.root.area for sheet in cut), Fraction(0))
    return sum((part.area for sheet in cut for part in sheet.parts), Fraction(0)) / whole if whole else whole


def _sheets(project: Project, plan: Plan, one: Purchase) -> Iterator[CostLine]:
    key, rule = one.material, project.rule
    if one.sheets:
        size = " × ".join(show(side, rule).marked for side in (one.length, one.width))
        share = share_in_parts(sheet for sheet in plan.sheets if sheet.bin == one.bin)
        yield CostLine(
            CostKind.MATERIAL,
            f"{one.name}, {size}",
            _at(project, f"{one.sheets} {'sheet' if one.sheets == 1 else 'sheets'}", one.price),
            cents(one.money) if one.price else None,
            f"{_percent(share)} of it is in parts, {_percent(1 - share)} offcuts and waste",
            f"price in [materials.{key}]",
        )
    worth = {piece.name: piece.worth for piece in project.job.shop.rack if piece.material == key}
    for name, count in one.offcuts:
        share = share_in_parts(sheet for sheet in plan.sheets if sheet.bin == name)
        said = "what it is worth to you" if worth[name] else "at hand; you say no worth, so it counts nothing"
        yield CostLine(
            CostKind.MATERIAL,
            f"{one.name}, off the rack: {name}",
            f"{count} {'piece' if count == 1 else 'pieces'}",
            cents(worth[name] * count),
            f"{said}; {_percent(share)} of it is in parts",
        )


def _boards(project: Project, one: BoardPurchase) -> CostLine:
    return CostLine(
        CostKind.MATERIAL,
        f"{one.name}, {grade_words(project, one.rough, one.grade)}",
        _at(project, feet_words(one.feet), one.foot_price),
        cents(one.money) if one.foot_price or not one.feet else None,
        "; ".join(_of_the_boards(project, one)),
        f"price in [materials.{one.material}.boards]",
    )


def _of_the_boards(project: Project, one: BoardPurchase) -> Iterator[str]:
    """How much of the feet to buy is in parts, and what the plan takes of clear boards.

    Where some parts come of boards at hand, no share of those to buy is told.
    """
    parts = (part for part in project if part.material == one.material)
    inches = sum((prod(project.dimensions(part), start=Fraction(1)) for part in parts), Fraction(0))
    in_parts = inches / CUBIC_INCHES
    if one.at_hand or not one.feet:
        yield f"{feet_words(in_parts)} are in parts"
    else:
        share = _percent(in_parts / one.feet)
        yield f"{feet_figure(in_parts)} of {feet_words(one.feet)} are in parts, {share}"
    if one.sure_feet is None:
        yield "enough only if the boards are clear, and no amount is sure"
    elif one.feet:
        yield f"of clear boards the plan takes {feet_words(one.clear_feet)}"
    if one.at_hand:
        yield "boards at hand count nothing"


def _edging(project: Project, one: EdgingBought) -> CostLine:
    edging = one.edging
    share = one.needed / (one.sticks * edging.stick)
    edges = running_length(one.needed, project.job.unit)
    return CostLine(
        CostKind.MATERIAL,
        edging.name,
        _at(project, f"{one.sticks} {'length' if one.sticks == 1 else 'lengths'}", edging.price),
        cents(one.money) if edging.price else None,
        f"{edges} of edges: {_percent(share)} of it is on parts",
        f"price in [edging.{edging.key}]",
    )


def _at(project: Project, amount: str, price: Fraction) -> str:
    return f"{amount} at {project.job.money}{with_cents(price)}" if price else amount


def _percent(share: Fraction) -> str:
    return f"{round(share * 100)} %"
