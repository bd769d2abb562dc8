"""A cut line at full size on sheets of paper, to be taped together and laid on the part."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from ..lengths.length import MM, Unit
from ..strength.scribe import ScribePoint
from .scribed_parts import ScribedPart

SHEET_STEPS = {Unit.INCH: Fraction(8), Unit.MM: 200 * MM}
"""How much of the part each sheet adds: Letter and A4 hold it upright between margins of half an inch, with
the overlap and a heading."""

OVERLAP = {Unit.INCH: Fraction(1, 2), Unit.MM: 12 * MM}
"""How far a sheet goes on past the marks that it shares with the next."""

ACROSS = {Unit.INCH: Fraction(5), Unit.MM: 125 * MM}
"""How much of a part's width a sheet has room for."""

PROOF = {Unit.INCH: (Fraction(4), "4 in"), Unit.MM: (100 * MM, "100 mm")}
"""The bar that proves a print's scale, and what is written on it."""


@dataclass(frozen=True)
class ScribeSheet:
    """One sheet of a full-size line: `low` to `high` up the part, inches, the line there, and the places of
    the marks that it shares with its neighbours. `straight` is how far the line it is drawn from lies from
    the part's edge at the case: nothing, unless the part is wider than the paper."""

    number: int
    count: int
    low: Fraction
    high: Fraction
    line: tuple[ScribePoint, ...]
    joins: tuple[Fraction, ...]
    straight: Fraction


def scribe_sheets(part: ScribedPart, unit: Unit) -> tuple[ScribeSheet, ...]:
    """The sheets of a part's cut line from its lower end up."""
    step, over = SHEET_STEPS[unit], OVERLAP[unit]
    count = max(1, ceil(part.length / step))
    straight = Fraction(max(0, ceil((part.line.widest.width - ACROSS[unit]) / unit.length))) * unit.length
    found = []
    for number in range(count):
        low = max(Fraction(0), number * step - over)
        high = min(part.length, (number + 1) * step + over)
        inner = [point.along for point in part.line.points if low < point.along < high]
        line = tuple(ScribePoint(at, part.line.width_at(at)) for at in (low, *inner, high))
        joins = tuple(at * step for at in (number, number + 1) if 0 < at < count)
        found.append(ScribeSheet(number + 1, count, low, high, line, joins, straight))
    return tuple(found)
