"""Readings that are asked about before they are kept or used: the usual slips, recognised in one place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ...casework.checks.sheet_checks import can_be_sheet, likely_thickness, stands_apart
from ...casework.extents import case_diagonal
from ...casework.project import Project
from ...casework.size_names import owner_of
from ...findings import Finding
from ...lengths.length import parse_length, show
from ...lengths.quantities import caliper, exact_decimal
from ...shop.materials import SheetGood

_SHIFTS = (
    (Fraction(1, 10), "ten times that"),
    (Fraction(1, 100), "a hundred times that"),
    (Fraction(10), "a tenth of that"),
    (Fraction(100), "a hundredth of that"),
)
_NEAR = Fraction(1, 50)  # of the planned size: a slip of the point leaves what was read near it
_LEAST = Fraction(1, 8)
"""So far off a cut may well be; no shift of the point is looked for there, and a gap of 1/32 in may measure
1/8 in. Common practice, no source."""
_FAR = 2
"""A size that is more than twice what was planned, or less than half of it, is asked about though no slip
explains it. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class DoubtfulReading:
    """What is odd about a reading as `said`, with what was likely `meant` as one would type it; empty where
    no slip explains it."""

    name: str
    said: str
    text: str
    meant: str

    @property
    def finding(self) -> Finding:
        """The question, without the ways to answer it."""
        fix = f"Did you mean {self.meant}?" if self.meant else "Measure again."
        return Finding("reading-doubtful", self.name, self.text, fix)


def doubt_reading(
    project: Project,
    name: str,
    value: Fraction,
    said: str = "",
    earlier: Iterable[tuple[str, Fraction]] = (),
) -> DoubtfulReading | None:
    """The question that a reading raises, if any. `earlier` are the names and values of the readings before.

    `value` is in inches, `said` what was typed for it. Nothing is asked of a size the job does not have.
    """
    unit = project.job.unit
    said = said.strip() or exact_decimal(value, unit)
    sheet = _sheet(project, name)
    if sheet is not None:
        if not can_be_sheet(value, sheet):
            sold = caliper(sheet.nominal, unit)
            text = f"{said} cannot be a sheet of {sheet.name}, sold as {sold}."
            return DoubtfulReading(name, said, text, likely_thickness(value, sheet, unit))
        others = (read for of, read in earlier if _sheet(project, of) is sheet)
        middle = stands_apart(value, (*sheet.readings, *others))
        if middle is None:
            return None
        text = f"{said} stands apart: the middle reading of {sheet.name} is {caliper(middle, unit)}."
        return DoubtfulReading(name, said, text, "")
    planned = _planned(project, name)
    if planned is None or planned <= 0 or abs(value - planned) <= _LEAST:
        return None
    shown = show(planned, project.rule, unit=True).plain
    if _near(value / unit.length * unit.other.length, planned, project):
        text = f"{shown} was planned; {said} is that in {unit.other.words}, and this job counts {unit.words}."
        return DoubtfulReading(name, said, text, f"{exact_decimal(value, unit)} {unit.other.value}")
    for shift, words in _SHIFTS:
        if _near(value * shift, planned, project):
            text = f"{shown} was planned; {said} is {words}."
            return DoubtfulReading(name, said, text, _typed(project, value * shift))
    if value > planned * _FAR or value * _FAR < planned:
        words = "more than twice that" if value > planned else "less than half of that"
        return DoubtfulReading(name, said, f"{shown} was planned; {said} is {words}.", "")
    return None


def _sheet(project: Project, name: str) -> SheetGood | None:
    """The sheet good whose thickness this is, read of the sheet or of a part; None for any other size."""
    part = project.parts.get(owner_of(name))
    if part is not None and name == part.thickness.name:
        return project.job.sheets[part.material]
    return project.sheet_called(name)


def _planned(project: Project, name: str) -> Fraction | None:
    if name in project.sizes.ledger:
        return project.sizes.of(name)
    for case in project.cases.values():
        if name in (diagonal for diagonal, _ in case.diagonals):
            return case_diagonal(project, case)
    return None


def _near(value: Fraction, planned: Fraction, project: Project) -> bool:
    return abs(value - planned) <= max(planned * _NEAR, project.job.mark.step)


def _typed(project: Project, value: Fraction) -> str:
    """The value as one would type it: on a mark of the rule, or else as a decimal."""
    shown = show(value, project.job.mark).plain
    return shown if parse_length(shown, project.job.unit) == value else exact_decimal(value, project.job.unit)
