"""Lengths: exact, read as makers write them, printed as a rule shows them.

A length is a `fractions.Fraction` of inches throughout; a millimetre is exactly 5/127 of an
inch, since the inch is 25.4 mm by definition (international yard and pound agreement, 1959).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cached_property
from math import isfinite
from typing import Protocol

from ..errors import LengthError
from .fractions_text import NUMBER, mixed, plain_text, quoted, read_number
from .misreadings import unknown_unit, why_not
from .rounding import apportion, nearest

__all__ = [
    "MM",
    "Length",
    "Mark",
    "Rule",
    "Unit",
    "WrittenLength",
    "apportion",
    "nearest",
    "parse_length",
    "show",
]

Length = Fraction
MM: Length = Fraction(5, 127)

LONGEST: Length = Fraction(12_000)
FINEST: Length = MM / 1000


class Unit(Enum):
    """The unit of a number written without one."""

    INCH = "in"
    MM = "mm"

    @property
    def length(self) -> Length:
        """The length of one unit, in inches."""
        return MM if self is Unit.MM else Fraction(1)

    @property
    def words(self) -> str:
        """The unit's name, in the plural."""
        return "millimetres" if self is Unit.MM else "inches"

    @property
    def other(self) -> Unit:
        """The unit a figure without one may be mistaken for."""
        return Unit.INCH if self is Unit.MM else Unit.MM


class Rule(Protocol):
    """What turns an exact length into the number that is printed and that a saw is set to."""

    @property
    def unit(self) -> Unit:
        """The unit it is marked in."""

    @property
    def step(self) -> Length:
        """The distance between two marks, in inches."""

    def number(self, length: Length) -> Length:
        """The mark that stands for a length: the one above it or the one below."""


class Mark(Enum):
    """The finest mark on the shop's rule, with the text a job file uses for it."""

    SIXTEENTH = "1/16 in"
    THIRTY_SECOND = "1/32 in"
    SIXTY_FOURTH = "1/64 in"
    MILLIMETRE = "1 mm"
    HALF_MILLIMETRE = "0.5 mm"
    TENTH_MILLIMETRE = "0.1 mm"

    @cached_property
    def unit(self) -> Unit:
        return Unit(self.value.split()[1])

    @cached_property
    def step(self) -> Length:
        """The distance between two marks, in inches."""
        return Fraction(self.value.split()[0]) * self.unit.length

    def number(self, length: Length) -> Length:
        """The nearest mark; a length midway between two is rounded away from zero."""
        return nearest(length, self.step)


@dataclass(frozen=True, slots=True)
class WrittenLength:
    """A length as printed: `plain` is the text, `value` the length that the text states, in inches.

    `off_by` is `value` less the exact length: zero unless the text is `rounded`.
    """

    plain: str
    value: Length
    off_by: Length

    @property
    def rounded(self) -> bool:
        return self.off_by != 0

    @property
    def marked(self) -> str:
        """The text, with `~` in front if it is rounded."""
        return f"~{self.plain}" if self.rounded else self.plain

    def __str__(self) -> str:
        return self.marked


def show(length: Length, rule: Rule, *, unit: bool = False, gap: str = " ") -> WrittenLength:
    """The length as its number on the rule: `27 13/32`, `695`, `695.5`.

    A bare `Mark` gives the nearest mark; `ChosenMarks` the one that was chosen for the job. `unit` adds `"`
    or `mm`; `gap` is the space between a whole number and its fraction and before `mm` (a typesetter may
    want a thin space). `parse_length` reads the plain text back, whatever white space the gap is.
    """
    value = rule.number(length)
    if rule.unit is Unit.MM:
        plain = _decimal(value / MM) + (f"{gap}mm" if unit else "")
    else:
        plain = mixed(value, gap) + ('"' if unit else "")
    return WrittenLength(plain, value, value - length)


def _decimal(tenths_exact: Fraction) -> str:
    """A number of whole tenths as a decimal, without a trailing zero."""
    sign = "-" if tenths_exact < 0 else ""
    whole, tenth = divmod(int(abs(tenths_exact) * 10), 10)
    return f"{sign}{whole}.{tenth}" if tenth else f"{sign}{whole}"


_METRIC: dict[str, Length] = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), MM),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), 10 * MM),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1000 * MM),
}
_UNITS: dict[str, Length] = {
    **_METRIC,
    **dict.fromkeys(('"', "in", "inch", "inches"), Fraction(1)),
    **dict.fromkeys(("'", "ft", "foot", "feet"), Fraction(12)),
}
_ONE_NUMBER = re.compile(rf"([+-]?)\s*({NUMBER})\s*([^\W\d_]+\.?|['\"])?")
_FEET_AND_INCHES = re.compile(
    rf"([+-]?)\s*({NUMBER})\s*(?:'|ft\.?|foot|feet)(?:\s*|-|\s+-\s+)({NUMBER})\s*(?:\"|in\.?|inch|inches)?"
)
LONGEST_TEXT = 60


def parse_length(text: str | int | float | Fraction, default: Unit) -> Length:
    """The length, in inches, that a maker wrote; a number without a unit is in `default` units.

    Reads `27-3/8`, `27 3/8"`, `41¼`, `3/4`, `-1/8`, `3' 5 1/4"`, `3'-5 1/4"`, `2 ft 3 in`,
    `18.875`, `695mm`, `69.5 cm`, `1.2 m`, with straight or typeset primes, bars and dashes. An
    int, a Fraction or a float (by its shortest decimal text) is a number without a unit.

    Text that can be read in two ways is refused, not guessed at: any comma (a decimal point to some, a
    thousands separator to others), a dash next to a space unless feet come before it (join or
    subtract?), two whole numbers in a row or with a dash between them, an improper fraction, a
    fraction of a metric unit, 12 inches or more after feet.

    Raises LengthError, one sentence that names the value and the fix, for those, for text that is not
    a length, for more than 1000 ft, and for less than 0.001 mm that is not zero.
    """
    if isinstance(text, str):
        length = _read(text, default)
    elif isinstance(text, bool) or not isinstance(text, int | float | Fraction):
        raise LengthError(f"{quoted(text)} is not a length; write a number or a text such as 27 3/8.")
    elif isinstance(text, float):
        if not isfinite(text):
            raise LengthError(f"{quoted(text)} is not a length; write a number of inches or millimetres.")
        length = Fraction(float.__repr__(text)) * default.length
    else:
        length = text * default.length
    if abs(length) > LONGEST:
        raise LengthError(f"{quoted(text)} comes to more than 1000 ft; check the number and its unit.")
    if 0 < abs(length) < FINEST:
        raise LengthError(f"{quoted(text)} comes to less than 0.001 mm; check the number, or write 0.")
    return length


def _read(said: str, default: Unit) -> Length:
    if not said.strip():
        raise LengthError("“” is not a length; write one such as 27 3/8, 3' 5 1/4\" or 695 mm.")
    if len(said.strip()) > LONGEST_TEXT:
        raise LengthError(f"{quoted(said)} is too long to be one length; write only the size.")
    text = plain_text(said)
    if found := _ONE_NUMBER.fullmatch(text):
        sign, number, word = found.groups()
        length = _one_number(number, (word or default.value).rstrip("."), bare=not word, said=said)
    elif found := _FEET_AND_INCHES.fullmatch(text):
        sign, feet, inches = found.groups()
        length = _feet_and_inches(feet, inches, said)
    else:
        raise LengthError(f"{quoted(said)} {why_not(text, _UNITS)}.")
    return -length if sign == "-" else length


def _one_number(number: str, word: str, *, bare: bool, said: str) -> Length:
    if word not in _UNITS:
        raise LengthError(f"{quoted(said)} {unknown_unit(word)}.")
    value = read_number(number, said)
    if "/" in number and word in _METRIC:
        if bare:
            why = f'is a fraction of a millimetre; write {mixed(value)}" for inches, or a decimal'
        else:
            why = "has a fraction of a metric unit; write a decimal, as in 27.5 mm"
        raise LengthError(f"{quoted(said)} {why}.")
    return value * _UNITS[word]


def _feet_and_inches(feet: str, inches: str, said: str) -> Length:
    if not feet.isdigit():
        raise LengthError(
            f"{quoted(said)} has a fraction of a foot before the inches; write whole feet, or inches only."
        )
    rest = read_number(inches, said)
    if rest >= 12:
        raise LengthError(
            f"{quoted(said)} has 12 inches or more after the feet; "
            f'write {mixed(int(feet) * 12 + rest)}" if that is meant.'
        )
    return int(feet) * 12 + rest
