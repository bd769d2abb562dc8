"""Writes the tables of keys in docs/job-file.md from the model, so that they cannot fall behind.

`python tools/job_file_tables.py` writes them anew; a test sees that they are the model's.
"""

from __future__ import annotations

import re
from enum import Enum
from pathlib import Path
from typing import Any, get_args, get_origin

from pydantic import BaseModel

from casewright.jobfile import (
    board_tables,
    climate_table,
    costs_table,
    edging_tables,
    front_tables,
    hardware_tables,
    loads_table,
    sheet_tables,
    shop_tables,
    tables,
    wall_table,
    worktop_table,
)
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.jobfile.read import entries as fields
from casewright.jobfile.read.cost_values import CoveredArea, CutLength, Percent
from casewright.jobfile.read.moisture_entry import WoodMoisture
from casewright.jobfile.table import YesNo
from casewright.jobfile.write import literals
from casewright.lengths.length import Unit
from casewright.lengths.quantities import exact_decimal, short_number
from casewright.shop.woods import Sawn, known_woods

MODULES = (
    shop_tables,
    sheet_tables,
    hardware_tables,
    front_tables,
    edging_tables,
    climate_table,
    costs_table,
    board_tables,
    wall_table,
    worktop_table,
    loads_table,
    tables,
)
TABLES = {name: one for module in MODULES for name, one in vars(module).items()}
DOC = Path(__file__).parents[1] / "docs" / "job-file.md"
MARKED = re.compile(r"<!-- table (\w+) -->\n(?:\|.*\n)*")

SHEETS = re.compile(r"<!-- sheets -->\n(?:\|.*\n)*")
WOODS = re.compile(r"<!-- woods -->\n(?:\|.*\n)*")

HARDWARE = re.compile(r"<!-- hardware -->\n(?:\|.*\n)*")

# What kind of value an entry takes, in the words of the manual.
SORTS: tuple[tuple[Any, str], ...] = (
    (fields.Width, 'length, `"rest"` or `{ share = 2 }`'),
    (fields.FillerWidth, 'length or `"rest"`'),
    (fields.SheetSize, "`[length, width]`"),
    (fields.LeastAndMost, "`[least, greatest]`"),
    (fields.Stretch, "`[from, to]`"),
    (fields.BoardWidths, "length, or list of lengths"),
    (fields.RoughThickness, 'quarters such as `"4/4"`, or length'),
    (fields.WeightPerArea, "weight per area"),
    (fields.Weight, "weight"),
    (fields.Amount, "number"),
    (fields.Positive, "length"),
    (fields.NotNegative, "length"),
    (fields.Length, "length"),
    (shop_tables.JointCount, "whole number"),
    (WoodMoisture, 'percent, or `"70 F, 45 %"`'),
    (CoveredArea, 'area such as `"125 ft2"`'),
    (CutLength, 'length such as `"1500 ft"`'),
    (Percent, "number from 0 to 100"),
    (YesNo, "`true` or `false`"),
)


def main() -> None:
    DOC.write_text(with_tables(DOC.read_text(encoding="utf-8")), encoding="utf-8")


def with_tables(text: str) -> str:
    """The manual with every marked table as the model has it."""
    text = SHEETS.sub(lambda _: f"<!-- sheets -->\n{sheets()}", text)
    text = WOODS.sub(lambda _: f"<!-- woods -->\n{woods()}", text)
    text = HARDWARE.sub(lambda _: f"<!-- hardware -->\n{hardware()}", text)
    return MARKED.sub(lambda found: f"<!-- table {found[1]} -->\n{table(TABLES[found[1]])}", text)


def table(of: type[BaseModel]) -> str:
    """The keys of one table, a row each."""
    rows = ["| key | value | what it says |", "|---|---|---|"]
    for name, field in of.model_fields.items():
        needed = " **needed**" if field.is_required() else ""
        sort = sort_of(field.annotation, field.metadata)
        rows.append(f"| `{name}` | {sort} | {field.description}{needed} |")
    return "\n".join(rows) + "\n"


def sheets() -> str:
    """The shop's list of sheet goods."""
    rows = ["| name | sold as | usually | sheet | face grain |", "|---|---|---|---|---|"]
    for key, sheet in packaged_catalogue().sheets.items():
        unit = Unit.INCH if "/" in key else Unit.MM
        nominal, length, width = (
            literals.length_literal(size, unit)
            for size in (sheet.nominal, sheet.sheet_length, sheet.sheet_width)
        )
        usual = exact_decimal(sheet.thickness, unit)
        grain = "yes" if sheet.grain else "no"
        rows.append(f"| `{key}` | {nominal} {unit.value} | {usual} | {length} x {width} | {grain} |")
    return "\n".join(rows) + "\n"


def woods() -> str:
    """The woods that can be named, and how much of its width a board of them moves."""
    rows = ["| name | or | flat: share of the width for 1 % of moisture | quarter |", "|---|---|---|---|"]
    for wood in known_woods().values():
        flat, quarter = (short_number(wood.coefficient(sawn)) for sawn in (Sawn.FLAT, Sawn.QUARTER))
        also = ", ".join(f"`{one}`" for one in wood.also)
        rows.append(f"| `{wood.name}` | {also} | {flat} | {quarter} |")
    return "\n".join(rows) + "\n"


def hardware() -> str:
    """The shop's list of hinges and drawer slides."""
    stock = packaged_catalogue()
    rows = ["| name | what it gives |", "|---|---|"]
    for key, hinge in stock.hinges.items():
        least, most = (literals.length_literal(one, Unit.MM) for one in hinge.overlays)
        rows.append(f"| `{key}` | overlay from {least} to {most} mm |")
    for key, slide in stock.slides.items():
        unit = Unit.MM if key.endswith(" mm") else Unit.INCH
        narrower, shortest, longest = (
            literals.length_literal(one, unit)
            for one in (slide.narrower, min(slide.lengths), max(slide.lengths))
        )
        of = "inside " if slide.from_inside else ""
        sizes = f"{shortest} to {longest} {unit.value} long"
        rows.append(f"| `{key}` | box {of}{narrower} {unit.value} narrower than the opening; {sizes} |")
    return "\n".join(rows) + "\n"


def sort_of(annotation: Any, metadata: list[Any]) -> str:
    """What an entry of that type takes."""
    for kind, words in SORTS:
        first, *rest = get_args(kind)
        if annotation == kind or (annotation == first and rest[0] in metadata):
            return words
    inner = [one for one in get_args(annotation) if one is not type(None)]
    if type(None) in get_args(annotation):
        return sort_of(inner[0], metadata)
    if get_origin(annotation) is list:
        return f"list of {sort_of(inner[0], [])}s"
    if get_origin(annotation) is dict:
        return "tables"
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return "table"
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return ", ".join(f'`"{one.value}"`' for one in annotation)
    if annotation is int:
        return "whole number"
    return "text"


if __name__ == "__main__":
    main()
