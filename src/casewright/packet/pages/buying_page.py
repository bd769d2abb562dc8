"""The buying list: sheet goods with prices, hardware, what is proved of the plans, offcuts to keep."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text
from ...lengths.quantities import price_text
from ...planner.plan import Plan
from ...workshop.hardware import PINS_TO_A_SHELF, Hardware
from ...workshop.sheets.purchases import Purchase, left_on_the_rack, money_of
from .assembly_steps import screw_words
from .page_picture import Json

KEPT_MOST = 4


def buying_page(
    project: Project, plans: Mapping[str, Plan], purchases: Sequence[Purchase], bought: Hardware
) -> dict[str, Json]:
    """Sheets by material with their prices and total, and the hardware."""
    finest, money = project.rule, project.job.money
    lines: list[Json] = []
    for line in purchases:
        unused = left_on_the_rack(project, line.material, plans[line.material])
        note = f"sold as {dimension_text(project.job.sheets[line.material].nominal, finest)}"
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
    hardware: list[Json] = []
    if bought.shelf_pins:
        words = f"Shelf pins, {PINS_TO_A_SHELF} for each adjustable shelf"
        hardware.append({"name": words, "count": str(bought.shelf_pins)})
    for screw, count in bought.screws:
        words = f"Wood screws {screw_words(project, screw)}, spares not included"
        hardware.append({"name": words, "count": str(count)})
    return {
        "lines": lines,
        "total": price_text(money_of(purchases), money),
        "note": "Glue, edging and finish are not included. Measure the sheets you bring home: "
        "every dado here is sized to the sheet thickness entered in the job.",
        "hardware": hardware,
        "proofs": [
            {"name": project.job.sheets[material].name, "text": plan.statement(project.job.money)}
            for material, plan in plans.items()
        ],
        "kept": _kept(project, plans),
    }


def _kept(project: Project, plans: Mapping[str, Plan]) -> list[Json]:
    """The offcuts worth keeping, the largest of each material first, and how many more there are."""
    finest = project.rule
    rows: list[Json] = []
    for material, plan in plans.items():
        left = [(piece, sheet.number) for sheet in plan.sheets for piece in sheet.offcuts]
        name = project.job.sheets[material].name
        for piece, number in sorted(left, key=lambda kept: kept[0].area, reverse=True)[:KEPT_MOST]:
            rows.append(
                {
                    "material": name,
                    "size": f"{dimension_text(piece.length, finest)} × {dimension_text(piece.width, finest)}",
                    "sheet": number,
                }
            )
        if (more := len(left) - KEPT_MOST) > 0:
            rows.append({"size": f"{more} more", "material": f"{name}, hatched on the maps", "sheet": ""})
    return rows
