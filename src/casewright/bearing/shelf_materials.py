"""How stiff the job's materials are, as far as the job says what they are."""

from __future__ import annotations

from collections.abc import Mapping

from ..casework.job import Job
from ..shop.materials import SheetGood
from ..shop.woods import Wood
from ..strength.creep import creep_of_kind, creep_of_wood
from ..strength.loaded_shelf import ShelfMaterial
from ..strength.panel_stiffness import board_stiffness, panel_stiffness, with_modulus


def shelf_material(sheet: SheetGood) -> ShelfMaterial | None:
    """A material as a shelf is made of it; None where the job does not say what it is: ask for it."""
    if sheet.wood is not None:
        return wood_material(sheet.wood)
    creep = None if sheet.kind is None else creep_of_kind(sheet.kind.value)
    if sheet.kind is None or creep is None:
        return None
    stiffness = panel_stiffness(sheet.kind)
    if sheet.stiffness is not None:
        stiffness = with_modulus(stiffness, sheet.stiffness)
    return ShelfMaterial(stiffness, creep)


def shelf_materials(job: Job) -> Mapping[str, ShelfMaterial | None]:
    """Every material of a job, by its key, as a shelf is made of it."""
    return {key: shelf_material(sheet) for key, sheet in job.sheets.items()}


def wood_material(wood: Wood) -> ShelfMaterial:
    """Solid wood as a shelf or an edging is made of it."""
    return ShelfMaterial(board_stiffness(wood), creep_of_wood())
