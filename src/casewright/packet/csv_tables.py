"""Tables for other programs: comma-separated values (RFC 4180) in UTF-8."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence
from fractions import Fraction
from io import StringIO

from ..casework.project import Project
from ..lengths.length import MM, Unit, show
from ..workshop.hardware import Hardware
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
    )
    rows = (
        (
            part.mark,
            part.case,
            part.role.value,
            part.hand.value,
            job.sheets[part.material].name,
            *(show(size, job.mark).marked for size in project.dimensions(part)),
            *(exact(size, job.unit) for size in project.dimensions(part)),
            work_in_short(project, part),
            "yes" if part.optional else "no",
        )
        for part in project
    )
    return _csv(head, rows)


def buying_csv(project: Project, purchases: Iterable[Purchase], hardware: Hardware) -> bytes:
    """A line for each size of sheet to buy, and one for shelf pins if there are any."""
    job = project.job
    head = ("what", "length", "width", "thickness sold as", "count", f"price each ({job.money})", "together")
    rows: list[tuple[str, ...]] = [
        (
            line.name,
            show(line.length, job.mark).marked,
            show(line.width, job.mark).marked,
            show(job.sheets[line.material].nominal, job.mark).marked,
            str(line.sheets),
            _amount(line.price),
            _amount(line.money),
        )
        for line in purchases
    ]
    if hardware.shelf_pins:
        rows.append(("shelf pins", "", "", "", str(hardware.shelf_pins), "", ""))
    return _csv(head, rows)


def exact(length: Fraction, unit: Unit) -> str:
    """A length as a decimal in the unit, to six places at most."""
    value = length if unit is Unit.INCH else length / MM
    return f"{float(value):.6f}".rstrip("0").rstrip(".")


def _amount(amount: Fraction) -> str:
    return f"{float(amount):.2f}"


def _csv(head: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    stream = StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(head)
    writer.writerows(rows)
    return stream.getvalue().encode()
