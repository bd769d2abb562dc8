"""What a maker wrote on the sheet of the shop's test, read: every reading, or why one cannot be right."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from statistics import median

from ...errors import LengthError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.length import MM, Unit, parse_length
from ...lengths.quantities import caliper
from .own_deviations import BLUNDER
from .shop_test import ALONG, FAR_END, NEAR_END, THICKNESS, ShopTest, TrialBlank

APART = Fraction(1, 32)
"""Inches: places of two sheets of a lot do not differ by more; a millimetre is a slip (our judgement, no
source)."""

ROUGH = Fraction(3)  # inches: an offcut for five cuts may be so much smaller or larger than the sheet says


@dataclass(frozen=True)
class TypedTest:
    """The readings by blank, in inches, and what is wrong with the others."""

    values: Mapping[str, Fraction]
    findings: tuple[Finding, ...]


def read_test(test: ShopTest, entries: Iterable[tuple[str, str]], unit: Unit) -> TypedTest:
    """What pairs of a blank's name and a typed reading say; empty readings are blanks not filled in yet.

    A number without a unit counts `unit`.
    """
    values: dict[str, Fraction] = {}
    findings: list[Finding] = []
    blanks = test.blanks
    for name, typed in entries:
        if not typed.strip():
            continue
        if name not in blanks:
            fix = did_you_mean(name, blanks)
            findings.append(Finding("no-such-blank", name, "the shop's test has no line of this name.", fix))
            continue
        try:
            value = parse_length(typed, unit)
        except LengthError as fault:
            text = f"{str(fault).rstrip('.')}."
            findings.append(Finding("test-reading", name, text, "Enter what the caliper shows."))
            continue
        if name in values and values[name] != value:
            both = f"{caliper(values[name], unit)} and {caliper(value, unit)}"
            text = f"it was entered twice, as {both}."
            findings.append(Finding("test-readings-disagree", name, text, "Read it again and enter it once."))
            continue
        values[name] = value
        findings += _out_of_reason(blanks[name], value, unit)
    findings += _apart(values, unit)
    wrong = {finding.place for finding in findings}
    return TypedTest({name: value for name, value in values.items() if name not in wrong}, tuple(findings))


def _out_of_reason(blank: TrialBlank, value: Fraction, unit: Unit) -> Iterator[Finding]:
    """A reading that no saw would give for the number it was cut to."""
    within = ROUGH if blank.name == ALONG else Fraction(BLUNDER)
    if blank.name in (NEAR_END, FAR_END):
        within = blank.number / 2  # only the difference of the two ends counts
    if abs(value - blank.number) <= within:
        return
    text = f"{caliper(value, unit)} was read where {caliper(blank.number, unit)} was to be expected."
    other = {Unit.INCH: ("mm", value * MM), Unit.MM: ("in", value / MM)}[unit]
    if abs(other[1] - blank.number) <= within:
        fix = f"It would fit as {other[0]}: enter the unit with it."
    else:
        fix = "Read it again; if it is right, the piece was cut to another number: cut it again."
    yield Finding("test-reading-out-of-reason", blank.name, text, fix)


def _apart(values: Mapping[str, Fraction], unit: Unit) -> Iterator[Finding]:
    """Readings that should be alike and are not: the ends of the fifth strip, the places of the sheets."""
    if {NEAR_END, FAR_END} <= set(values) and abs(values[NEAR_END] - values[FAR_END]) > 2 * APART:
        text = (
            f"the ends of the fifth strip differ by {caliper(abs(values[NEAR_END] - values[FAR_END]), unit)}."
        )
        yield Finding("test-readings-apart", FAR_END, text, "Read both again; if they are right, cut again.")
    places = {name: value for name, value in values.items() if name.startswith(THICKNESS)}
    middle = median(places.values()) if len(places) > 2 else None
    for name, value in places.items():
        if middle is not None and abs(value - middle) > APART:
            text = (
                f"{caliper(value, unit)} was read where the other places are about {caliper(middle, unit)}."
            )
            yield Finding("test-readings-apart", name, text, "Read it again.")
