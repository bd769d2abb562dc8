"""The revised NIOSH lifting equation whole, with turning and often repeated lifts, which no lift of a shop
here has: NIOSH publication 94-110 (1994, revised 2021), 1.3. Inches and pounds.
"""

from __future__ import annotations

from bisect import bisect_left
from enum import Enum

LIFTS = (0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15)
"""Lifts a minute, a column of the frequency table each."""


class LiftingHours(Enum):
    """For how long lifting goes on, with rests of lighter work between.

    The frequency multipliers are those of Table 5, from memory; the value for 10 lifts a minute, eight hours,
    hands at 30 in or higher, 0.13, was read on a page of the Canadian Centre for Occupational Health and
    Safety. With the hands below 30 in there is none beyond the last lift given here.
    """

    ONE = (
        (1, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37, 0.34, 0.31, 0.28),
        12,
    )
    TWO = ((0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26, 0.23, 0.21, 0, 0, 0), 10)
    EIGHT = ((0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18, 0.15, 0.13, 0, 0, 0, 0, 0), 8)


def frequency_multiplier(a_minute: float, hours: LiftingHours, high: float) -> float:
    """FM: the table's next frequency that is not lower."""
    values, last_low = hours.value
    row = bisect_left(LIFTS, a_minute)
    if row == len(LIFTS) or (high < 30 and LIFTS[row] > last_low):
        return 0.0
    return float(values[row])


def whole_equation(
    out: float,
    high: float,
    travel: float,
    coupled: float,
    turned: float = 0.0,
    a_minute: float = 0.2,
    hours: LiftingHours = LiftingHours.ONE,
) -> float:
    """LC HM VM DM AM FM CM at one end of a lift; `coupled` is CM itself."""
    if out > 25 or high > 70 or travel > 70 or turned > 135:
        return 0.0
    level = min(1.0, 10 / out) if out else 1.0
    far = min(1.0, 0.82 + 1.8 / travel) if travel else 1.0
    aside = 1 - 0.0032 * turned
    often = frequency_multiplier(a_minute, hours, high)
    return 51 * level * (1 - 0.0075 * abs(high - 30)) * far * aside * often * coupled
