"""Tables for other programs: comma-separated values (RFC 4180) in UTF-8."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Sequence
from io import StringIO

from ..casework.project import Project
from ..lengths.length import show
from ..lengths.quantities import exact_decimal, tenth, with_cents
from ..workshop.boards.board_purchases import BoardPurchase
from ..workshop.boards.board_wording import feet_figure
from ..workshop.costs.cost_lines import JobCosts
from ..workshop.edging_wording import edging_by_edge
from ..workshop.hardware import Hardware
from ..workshop.movement_wording import moves_in_short
from ..workshop.sheets.purchases import Purchase
from .work_in_short import work_in_short


def parts_csv(project: Project) -> bytes:
    """A line for each part, with sizes as read from the rule and exact sizes in the job's unit."""
    job = project.job
    unit = job.unit.value
    head = (
        "mark",
        "case",
        "part",
        "hand",
        "material",
        "length",
        "width",
        "thickness",
        f"length exact ({unit})",
        f"width exact ({unit})",
        f"thickness exact ({unit})",
        "work",
        "optional",
        "movement",
        "edging",
    )
    rows = (
        (
            part.mark,
            part.case,
            part.role.value,
            part.hand.value,
            job.sheets[part.material].name,
            *(show(size, project.rule).marked for size in project.dimensions(part)),
            *(exact_decimal(size, job.unit) for size in project.dimensions(part)),
            work_in_short(project, part),
            "yes" if part.optional else "no",
            moves_in_short(project, part),
            edging_by_edge(project, part),
        )
        for part in project
    )
    return _csv(head, rows)


def buying_csv(
    project: Project,
    purchases: Iterable[Purchase],
    hardware: Hardware,
    boards: Iterable[BoardPurchase] = (),
) -> bytes:
    """A line for each size of sheet to buy, one for the board feet of each solid wood, one for shelf pins
    if there are any, one for each screw, dowel and hinge and each length of drawer slides, one for each
    kind of edging, and one each for the glue and the finish that the job tells of."""
    job = project.job
    head = ("what", "length", "width", "thickness sold as", "count", f"price each ({job.money})", "together")
    rows: list[tuple[str, ...]] = [
        (
            line.name,
            show(line.length, project.rule).marked,
            show(line.width, project.rule).marked,
            show(job.sheets[line.material].nominal, project.rule).marked,
            str(line.sheets),
            with_cents(line.price),
            with_cents(line.money),
        )
        for line in purchases
    ]
    for wood in boards:
        if wood.feet:
            rough = show(wood.rough, project.rule).marked
            figures = (feet_figure(wood.feet), with_cents(wood.foot_price), with_cents(wood.money))
            rows.append((f"{wood.name}, {wood.grade}, board feet", "", "", rough, *figures))
    if hardware.shelf_pins:
        rows.append(("shelf pins", "", "", "", str(hardware.shelf_pins), "", ""))
    for screw, count in hardware.screws:
        length = show(screw.length, project.rule).marked
        rows.append((f"{screw.sold_as} {screw.size}", length, "", "", str(count), "", ""))
    for dowel in hardware.dowels:
        across, length = (show(size, project.rule).marked for size in (dowel.across, dowel.length))
        rows.append((f"dowels {across}", length, "", "", str(dowel.number), "", ""))
    for hinge, count in hardware.hinges:
        rows.append((hinge.name, "", "", "", str(count), "", ""))
    for pair, count in hardware.slides:
        rows.append((pair.sold_as, show(pair.length, project.rule).marked, "", "", str(count), "", ""))
    for one in hardware.edging:
        length = show(one.edging.stick, project.rule).marked
        price, together = (with_cents(money) if money else "" for money in (one.edging.price, one.money))
        rows.append((one.edging.name, length, "", "", str(one.sticks), price, together))
    for supply in hardware.told_supplies:
        price, together = (
            "" if money is None else with_cents(money) for money in (supply.price, supply.money)
        )
        what = f"{supply.name}, {supply.sold_in}s"
        rows.append((what, "", "", "", supply.figure, price, together))
    return _csv(head, rows)


def costs_csv(project: Project, costs: JobCosts) -> bytes:
    """A line for each line of the costs. Money is empty where something has no price; the sums are left to
    whoever reads the table."""
    head = ("kind", "what", "how much", "hours", f"money ({project.job.money})", "what it follows from")
    rows = [
        (
            line.kind.value,
            line.what,
            line.amount,
            tenth(line.hours) if line.hours else "",
            "" if line.money is None else with_cents(line.money),
            line.follows,
        )
        for line in costs.lines
    ]
    return _csv(head, rows)


FORMULA_SIGNS = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
"""What makes a spreadsheet take a cell for a formula, wide forms too (OWASP, "CSV Injection")."""

_NUMBER = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?")


def _text(cell: str) -> str:
    """The cell with an apostrophe before it where a spreadsheet would work it out; numbers stay numbers."""
    if not cell.lstrip().startswith(FORMULA_SIGNS) or _NUMBER.fullmatch(cell):
        return cell
    return f"'{cell}"


def _csv(head: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    stream = StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerows([_text(cell) for cell in row] for row in (head, *rows))
    return stream.getvalue().encode()
