"""Solid wood in a job file: what wood a material is, and how moist it is in the shop and in the house."""

from __future__ import annotations

from collections.abc import Iterator

from ...findings import AtField
from ...lengths.did_you_mean import did_you_mean
from ...lengths.fractions_text import quoted
from ...lengths.quantities import short_number
from ...shop.moisture import Climate
from ...shop.woods import wood_called, wood_names
from ..climate_table import ClimateTable
from ..sheet_tables import SheetTable
from .fault import Fault
from .key_places import Path
from .overlay import given_entries


def wood_faults(key: str, table: SheetTable) -> Iterator[Fault]:
    """What is wrong with the wood that the material under that key says it is."""
    path: Path = ("materials", key)
    if table.wood is None:
        if table.sawn is not None:
            text = "“sawn” is said of a material that names no wood."
            at_field = AtField("only solid wood is sawn so.", "Enter the wood, or choose the default.")
            yield Fault("no-wood", (*path, "sawn"), text, "Add wood, or leave sawn out.", at_field)
        return
    yield from unknown_wood(table.wood, path)
    if table.sheet is not None:
        text = f"{quoted(table.sheet)} is a panel, which does not move like solid {table.wood}."
        fix = "Leave wood out, or leave sheet out and say the size and thickness of the boards."
        at_field = AtField(fix="Leave this empty; boards are a material of their own, from no list.")
        yield Fault("panel-of-wood", (*path, "wood"), text, fix, at_field)
    if table.grain is False:
        text = "solid wood always has a grain that parts must follow."
        fix, at_field = "Leave grain out, or set it to true.", AtField(fix="Choose yes.")
        yield Fault("wood-without-grain", (*path, "grain"), text, fix, at_field)


def unknown_wood(wood: str, path: Path) -> Iterator[Fault]:
    """A fault where the table at that path names a wood that is none."""
    if wood_called(wood) is None:
        text = f"no wood is called {quoted(wood)}."
        yield Fault("unknown-name", (*path, "wood"), text, did_you_mean(wood, wood_names()))


def climate_from(table: ClimateTable) -> Climate:
    """The climate that a table describes."""
    return Climate(**given_entries(table))


def climate_faults(climate: Climate) -> Iterator[Fault]:
    """A fault where the house would be drier at its dampest than at its driest."""
    if climate.at_driest > climate.at_dampest:
        dry, damp = (short_number(one) for one in (climate.at_driest, climate.at_dampest))
        text = f"wood in the house would have {dry} % at the driest and {damp} % at the dampest."
        at = "house_dry" if climate.house_dry is not None else "house_damp"
        yield Fault(
            "dry-over-damp", ("climate", at), text, "Enter house_dry and house_damp, the smaller first."
        )
