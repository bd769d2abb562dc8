"""Caliper readings that cannot be of their sheet, or stand apart from the others."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from statistics import median

from ...findings import AtField, Finding, Weight
from ...lengths.length import MM, Unit
from ...lengths.quantities import caliper
from ...shop.materials import SheetGood
from ..job import Job

READING_APART = "reading-apart"

LEAST_OF_NOMINAL, MOST_OF_NOMINAL = Fraction(13, 20), Fraction(6, 5)
"""A sheet is sold as more than it is, seldom as less: 1/4 in plywood is found at 3/16 in, three quarters of
it, and 12 mm board at 12.5 mm. Beyond these shares of the name it is another sheet, or a slip. Common
practice, no source."""

APART = MM / 2
"""Within one sheet and between sheets of one delivery thickness varies by a few tenths of a millimetre; a
reading half a millimetre from the middle one was read wrong, or is of another sheet. Common practice, no
source."""


def check_sheets(job: Job) -> Iterator[Finding]:
    """Findings for caliper readings: in the other unit, with the point misplaced, of another sheet, apart."""
    for sheet in job.sheets.values():
        placed = [(f"materials.{sheet.key}.readings[{at}]", one) for at, one in enumerate(sheet.readings)]
        wrong = [(place, one) for place, one in placed if not can_be_sheet(one, sheet)]
        if wrong:
            place, first = wrong[0]
            said = " and ".join(_figure(one, job.unit) for _, one in wrong[:2])
            said = f"{said} {job.unit.value}" + (f" (and {len(wrong) - 2} more)" if wrong[2:] else "")
            text = f"{said} cannot be a sheet of {sheet.name}, sold as {caliper(sheet.nominal, job.unit)}."
            meant = _meant(first, sheet, job.unit)
            yield Finding("not-that-sheet", place, text, meant, at_field=AtField(fix=_in_a_form(meant)))
        yield from _apart(job, sheet, [one for one in placed if one not in wrong])


def can_be_sheet(thickness: Fraction, sheet: SheetGood) -> bool:
    """Whether a sheet sold under this name can measure so much, in inches."""
    sold = max(sheet.nominal, sheet.usual.middle)
    return LEAST_OF_NOMINAL * min(sheet.nominal, sheet.usual.middle) <= thickness <= MOST_OF_NOMINAL * sold


def likely_thickness(reading: Fraction, sheet: SheetGood, unit: Unit) -> str:
    """What one would have typed but for the usual slips: `17.6`, `0.695 in`; empty where none explains it."""
    figure = reading / unit.length
    if can_be_sheet(figure * unit.other.length, sheet):
        return f"{_figure(reading, unit)} {unit.other.value}"
    for shift in (Fraction(10), Fraction(100), Fraction(1, 10), Fraction(1, 100)):
        if can_be_sheet(reading * shift, sheet):
            return _figure(reading * shift, unit)
    return ""


def _meant(reading: Fraction, sheet: SheetGood, unit: Unit) -> str:
    """The slip that explains the reading, or else the advice to read again."""
    likely = likely_thickness(reading, sheet, unit)
    if likely.endswith(unit.other.value):
        return f'Was it read in {unit.other.words}? Then write "{likely}".'
    if likely:
        return f"Is the decimal point misplaced? {likely} would do."
    return "Read the caliper again, or name the sheet good that it is."


def _in_a_form(fix: str) -> str:
    """The fix without the quotes in which a file wants a length with its unit."""
    return fix.replace("Then write", "Then enter").replace('"', "")


def _apart(job: Job, sheet: SheetGood, sound: list[tuple[str, Fraction]]) -> Iterator[Finding]:
    for at, (place, reading) in enumerate(sound):
        middle = stands_apart(reading, [other for _, other in (*sound[:at], *sound[at + 1 :])])
        if middle is not None:
            text = (
                f"{caliper(reading, job.unit)} stands apart: "
                f"the middle reading of {sheet.name} is {caliper(middle, job.unit)}."
            )
            fix = "Read it again; a sheet that really is so different wants a material of its own."
            yield Finding(READING_APART, place, text, fix, Weight.WARN)


def without_readings_apart(sheet: SheetGood) -> SheetGood:
    """The sheet as if the readings that stand apart had not been taken."""
    sound = [one for one in sheet.readings if can_be_sheet(one, sheet)]
    apart = {
        at for at, one in enumerate(sound) if stands_apart(one, (*sound[:at], *sound[at + 1 :])) is not None
    }
    return replace(sheet, readings=tuple(one for at, one in enumerate(sound) if at not in apart))


def stands_apart(reading: Fraction, others: Sequence[Fraction]) -> Fraction | None:
    """The middle one of all readings of a sheet, where this one is far from it; it takes three to tell."""
    if len(others) < 2:
        return None
    middle = median((reading, *others))
    return middle if abs(reading - middle) > APART else None


def _figure(length: Fraction, unit: Unit) -> str:
    """The figure as it was typed, as near as a decimal comes to it."""
    return f"{float(length / unit.length):g}"
