"""At the yard: sheets and edging with prices, what comes off the rack, hardware, what is proved, boxes for
readings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ...casework.project import Project
from ...drawings.kit.lettering import THIN_SPACE, caliper_text, dimension_text
from ...lengths.in_a_sentence import listed, with_capital
from ...lengths.quantities import price_text, running_length
from ...planner.plan import Plan
from ...workshop.assembly.screws import screw_words
from ...workshop.boards.board_purchases import BoardPurchase
from ...workshop.boards.board_wording import feet_words, grade_words
from ...workshop.boards.buying_wording import how_sure, what_to_buy
from ...workshop.edging_work import EdgingBought
from ...workshop.hardware import PINS_TO_A_SHELF, Hardware
from ...workshop.sheets.purchases import Purchase, left_on_the_rack
from .page_picture import Json

READ = 2
"""Sheets of a material to read with a caliper before anything is cut. Common practice, no source."""


NOT_COUNTED = "Not counted, as the job does not tell: {what}."
BARE_EDGES = "edging (none is chosen; measure the edges that are seen)"
OF_THE_WALL = "screws between cases and into the wall (its studs decide)"
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
    """Sheets by material, solid wood by the board foot and edging by kind with their prices and total, and
    the hardware."""
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
        if unused and line.bin == project.job.sheets[line.material].name:
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
    lines += [_edging(project, one) for one in bought.edging]
    hardware: list[Json] = []
    if bought.shelf_pins:
        words = f"Shelf pins, {PINS_TO_A_SHELF} for each adjustable shelf"
        hardware.append({"name": words, "count": str(bought.shelf_pins)})
    for screw, count in bought.screws:
        size = screw_words(screw.size, screw.length, finest, gap=THIN_SPACE)
        words = f"{screw.sold_as.capitalize()} {size}, spares not included"
        hardware.append({"name": words, "count": str(count)})
    for dowel in bought.dowels:
        across, long = (dimension_text(size, finest) for size in (dowel.across, dowel.length))
        hardware.append(
            {"name": f"Dowels {across} × {long}, spares not included", "count": str(dowel.number)}
        )
    for hinge, count in bought.hinges:
        words = f"{with_capital(hinge.name)}, each with its plate and screws"
        hardware.append({"name": words, "count": str(count)})
    for pair, number in bought.slides:
        words = f"{pair.sold_as.capitalize()}, {dimension_text(pair.length, finest)} long"
        hardware.append({"name": words, "count": str(number)})
    for supply in bought.told_supplies:
        words = f"{with_capital(supply.name)}, for {supply.follows}"
        hardware.append({"name": words, "count": supply.amount(project)})
    total_of, total = bought.total_words(purchases, boards, money)
    return {
        "what": "Sheet goods and edging" if bought.edging else "Sheet goods",
        "lines": lines,
        "total": total,
        "total_of": total_of,
        "note": NOT_COUNTED.format(what=listed(list(_not_counted(bought)))),
        "savings": SAVINGS,
        "hardware": hardware,
        "proofs": list(_proofs(project, plans)),
        "readings": _readings(project, purchases),
    }


def _not_counted(bought: Hardware) -> Iterator[str]:
    """What the job does not tell how much of to buy."""
    if not bought.edging:
        yield BARE_EDGES
    yield from ("handles", OF_THE_WALL)
    if bought.glue is not None and not bought.glue.told:
        yield "glue"
    if bought.finish is None:
        yield "finish"


def _proofs(project: Project, plans: Mapping[str, Plan]) -> Iterator[dict[str, Json]]:
    """What is proved of each plan; one sentence for all that need as few sheets as can be."""
    named = {project.job.sheets[material].name: plan for material, plan in plans.items()}
    fewest = [f"{plan.figures.sheets} of {name}" for name, plan in named.items() if plan.fewest_sheets]
    if len(fewest) > 1:
        text = f"no plan of this kind uses fewer than {', '.join(fewest[:-1])} and {fewest[-1]}."
        yield {"name": "Sheets", "text": text}
    for name, plan in named.items():
        if len(fewest) <= 1 or not plan.fewest_sheets:
            yield {"name": name, "text": plan.statement(project.job.money)}


def _board_line(project: Project, one: BoardPurchase) -> Json:
    """Solid wood to buy: `hard maple`, `4/4 FAS`, its board feet, and which boards at hand are used."""
    money = project.job.money
    note = how_sure(one) if one.sure_feet else what_to_buy(project, one).rstrip(".")
    if one.sure_feet:
        note += f"; of clear boards of the usual size the plan takes {feet_words(one.clear_feet)}"
    if one.at_hand:
        note += f"; from boards at hand: {', '.join(one.at_hand)}"
    return {
        "name": one.name,
        "note": note,
        "sheet": grade_words(project, one.rough, one.grade),
        "count": feet_words(one.feet) if one.feet else "none",
        "price": price_text(one.foot_price, money) if one.foot_price else "no price",
        "total": price_text(one.money, money) if one.money else "",
    }


def _edging(project: Project, bought: EdgingBought) -> dict[str, Json]:
    """A kind of edging: `edging for 32 ft of edges; fewer will not do`."""
    finest, edging, money = project.rule, bought.edging, project.job.money
    needed = running_length(bought.needed, project.job.unit)
    return {
        "name": edging.name,
        "note": f"edging for {needed} of edges{'; fewer will not do' if bought.proved else ''}",
        "sheet": dimension_text(edging.stick, finest),
        "count": bought.sticks,
        "price": price_text(edging.price, money) if edging.price else "no price",
        "total": price_text(bought.money, money) if edging.price else "",
    }


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
