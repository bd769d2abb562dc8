"""Shelves that sag more than the figure they are held against, with what would mend each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import islice
from operator import itemgetter

from ..casework.job import BackKind, Job
from ..casework.parts.part import Role
from ..casework.project import Project
from ..findings import Finding, Weight
from ..lengths.in_a_sentence import few
from ..lengths.length import Unit, show
from ..lengths.quantities import AREA_UNITS, KILOGRAMS_IN_A_POUND, LONG_UNITS
from ..lengths.told_lengths import FINE_MARKS, PENCIL_MARKS, told, told_at_least, told_at_most
from ..shop.woods import known_woods
from ..strength.loaded_shelf import ShelfMaterial, ShelfStrip
from ..strength.loads import LoadPer, ShelfLoad
from ..strength.sag_limits import SagLimit
from ..strength.shelf_answer import CureKind, ShelfCure, ShelfVerdict, cures
from .job_shelves import BearingShelf
from .shelf_materials import wood_material

STOCK = Fraction(3, 4)
"""Inches of the edging that is proposed where a shelf has none: 4/4 stock, planed."""

LEAST_STIFF_HARDWOOD = "silver maple"
"""The wood it is reckoned with: the least stiff of the hardwoods known here, so that any other serves too."""

METRIC = {
    LoadPer.FOOT: LONG_UNITS["ft"] / LONG_UNITS["m"],
    LoadPer.SQUARE_FOOT: AREA_UNITS["ft2"] / AREA_UNITS["m2"],
}
METRIC_NAMES = {LoadPer.FOOT: "m", LoadPer.SQUARE_FOOT: "m2"}
"""Metres in a foot and square metres in a square foot, exactly."""

SHOWN = 3
"""Cures in one fix, the least work first."""


def shelf_findings(
    project: Project, shelves: Iterable[BearingShelf], materials: Mapping[str, ShelfMaterial | None]
) -> tuple[Finding, ...]:
    """A finding for each shelf that does not meet its figure, those alike told once; and a question for each
    material of which it is not known how stiff it is.

    Shelves that meet a figure for their sag at once and pass it as they creep are a note, the worst for all:
    no source asks for more, but whoever looks at them in ten years will. Common practice, no source.
    """
    shelves = tuple(shelves)
    return (*_unknown(project, shelves), *_sagging(project, shelves, materials))


def _unknown(project: Project, shelves: Iterable[BearingShelf]) -> Iterator[Finding]:
    unknown: dict[str, list[BearingShelf]] = {}
    for one in shelves:
        if one.shelf is None:
            unknown.setdefault(one.part.material, []).append(one)
    for material, of_it in unknown.items():
        name = project.job.sheets[material].name
        text = f"nothing says how stiff {name} is, so the sag of {_marks(of_it)} is not checked."
        fix = "Enter its kind, or start from a sheet good of the catalogue."
        yield Finding("stiffness-not-known", f"materials.{material}.kind", text, fix, Weight.NOTE)


def _sagging(
    project: Project, shelves: Iterable[BearingShelf], materials: Mapping[str, ShelfMaterial | None]
) -> Iterator[Finding]:
    over: dict[tuple[str, str], list[BearingShelf]] = {}
    in_years: list[tuple[Fraction, BearingShelf]] = []
    for one in shelves:
        verdict = one.verdict
        if verdict is None:
            continue
        if not verdict.meets:
            said = (verdict_words(project.job, verdict), _fix(project, one, materials))
            over.setdefault(said, []).append(one)
        elif verdict.after_years.most > verdict.allowed:
            in_years.append((verdict.after_years.most / verdict.allowed, one))
    for (words, fix), those in over.items():
        yield Finding("shelf-sags", those[0].part.mark, f"{_marks(those)}: {words}.", fix, Weight.WARN)
    if in_years:
        _, worst = max(in_years, key=itemgetter(0))
        fix = _fix(project, worst, materials)
        yield _in_years(project, worst, len(in_years) - 1, fix)


def _in_years(project: Project, worst: BearingShelf, others: int, fix: str) -> Finding:
    """The shelf that passes its figure furthest after years, and how many others pass theirs."""
    verdict, job = worst.verdict, project.job
    assert verdict is not None
    limit, load = verdict.limit, load_words(verdict.shelf.load, job.unit)
    text = (
        f"{worst.part.mark} sags {_sag(job, verdict.at_once.most)} under {load} at once, which meets "
        f"{limit.figure}, {_sag(job, verdict.allowed)}, of {limit.source}; after years it sags "
        f"{_sag(job, verdict.after_years.most)}."
    )
    if others:
        go = "shelf goes beyond its" if others == 1 else "shelves go beyond theirs"
        text += f" {others} more {go} too."
    return Finding("sags-in-years", worst.part.mark, text, fix, Weight.NOTE)


def _sag(job: Job, of: Fraction) -> str:
    return told(of, FINE_MARKS[job.unit])


def verdict_words(job: Job, verdict: ShelfVerdict) -> str:
    """What a shelf does under its load, against the figure and its source."""
    load, limit = verdict.shelf.load, verdict.limit
    new, old, allowed = (
        _sag(job, one) for one in (verdict.at_once.most, verdict.after_years.most, verdict.allowed)
    )
    meets, when = ("meets" if verdict.meets else "does not meet"), _when(limit)
    return (
        f"under {load_words(load, job.unit)} a shelf sags {new} at once and {old} after years, and {meets} "
        f"{limit.figure}, {allowed} {when}, of {limit.source}"
    )


def _when(limit: SagLimit) -> str:
    return "after years" if limit.after_years else "at once"


def load_words(load: ShelfLoad, unit: Unit) -> str:
    """A load with what it is for: `40 lb/ft2 (anything)`, in kilograms for a job in millimetres."""
    pounds = load.pounds.value
    if unit is Unit.MM:
        kilograms = round(pounds * KILOGRAMS_IN_A_POUND / METRIC[load.per])
        return f"{kilograms} kg/{METRIC_NAMES[load.per]} ({load.use})"
    return f"{float(pounds):g} lb/{load.per.value} ({load.use})"


def _marks(shelves: list[BearingShelf]) -> str:
    return few([one.part.mark for one in shelves])


def _can_hold(project: Project, one: BearingShelf) -> bool:
    """Whether there is a back that a shelf can be screwed to along its rear edge."""
    back = project.cases[one.part.case].spec.construction.back
    return one.part.role is Role.FIXED_SHELF and back is not BackKind.NONE


def _fix(project: Project, one: BearingShelf, materials: Mapping[str, ShelfMaterial | None]) -> str:
    """What would mend a shelf for good: with any of these it meets its figure after years too."""
    shelf = one.shelf
    assert shelf is not None
    strip = shelf.front or ShelfStrip(STOCK, STOCK, wood_material(known_woods()[LEAST_STIFF_HARDWOOD]))
    thicker = [
        sheet.thickness
        for key, sheet in project.job.sheets.items()
        if sheet.thickness > shelf.thickness and materials[key] == shelf.material
    ]
    found = cures(
        shelf,
        replace(one.limit, after_years=True),
        None if one.part.role is Role.BOTTOM else replace(strip, height=shelf.thickness),
        thicker,
        can_hold_back=_can_hold(project, one),
        can_edge_back=one.part.role is Role.ADJUSTABLE_SHELF,
    )
    said = [_cure(project, cure) for cure in islice(found, SHOWN)]
    if not said:
        return "Give it less to hold, or another figure to be judged by."
    words = f"{', '.join(said[:-1])}, or {said[-1]}" if len(said) > 1 else said[0]
    return f"{words[0].upper()}{words[1:]}."


def _cure(project: Project, cure: ShelfCure) -> str:
    finest = PENCIL_MARKS[project.job.unit]
    match cure.kind:
        case CureKind.FRONT_STRIP | CureKind.BOTH_STRIPS:
            where = "front" if cure.kind is CureKind.FRONT_STRIP else "front and back"
            front = cure.changed.front
            assert front is not None
            wide, high = (told_at_least(of, finest) for of in (front.width, front.height))
            drop = told_at_least(front.height - cure.changed.thickness, finest)
            return f"edge its {where} with {wide} of hardwood {high} high (drop {drop})"
        case CureKind.HELD_BY_BACK:
            return "screw and glue it to the back along its rear edge"
        case CureKind.THICKER:
            return f"make it {show(cure.changed.thickness, project.job.mark, unit=True).marked} thick"
        case CureKind.MIDDLE_SUPPORT:
            return "put a divider at its middle"
        case CureKind.SHORTER:
            return f"make it {told_at_most(cure.changed.span, finest)} long between its supports at most"
