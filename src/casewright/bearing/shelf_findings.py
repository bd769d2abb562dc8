"""Shelves that sag more than the figure they are held against, with what would mend each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

from ..casework.job import BackKind, Job
from ..casework.parts.part import Role
from ..casework.project import Project
from ..findings import Finding, Weight
from ..lengths.in_a_sentence import listed
from ..lengths.length import Mark, Unit, show
from ..lengths.quantities import KILOGRAMS_IN_A_POUND
from ..lengths.rounding import nearest
from ..shop.woods import known_woods
from ..strength.loaded_shelf import ShelfStrip
from ..strength.loads import LoadPer, ShelfLoad
from ..strength.shelf_answer import CureKind, ShelfCure, ShelfVerdict, cures
from .job_shelves import BearingShelf
from .materials import wood_material

NAMED = 3
"""Marks of shelves in one sentence; more are counted."""

STOCK = Fraction(3, 4)
"""Inches of the edging that is proposed where a shelf has none: 4/4 stock, planed."""

SOFTEST_HARDWOOD = "yellow-poplar"
"""The wood it is reckoned with: of the hardwoods at a yard, the least stiff; any other does as well."""

RULE_OF_SAGS = {Unit.INCH: Mark.THIRTY_SECOND, Unit.MM: Mark.HALF_MILLIMETRE}
"""How fine a sag is told; nobody knows it better."""

RULE_OF_CURES = {Unit.INCH: Mark.SIXTEENTH, Unit.MM: Mark.MILLIMETRE}
"""The marks that strips and spans are told to: strips up, spans down."""

METRIC = {LoadPer.FOOT: Fraction(3048, 10_000), LoadPer.SQUARE_FOOT: Fraction(3048, 10_000) ** 2}
METRIC_NAMES = {LoadPer.FOOT: "m", LoadPer.SQUARE_FOOT: "m2"}
"""Metres in a foot and square metres in a square foot, exactly."""

SHOWN = 3
"""Cures in one fix, the least work first."""


def shelf_findings(project: Project, shelves: Iterable[BearingShelf]) -> tuple[Finding, ...]:
    """A finding for each shelf that does not meet its figure, those alike told once; and a question for each
    material of which it is not known how stiff it is."""
    shelves = tuple(shelves)
    return (*_unknown(project, shelves), *_sagging(project, shelves))


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


def _sagging(project: Project, shelves: Iterable[BearingShelf]) -> Iterator[Finding]:
    alike: dict[tuple[str, str], list[BearingShelf]] = {}
    for one in shelves:
        if one.verdict is not None and not one.verdict.meets:
            told = (verdict_words(project.job, one.verdict), _fix(project, one))
            alike.setdefault(told, []).append(one)
    for (words, fix), those in alike.items():
        yield Finding("shelf-sags", those[0].part.mark, f"{_marks(those)}: {words}.", fix, Weight.WARN)


def verdict_words(job: Job, verdict: ShelfVerdict) -> str:
    """What a shelf does under its load, against the figure and its source."""

    def sag(of: Fraction) -> str:
        finest = RULE_OF_SAGS[job.unit]
        return show(nearest(of, finest.step), finest, unit=True).marked

    load, limit = verdict.shelf.load, verdict.limit
    return (
        f"under {load_words(load, job.unit)} a shelf sags {sag(verdict.at_once.most)} at once and "
        f"{sag(verdict.after_years.most)} after years, and {'meets' if verdict.meets else 'does not meet'} "
        f"{limit.figure}, {sag(verdict.allowed)} {'after years' if limit.after_years else 'at once'}, of "
        f"{limit.source}"
    )


def load_words(load: ShelfLoad, unit: Unit) -> str:
    """A load with what it is for: `40 lb/ft2 (anything)`, in kilograms for a job in millimetres."""
    pounds = load.pounds.value
    if unit is Unit.MM:
        kilograms = round(pounds * KILOGRAMS_IN_A_POUND / METRIC[load.per])
        return f"{kilograms} kg/{METRIC_NAMES[load.per]} ({load.use})"
    return f"{float(pounds):g} lb/{load.per.value} ({load.use})"


def _marks(shelves: list[BearingShelf]) -> str:
    marks = [one.part.mark for one in shelves]
    return listed(marks if len(marks) <= NAMED + 1 else [*marks[:NAMED], f"{len(marks) - NAMED} more"])


def _can_hold(project: Project, one: BearingShelf) -> bool:
    """Whether there is a back that a shelf can be screwed to along its rear edge."""
    back = project.cases[one.part.case].spec.construction.back
    return one.part.role is Role.FIXED_SHELF and back is not BackKind.NONE


def _fix(project: Project, one: BearingShelf) -> str:
    shelf = one.shelf
    assert shelf is not None
    strip = shelf.front or ShelfStrip(STOCK, STOCK, wood_material(known_woods()[SOFTEST_HARDWOOD]))
    thicker = [sheet.thickness for sheet in project.job.sheets.values() if sheet.thickness > shelf.thickness]
    found = cures(
        shelf,
        one.limit,
        replace(strip, height=shelf.thickness),
        thicker,
        can_hold_back=_can_hold(project, one),
    )
    told = [_cure(project, cure) for cure in found[:SHOWN]]
    if not told:
        return "Give it less to hold, or another figure to be judged by."
    words = f"{', '.join(told[:-1])}, or {told[-1]}" if len(told) > 1 else told[0]
    return f"{words[0].upper()}{words[1:]}."


def _cure(project: Project, cure: ShelfCure) -> str:
    finest = RULE_OF_CURES[project.job.unit]

    def at_least(of: Fraction) -> str:
        return show(ceil(of / finest.step) * finest.step, finest, unit=True).marked

    def at_most(of: Fraction) -> str:
        return show(floor(of / finest.step) * finest.step, finest, unit=True).marked

    match cure.kind:
        case CureKind.FRONT_STRIP | CureKind.BOTH_STRIPS:
            where = "front" if cure.kind is CureKind.FRONT_STRIP else "front and back"
            front = cure.changed.front
            assert front is not None
            return f"edge its {where} with {at_least(front.width)} of hardwood {at_least(front.height)} high"
        case CureKind.HELD_BY_BACK:
            return "screw and glue it to the back along its rear edge"
        case CureKind.THICKER:
            return f"make it {show(cure.changed.thickness, project.job.mark, unit=True).marked} thick"
        case CureKind.MIDDLE_SUPPORT:
            return "stand a divider under its middle"
        case CureKind.SHORTER:
            return f"make it {at_most(cure.changed.span)} long between its supports at most"
