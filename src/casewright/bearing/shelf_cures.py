"""What would mend a shelf that sags too far, in words, the least work first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import islice

from ..casework.parts.part import Role
from ..casework.project import Project
from ..lengths.in_a_sentence import with_capital
from ..lengths.length import show
from ..lengths.told_lengths import PENCIL_MARKS, at_least, told, told_at_least, told_at_most
from ..shop.woods import known_woods
from ..strength.loaded_shelf import ShelfMaterial, ShelfStrip
from ..strength.shelf_answer import CureKind, ShelfCure, cures
from .held_by_back import back_can_hold
from .job_shelves import BearingShelf
from .shelf_materials import wood_material

STOCK = Fraction(3, 4)
"""Inches of the edging that is proposed where a shelf has none: 4/4 stock, planed."""

LEAST_STIFF_HARDWOOD = "silver maple"
"""The wood it is worked out with: the least stiff of the hardwoods known here, so that any serves."""

SHOWN = 3
"""Cures in one fix, the least work first."""

ALIKE = Fraction(1, 16)
"""Inches by which two sheets that can stand for each other may differ in name: 3/4 in and 18 mm."""


def shelf_fix(project: Project, one: BearingShelf, materials: Mapping[str, ShelfMaterial | None]) -> str:
    """What would mend a shelf for good: with any of these it meets its figure after years too."""
    shelf = one.shelf
    assert shelf is not None
    strip = shelf.front or ShelfStrip(STOCK, STOCK, wood_material(known_woods()[LEAST_STIFF_HARDWOOD]))
    sheets, loose = project.job.sheets, one.part.role is Role.ADJUSTABLE_SHELF
    thicker = [
        sheet.thickness
        for key, sheet in sheets.items()
        if sheet.thickness > shelf.thickness and materials[key] == shelf.material
    ]
    found = cures(
        shelf,
        replace(one.limit, after_years=True),
        None if one.part.role is Role.BOTTOM else replace(strip, height=shelf.thickness),
        thicker,
        _other_panels(project, one, materials),
        can_fix=loose and back_can_hold(project, project.cases[one.part.case]),
        can_edge_back=loose,
    )
    said = [_cure(project, cure) for cure in islice(found, SHOWN)]
    if not said:
        return "Give it less to hold, or another figure to be judged by."
    words = f"{', '.join(said[:-1])}, or {said[-1]}" if len(said) > 1 else said[0]
    return f"{with_capital(words)}."


def _other_panels(
    project: Project, one: BearingShelf, materials: Mapping[str, ShelfMaterial | None]
) -> Iterator[tuple[Fraction, ShelfMaterial]]:
    """The job's other panels of about the same thickness: plywood for a shelf of MDF."""
    own = project.job.sheets[one.part.material]
    for key, sheet in project.job.sheets.items():
        material = materials[key]
        if sheet.kind and material and abs(sheet.nominal - own.nominal) <= ALIKE:
            yield sheet.thickness, material


def _cure(project: Project, cure: ShelfCure) -> str:
    finest = PENCIL_MARKS[project.job.unit]
    match cure.kind:
        case CureKind.FRONT_STRIP | CureKind.BOTH_STRIPS:
            where = "front" if cure.kind is CureKind.FRONT_STRIP else "front and back"
            front = cure.changed.front
            assert front is not None
            thick = cure.changed.thickness
            drop = at_least(front.height - thick, finest)
            # The strip covers the sheet's own thickness and the drop as it is told, so it is ripped to both.
            wide, high = (told_at_least(of, finest) for of in (front.width, thick + drop))
            return f"edge its {where} with {wide} of hardwood {high} high (drop {told(drop, finest)})"
        case CureKind.FIXED_TO_BACK:
            return "make it a fixed shelf, which is screwed to the back"
        case CureKind.OTHER_PANEL:
            return f"make it of {cure.changed.material.stiffness.kind}"
        case CureKind.THICKER:
            return f"make it {show(cure.changed.thickness, project.job.mark, unit=True).marked} thick"
        case CureKind.MIDDLE_SUPPORT:
            return "put a divider at its middle"
        case CureKind.SHORTER:
            return f"make it {told_at_most(cure.changed.span, finest)} long between its supports at most"
