"""The buying list, and a page for each sheet: its diagram and its cuts in order."""

from __future__ import annotations

from collections.abc import Mapping

from ...casework.project import Project
from ...drawings.kit.lettering import lettered
from ...drawings.kit.pages import Paper, fitted
from ...drawings.views.sheet_drawing import sheet_scene
from ...planner.plan import Plan, Purpose
from ...planner.problem import Direction
from ...workshop.hardware import screw_count
from .assembly_steps import screw_words
from .buying import Buying
from .cut_order import CutLine, cut_lines
from .page_picture import Json, picture
from .prices import priced

ROOM = (540.0, 330.0)
KEPT_MOST = 4
CUT_COLUMNS = 3
TAKEN_FIRST, TAKEN_LATER = 486.0, 118.0
"""What margins and diagram take of the page that the diagram is on, and margins of a later one."""
LINE_HEIGHT, TRIM_HEIGHT, MORE, LETTERS = 26.0, 17.5, 9.0, 27
"""How high a cut's line is, a trim cut's, what a further line of marks adds, and how long one is."""
_WHAT = {Direction.RIP: "Rip", Direction.CROSSCUT: "Crosscut"}


def buying_page(project: Project, plans: Mapping[str, Plan], bought: Buying) -> dict[str, Json]:
    """Sheets by material with their price, what they come to, and hardware."""
    finest, money = project.job.mark, project.job.money
    lines: list[Json] = []
    for line in bought.sheets:
        note = f"sold as {lettered(project.job.sheets[line.material].nominal, finest)}"
        if line.offcuts:
            named = ", ".join(name if count == 1 else f"{count} × {name}" for name, count in line.offcuts)
            note += f"; from the rack: {named}"
        lines.append(
            {
                "name": line.name,
                "note": note,
                "sheet": f"{lettered(line.length, finest)} × {lettered(line.width, finest)}",
                "count": line.sheets,
                "price": priced(line.price, money) if line.price else "no price",
                "total": priced(line.money, money) if line.price else "",
            }
        )
    hardware: list[Json] = []
    if bought.shelf_pins:
        hardware.append({"name": "Shelf pins, four to an adjustable shelf", "count": str(bought.shelf_pins)})
    for screw, count in sorted(screw_count(project, project.cases).items(), key=lambda pair: -pair[1]):
        words = f"Wood screws {screw_words(project, screw)}, spare ones not counted"
        hardware.append({"name": words, "count": str(count)})
    return {
        "lines": lines,
        "total": priced(bought.total, money),
        "note": "Glue, edging and finish are not counted. Measure the sheets you bring home: "
        "every dado here is sized to the thickness the job was given.",
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
        for piece, number in sorted(left, key=lambda kept: -kept[0].area)[:KEPT_MOST]:
            rows.append(
                {
                    "material": project.job.sheets[material].name,
                    "size": f"{lettered(piece.length, finest)} × {lettered(piece.width, finest)}",
                    "sheet": number,
                }
            )
    return rows


def sheet_pages(project: Project, plans: Mapping[str, Plan]) -> list[Json]:
    """Every sheet of every plan, material by material."""
    hand = frozenset({project.job.shop.hand_saw.name})
    paper = Paper.for_unit(project.job.unit)
    finest = project.job.mark
    pages: list[Json] = []
    for material, plan in plans.items():
        sheet_good = project.job.sheets[material]
        # Once work has been handed out anew the numbers are no longer one to the last.
        counted = [sheet.number for sheet in plan.sheets] == list(range(1, len(plan.sheets) + 1))
        for sheet in plan.sheets:
            scene = sheet_scene(sheet, finest, hand, grain=sheet_good.grain)
            rack = {offcut.name for offcut in project.job.shop.rack}
            other = f"Cut from {sheet.bin}" + (" off the rack." if sheet.bin in rack else ".")
            pages.append(
                {
                    "name": sheet_good.name,
                    "number": sheet.number,
                    "of": f"of {len(plan.sheets)}" if counted else "",
                    "note": "" if sheet.bin == sheet_good.name else other,
                    "picture": picture(fitted(scene, *ROOM)),
                    "cuts": [
                        [[_cut(project, line, hand) for line in column] for column in columns]
                        for columns in in_columns(cut_lines(sheet), paper)
                    ],
                }
            )
    return pages


def in_columns(lines: tuple[CutLine, ...], paper: Paper) -> list[list[tuple[CutLine, ...]]]:
    """Lines for each page in columns, to be read down one column and then the next.

    What fits under the diagram is shared evenly among the columns; the rest goes on further pages.
    """
    pages: list[list[tuple[CutLine, ...]]] = []
    left = list(lines)
    room = paper.value[1] - TAKEN_FIRST
    while left:
        even = sum(map(_height, left)) / CUT_COLUMNS + LINE_HEIGHT / 2
        columns: list[tuple[CutLine, ...]] = []
        for number in range(CUT_COLUMNS):
            # The last column takes what the even ones left, down to the page's foot.
            end = min(even, room) if number < CUT_COLUMNS - 1 else room
            taken, high = 0, 0.0
            # The first line is taken whatever its height, so that none is waited for.
            while taken < len(left) and (not taken or high + _height(left[taken]) <= end):
                high += _height(left[taken])
                taken += 1
            columns.append(tuple(left[:taken]))
            del left[:taken]
        pages.append(columns)
        room = paper.value[1] - TAKEN_LATER
    return pages


def _height(line: CutLine) -> float:
    """About how high a line is set, in points."""
    if line.purpose is Purpose.TRIM:
        return TRIM_HEIGHT
    return LINE_HEIGHT + MORE * (len(f"{line.tool} · {line.said}") // LETTERS)


def _cut(project: Project, line: CutLine, hand: frozenset[str]) -> Json:
    verb = "Trim" if line.purpose is Purpose.TRIM else _WHAT[line.direction]
    return {
        "numbers": line.numbers,
        "by_hand": line.tool in hand,
        "tool": line.tool,
        "what": verb,
        "trim": line.purpose is Purpose.TRIM,
        "edge": line.reference.value,
        "setting": lettered(line.setting, project.job.mark),
        "said": line.said,
    }
