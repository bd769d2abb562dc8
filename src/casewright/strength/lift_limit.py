"""What one person and two may lift by the revised NIOSH lifting equation.

RWL = LC HM VM DM AM FM CM, NIOSH publication 94-110 (1994, revised 2021), 1.3. It is for lifting with both
hands on dry, level floor, not for carrying, and not for one who is ill or untrained. Lifts in a shop are
straight ahead and seldom, at most one in five minutes for an hour: AM and FM are 1. Inches and pounds.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from .published import PublishedFigure

LIFTING_SOURCE = "the revised NIOSH lifting equation, publication 94-110"

LOAD_CONSTANT = Fraction(51)
"""LC, pounds: what the equation allows in the best posture."""

TWO_TOGETHER = PublishedFigure(
    Fraction(2, 3),
    "British HSE guidance, second-hand",
    True,  # as a railway's safety page tells it
)
"""Two people lift two thirds of what the two lift singly: a third more than one. NIOSH has no figure."""


class Grip(Enum):
    """How the hands hold the load: handles, an edge the fingers fold round, or a bare panel. NIOSH calls it
    coupling."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


@dataclass(frozen=True)
class HandLift:
    """Where the hands take a load up, inches: `out` in front of the ankles and `high` above the floor.

    Raises ValueError where one of them is less than zero.
    """

    out: Fraction
    high: Fraction
    grip: Grip = Grip.POOR

    def __post_init__(self) -> None:
        for name, of in (("out", self.out), ("high", self.high)):
            if of < 0:
                raise ValueError(f"the {name} of a lift cannot be less than zero, not {of}")


def horizontal(out: Fraction) -> Fraction:
    """HM: 10 / H, 1 within 10 in, nothing beyond 25 in."""
    if out > 25:
        return Fraction(0)
    return min(Fraction(1), 10 / out) if out else Fraction(1)


def vertical(high: Fraction) -> Fraction:
    """VM: 1 - 0.0075 |V - 30|, nothing above 70 in."""
    return Fraction(0) if high > 70 else 1 - Fraction("0.0075") * abs(high - 30)


def distance(travel: Fraction) -> Fraction:
    """DM: 0.82 + 1.8 / D, 1 within 10 in, nothing beyond 70 in."""
    if travel > 70:
        return Fraction(0)
    return Fraction(1) if travel <= 10 else Fraction("0.82") + Fraction("1.8") / travel


def coupling(grip: Grip, high: Fraction) -> Fraction:
    """CM: good 1; fair 0.95 with the hands below 30 in, else 1; poor 0.9."""
    if grip is Grip.POOR:
        return Fraction("0.9")
    return Fraction("0.95") if grip is Grip.FAIR and high < 30 else Fraction(1)


def recommended_limit(lift: HandLift, travel: Fraction) -> Fraction:
    """The recommended weight limit for one person at one end of a lift, pounds; `travel` is how far up
    or down."""
    multipliers = horizontal(lift.out) * vertical(lift.high) * distance(travel)
    return LOAD_CONSTANT * multipliers * coupling(lift.grip, lift.high)


def hands_out(depth: Fraction, high: Fraction) -> Fraction:
    """How far out the hands are that hold a load so deep from front to back, inches.

    8 + W / 2 from 10 in above the floor, else 10 + W / 2: NIOSH 94-110, 1.3.1, from memory. No nearer than 10
    in.
    """
    return max(Fraction(10), (8 if high >= 10 else 10) + depth / 2)


@dataclass(frozen=True)
class LiftLimit:
    """What a lift allows: pounds for one person and for two, the less of its beginning and its end."""

    one: Fraction
    two: Fraction

    def people(self, pounds: Fraction) -> int | None:
        """How many people a weight takes, one or two; None where it is over the limit for two."""
        if pounds <= self.one:
            return 1
        return 2 if pounds <= self.two else None


def limit_for_two(one: Fraction) -> LiftLimit:
    """The limit of a lift of which one person lifts so many pounds."""
    return LiftLimit(one, 2 * one * TWO_TOGETHER.value)


def limit_of_lift(lift: HandLift, rise: Fraction) -> LiftLimit:
    """The limit of a lift by `rise` inches, up or down (less than zero), where the load is set down with
    care."""
    set_down = replace(lift, high=lift.high + rise)
    one = min(recommended_limit(each, abs(rise)) for each in (lift, set_down))
    return limit_for_two(one)
