"""Caliper readings that cannot be of their sheet, or stand apart from the others."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from statistics import median

from ...findings import Finding, Weight
from ...lengths.length import MM, Unit
from ...lengths.quantities import caliper
from ...shop.materials import SheetGood
from ..job import Job

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
        wrong = [(place, one) for place, one in placed if not _can_be(one, sheet)]
        if wrong:
            place, first = wrong[0]
            said = " and ".join(_figure(one, job.unit) for _, one in wrong[:2])
            said = f"{said} {job.unit.value}" + (f" (and {len(wrong) - 2} more)" if wrong[2:] else "")
            text = f"{said} cannot be a sheet of {sheet.name}, sold as {caliper(sheet.nominal, job.unit)}."
            yield Finding("not-that-sheet", place, text, _meant(first, sheet, job.unit))
        yield from _apart(job, sheet, [one for one in placed if one not in wrong])


def _can_be(thickness: Fraction, sheet: SheetGood) -> bool:
    sold = max(sheet.nominal, sheet.usual.middle)
    return LEAST_OF_NOMINAL * min(sheet.nominal, sheet.usual.middle) <= thickness <= MOST_OF_NOMINAL * sold


def _meant(reading: Fraction, sheet: SheetGood, unit: Unit) -> str:
    """The usual slips that would give such a reading, or else the advice to read again."""
    other = Unit.INCH if unit is Unit.MM else Unit.MM
    figure = reading / unit.length
    if _can_be(figure * other.length, sheet):
        words = "inches" if other is Unit.INCH else "millimetres"
        return f'Was it read in {words}? Then write "{_figure(reading, unit)} {other.value}".'
    for shift in (Fraction(10), Fraction(100), Fraction(1, 10), Fraction(1, 100)):
        if _can_be(reading * shift, sheet):
            return f"Is the decimal point misplaced? {_figure(reading * shift, unit)} would do."
    return "Read the caliper again, or name the sheet good that it is."


def _apart(job: Job, sheet: SheetGood, sound: list[tuple[str, Fraction]]) -> Iterator[Finding]:
    """With three readings or more, each that is far from the middle one."""
    if len(sound) < 3:
        return
    middle = median(reading for _, reading in sound)
    for place, reading in sound:
        if abs(reading - middle) > APART:
            text = (
                f"{caliper(reading, job.unit)} stands apart: "
                f"the middle reading of {sheet.name} is {caliper(middle, job.unit)}."
            )
            fix = "Read it again; a sheet that really is so different wants a material of its own."
            yield Finding("reading-apart", place, text, fix, Weight.WARN)


def _figure(length: Fraction, unit: Unit) -> str:
    """The figure as it was typed, as near as a decimal comes to it."""
    return f"{float(length / unit.length):g}"
