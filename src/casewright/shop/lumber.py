"""How the lumber trade counts boards: board feet, grades and rough thicknesses.

Rules of the National Hardwood Lumber Association, as the American Hardwood Export Council and grade charts of
lumber yards print them. Lengths in inches.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

CUBIC_INCHES = Fraction(144)
"""In one board foot: a foot square and an inch thick."""

KILN_DRIED = Fraction(1, 2)
"""How much narrower than its grade asks a kiln-dried board may measure: boards shrink after grading."""

PLANED_OFF_4_4 = Fraction(3, 16)
PLANED_OFF_THICKER = Fraction(1, 4)
"""What planing rough boards takes off both faces together: a 4/4 board (1 in) comes out at 13/16 in, thicker
ones lose 1/4 in. The rule's own sizes for boards planed on two sides."""

LEAST_COUNTED = Fraction(1)
"""Boards thinner than an inch are counted as an inch thick."""


class GradeName(Enum):
    """The hardwood grades, by the names on a yard's racks."""

    FAS = "FAS"
    ONE_FACE = "FAS one face"
    SELECTS = "Selects"
    COMMON_1 = "No. 1 Common"
    COMMON_2A = "No. 2A Common"
    COMMON_3A = "No. 3A Common"


@dataclass(frozen=True)
class LumberGrade:
    """A hardwood grade. `least_yield` is the share of a board that must lie in clear pieces, `least_width`
    and `least_length` the smallest board."""

    name: GradeName
    least_yield: Fraction
    least_width: Fraction
    least_length: Fraction


def _grade(name: GradeName, share: Fraction, width: int, feet: int) -> LumberGrade:
    """From the chart's own figures: the least width in inches, the least length in feet."""
    return LumberGrade(name, share, Fraction(width), Fraction(12 * feet))


GRADES = {
    grade.name: grade
    for grade in (
        _grade(GradeName.FAS, Fraction(10, 12), 6, 8),
        _grade(GradeName.ONE_FACE, Fraction(10, 12), 6, 8),
        _grade(GradeName.SELECTS, Fraction(10, 12), 4, 6),
        _grade(GradeName.COMMON_1, Fraction(8, 12), 3, 4),
        _grade(GradeName.COMMON_2A, Fraction(6, 12), 3, 4),
        _grade(GradeName.COMMON_3A, Fraction(4, 12), 3, 4),
    )
}
"""By name. The better face of Selects and of FAS one face is graded as FAS, and that is the face in sight."""

QUARTERS = {f"{number}/4": Fraction(number, 4) for number in (3, 4, 5, 6, 8, 10, 12, 16)}
"""Rough thicknesses by their names in quarters of an inch."""


def planed_thickness(rough: Fraction) -> Fraction:
    """What a rough board comes out at when it is planed on both faces."""
    return rough - (PLANED_OFF_4_4 if rough <= 1 else PLANED_OFF_THICKER)


def board_feet(length: Fraction, width: Fraction, thickness: Fraction) -> Fraction:
    """The exact board feet of one board."""
    return length * width * max(thickness, LEAST_COUNTED) / CUBIC_INCHES
