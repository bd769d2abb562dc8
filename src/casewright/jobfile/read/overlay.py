"""A table of the job file laid over the catalogue entry it starts from.

Each function takes the table and the value it starts from, or None where the table must be complete by
itself; it then raises `MissingEntries` for the entries that are left out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, fields, replace
from fractions import Fraction
from typing import Any, TypeVar

from ...casework.job import Construction
from ...shop.deviations import Deviations
from ...shop.dry_fits import DryFitTally
from ...shop.hinges import Hinge
from ...shop.machines import Carry, DadoStack, HandSaw, PinJig, TableSaw
from ...shop.materials import OtherSize, SheetGood, Spread
from ...shop.slides import Slide
from ...shop.woods import wood_called
from ..sheet_tables import SheetTable
from ..shop_tables import (
    CarryTable,
    DadoStackTable,
    DeviationsTable,
    DryFitTallyTable,
    HandSawTable,
    PinJigTable,
    TableSawTable,
)
from ..table import Table
from .board_entries import boards_from, milled_stock

Made = TypeVar("Made", HandSaw, TableSaw, DadoStack, PinJig, Carry, Hinge, Slide)


class MissingEntries(Exception):
    """A table that starts from no catalogue entry leaves out what it needs: `keys`."""

    def __init__(self, keys: list[str]) -> None:
        super().__init__(", ".join(keys))
        self.keys = keys


def given_entries(table: Table) -> dict[str, Any]:
    """The entries a table gives, lists as tuples, without `use` and `source`."""
    given = {name: getattr(table, name) for name in type(table).model_fields if name not in ("use", "source")}
    return {
        name: tuple(value) if isinstance(value, list) else value
        for name, value in given.items()
        if value is not None
    }


def construction_of(start: Construction, given: Mapping[str, Any]) -> Construction:
    return replace(start, **given)


def sheet_of(key: str, table: SheetTable, start: SheetGood | None) -> SheetGood:
    """The sheet good a table describes, under the job's own key.

    Solid wood of no given weight weighs what its kind of wood does.
    """
    given = given_entries(table)
    if table.wood is not None:
        given["wood"] = wood_called(table.wood)
    if table.boards is not None:
        given["boards"] = boards_from(table.boards)
        given = {**milled_stock(given["boards"]), **given}
    if start is None:
        needed = ("name", "nominal", "usual", "deviation", "size")
        if missing := [name for name in needed if name not in given]:
            raise MissingEntries(missing)
        start = SheetGood(key, "", Fraction(0), Fraction(0), Fraction(0), Spread(Fraction(0), 0.0))
    length, width = given.pop("size", (start.sheet_length, start.sheet_width))
    deviation = given.pop("deviation", None)
    usual = Spread(
        given.pop("usual", start.usual.middle),
        start.usual.deviation if deviation is None else float(deviation),
    )
    given.pop("sheet", None)
    if "others" in given:
        given["others"] = tuple(
            OtherSize(other.name, other.size[0], other.size[1], other.price, other.count)
            for other in given["others"]
        )
    sheet = replace(start, key=key, sheet_length=length, sheet_width=width, usual=usual, **given)
    if sheet.wood is not None and table.weight is None:
        return replace(sheet, weight=sheet.wood.weight(sheet.thickness))
    return sheet


def hand_saw_of(table: HandSawTable, start: HandSaw | None) -> HandSaw:
    return laid_over(HandSaw, given_entries(table), start)


def table_saw_of(table: TableSawTable, start: TableSaw | None) -> TableSaw:
    return laid_over(TableSaw, given_entries(table), start)


def dado_stack_of(table: DadoStackTable, start: DadoStack | None) -> DadoStack:
    return laid_over(DadoStack, given_entries(table), start)


def pin_jig_of(table: PinJigTable, start: PinJig | None) -> PinJig:
    return laid_over(PinJig, given_entries(table), start)


def carry_of(table: CarryTable, start: Carry | None) -> Carry:
    """What one person carries; a weight that nobody gives is the lifting equation's."""
    return laid_over(Carry, {"weight": None, **given_entries(table)}, start)


def deviations_of(table: DeviationsTable, start: Deviations) -> Deviations:
    """The shop's own figures in place of those it starts from."""
    return replace(start, **{name: float(value) for name, value in given_entries(table).items()})


def tally_from(table: DryFitTallyTable) -> DryFitTally:
    """A tally of dry fits."""
    hand, clamp, eased, remade = (float(share) for share in table.predicted)
    a, b, c, d = table.happened
    return DryFitTally((hand, clamp, eased, remade), (a, b, c, d), float(table.worth))


def laid_over(kind: type[Made], given: dict[str, Any], start: Made | None) -> Made:
    """What `given` entries make of the one they start from; of none, that alone. Raises MissingEntries where
    they start from none and are not complete."""
    if start is not None:
        return replace(start, **given)
    needed = [entry.name for entry in fields(kind) if entry.default is MISSING]
    if missing := [name for name in needed if name not in given]:
        raise MissingEntries(missing)
    return kind(**given)
