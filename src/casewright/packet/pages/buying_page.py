"""At the yard: sheets with prices, what comes off the rack, hardware, what is proved, boxes for readings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...casework.project import Project
from ...drawings.kit.lettering import caliper_text, dimension_text
from ...lengths.quantities import price_text, running_length
from ...planner.plan import Plan
from ...workshop.boards.board_purchases import BoardPurchase, money_for_wood
from ...workshop.boards.board_wording import feet_words, quarters_words
from ...workshop.edging_work import EdgingBought
from ...workshop.hardware import PINS_TO_A_SHELF, Hardware
from ...workshop.sheets.purchases import Purchase, left_on_the_rack
from .assembly_steps import screw_words
from .page_picture import Json

READ = 2
"""Sheets of a material to read with a caliper before anything is cut. Common practice, no source."""


NOT_COUNTED = (
    "Not counted, as the job does not tell: {bare}screws into the wall (its studs decide), glue and finish."
)
BARE_EDGES = "edging (none is chosen; measure the edges that are seen), "
SAVINGS = (
    "Whether a small change of the job would save a sheet is found by planning each: “casewright savings” "
    "and the job's file, or what would save a sheet on the job's page of sheets."
)


def buying_page(
    project: Project,
    plans: Mapping[str, Plan],
    purchases: Sequence[Purchase],
    bought: Hardware,
    boards: tuple[BoardPurchase, ...] = (),
) -> dict[str, Json]:
    """Sheets by material and solid wood by the board foot with their prices and total, and the hardware."""
    finest, money = project.rule, project.job.money
    lines: list[Json] = []
    for line in purchases:
        unused = left_on_the_rack(project, line.material, plans[line.material])
        note = f"sold as {dimension_text(project.job.sheets[line.material].nominal, finest)}"
        if line.here:
            note += f"; already here and begun: {line.here}"
        if line.offcuts:
            named = ", ".join(name if count == 1 else f"{count} × {name}" for name, count in line.offcuts)
            note += f"; from the rack: {named}"
        if unused and line.name == project.job.sheets[line.material].name:
            note += f"; not used: {', '.join(unused)}"
        lines.append(
            {
                "name": line.name,
                "note": note,
                "sheet": f"{dimension_text(line.length, finest)} × {dimension_text(line.width, finest)}",
                "count": line.sheets,
                "price": price_text(line.price, money) if line.price else "no price",
                "total": price_text(line.money, money) if line.price else "",
            }
        )
    lines.extend(_board_line(project, one) for one in boards)
    total = money_for_wood(purchases, boards)
    hardware: list[Json] = []
    if bought.shelf_pins:
        words = f"Shelf pins, {PINS_TO_A_SHELF} for each adjustable shelf"
        hardware.append({"name": words, "count": str(bought.shelf_pins)})
    for screw, count in bought.screws:
        words = f"{screw.sold_as.capitalize()} {screw_words(project, screw)}, spares not included"
        hardware.append({"name": words, "count": str(count)})
    hardware.extend({"name": _edging(project, one), "count": str(one.sticks)} for one in bought.edging)
    return {
        "lines": lines,
        "total": price_text(total, money) if total else "no price",
        "note": NOT_COUNTED.format(bare="" if bought.edging else BARE_EDGES),
        "savings": SAVINGS,
        "hardware": hardware,
        "proofs": [
            {"name": project.job.sheets[material].name, "text": plan.statement(project.job.money)}
            for material, plan in plans.items()
        ],
        "readings": _readings(project, purchases),
    }


def _board_line(project: Project, one: BoardPurchase) -> Json:
    """Solid wood to buy: `hard maple`, `4/4 FAS`, its board feet, and which boards at hand are used."""
    money = project.job.money
    note = f"{_boards_words(one)}, if clear: buy more" if one.boards else "nothing to buy"
    if one.at_hand:
        note += f"; from boards at hand: {', '.join(one.at_hand)}"
    return {
        "name": one.name,
        "note": note,
        "sheet": f"{quarters_words(project, one.rough)} {one.grade}",
        "count": feet_words(one.feet) if one.boards else "none",
        "price": price_text(one.foot_price, money) if one.foot_price else "no price",
        "total": price_text(one.money, money) if one.money else "",
    }


def _boards_words(one: BoardPurchase) -> str:
    return f"{one.boards} {'board' if one.boards == 1 else 'boards'} of the usual size"


def _edging(project: Project, bought: EdgingBought) -> str:
    """`Maple strip, 96 long, for 32 ft of edges, $7.50 each`."""
    finest, edging = project.rule, bought.edging
    stick, needed = dimension_text(edging.stick, finest), running_length(bought.needed, project.job.unit)
    price = f", {price_text(edging.price, project.job.money)} each" if edging.price else ""
    return f"{edging.name[:1].upper()}{edging.name[1:]}, {stick} long, for {needed} of edges{price}"


def _readings(project: Project, purchases: Sequence[Purchase]) -> list[Json]:
    """What to read with a caliper on the first sheets of each material, beside what the job reckons with."""
    sheets, unit = project.job.sheets, project.job.unit
    return [
        {
            "name": sheets[material].name,
            "entered": caliper_text(sheets[material].thickness, unit),
            "sheets": min(READ, sum(one.sheets for one in purchases if one.material == material) or 1),
        }
        for material in dict.fromkeys(one.material for one in purchases)
    ]
