"""The buying list, and a page for each sheet: its diagram and its cuts in order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text
from ...drawings.kit.pages import fit_to_room
from ...drawings.views.sheet_drawing import sheet_scene
from ...lengths.quantities import price_text
from ...planner.plan import Plan, Purpose
from ...planner.problem import Direction
from ...workshop.hardware import PINS_TO_A_SHELF, Hardware
from ...workshop.sheets.purchases import Purchase, money_of
from .assembly_steps import screw_words
from .cut_order import CutLine, cut_lines
from .page_picture import Json, embed_picture

ROOM = (540.0, 330.0)
KEPT_MOST = 4
_WHAT = {Direction.RIP: "Rip", Direction.CROSSCUT: "Crosscut"}


def buying_page(
    project: Project, plans: Mapping[str, Plan], purchases: Sequence[Purchase], bought: Hardware
) -> dict[str, Json]:
    """Sheets by material with their prices and total, and the hardware."""
    finest, money = project.job.mark, project.job.money
    lines: list[Json] = []
    for line in purchases:
        note = f"sold as {dimension_text(project.job.sheets[line.material].nominal, finest)}"
        if line.offcuts:
            named = ", ".join(name if count == 1 else f"{count} × {name}" for name, count in line.offcuts)
            note += f"; from the rack: {named}"
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
            {"name": project.job.sheets[material].name, "text": plan.statement()}
            for material, plan in plans.items()
        ],
        "kept": _kept(project, plans),
    }


def _kept(project: Project, plans: Mapping[str, Plan]) -> list[Json]:
    """The offcuts worth keeping, the largest of each material first."""
    finest = project.job.mark
    rows: list[Json] = []
    for material, plan in plans.items():
        left = [(piece, sheet.number) for sheet in plan.sheets for piece in sheet.offcuts]
        for piece, number in sorted(left, key=lambda kept: kept[0].area, reverse=True)[:KEPT_MOST]:
            rows.append(
                {
                    "material": project.job.sheets[material].name,
                    "size": f"{dimension_text(piece.length, finest)} × {dimension_text(piece.width, finest)}",
                    "sheet": number,
                }
            )
    return rows


def sheet_pages(project: Project, plans: Mapping[str, Plan]) -> list[Json]:
    """A page for each sheet of each plan, material by material."""
    hand = frozenset({project.job.shop.hand_saw.name})
    finest = project.job.mark
    pages: list[Json] = []
    for material, plan in plans.items():
        sheet_good = project.job.sheets[material]
        # After a repair the sheets are no longer numbered from one to the last.
        counted = [sheet.number for sheet in plan.sheets] == list(range(1, len(plan.sheets) + 1))
        for sheet in plan.sheets:
            scene = sheet_scene(sheet, finest, hand, grain=sheet_good.grain)
            rack = {offcut.name for offcut in project.job.shop.rack}
            other = f"Cut from {sheet.bin}" + (", off the rack." if sheet.bin in rack else ".")
            pages.append(
                {
                    "name": sheet_good.name,
                    "number": sheet.number,
                    "of": f"of {len(plan.sheets)}" if counted else "",
                    "note": "" if sheet.bin == sheet_good.name else other,
                    "picture": embed_picture(fit_to_room(scene, *ROOM)),
                    "cuts": [_cut(project, line, hand) for line in cut_lines(sheet)],
                }
            )
    return pages


def _cut(project: Project, line: CutLine, hand: frozenset[str]) -> Json:
    verb = "Trim" if line.purpose is Purpose.TRIM else _WHAT[line.direction]
    return {
        "numbers": line.numbers,
        "by_hand": line.tool in hand,
        "tool": line.tool,
        "what": verb,
        "trim": line.purpose is Purpose.TRIM,
        "edge": line.reference.value,
        "setting": dimension_text(line.setting, project.job.mark),
        "result": line.result,
    }
