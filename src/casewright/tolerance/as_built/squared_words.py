"""What two diagonals say of a case, in sentences."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.project import Project
from ...shop.measuring_tools import MeasuringTool
from ..errors.causes import Habits
from ..figures import fine
from .square import racked, square_of

ODD = 4.0  # deviations of a reading: beyond these, the sides are not what they should be


@dataclass(frozen=True)
class Squared:
    """What to know and to do, in sentences; `out` tells whether the case is out of square."""

    said: tuple[str, ...]
    out: bool


def how_square(project: Project, habits: Habits, case: str, rising: Fraction, falling: Fraction) -> Squared:
    """Whether a case is square by its diagonals, and which corners to draw in by how much.

    `rising` runs from its lower left corner to the upper right, `falling` from the upper left to
    the lower right. Raises ValueError for lengths that cannot be its diagonals, KeyError for a
    case that is not in the project.
    """
    square = square_of(project, project.cases[case])
    found = racked(square.width, square.height, rising, falling)
    said = [f"Square, both diagonals of {case} are {fine(project, square.diagonal)}."]
    reading = habits.reading(MeasuringTool.RULE, project.job.shop)
    out = abs(found.lean) > reading
    if out:
        way = "right" if found.lean > 0 else "left"
        said.append(f"Its top stands {fine(project, abs(found.lean))} to the {way}.")
        shorter = fine(project, found.draw_in)
        said.append(f"Draw the {found.corners} corners together until that diagonal is {shorter} shorter.")
    else:
        said.append("It is square as far as a rule can tell.")
    if abs(found.odd) > ODD * reading:
        way = "longer" if found.odd > 0 else "shorter"
        said.append(
            f"Both diagonals are {fine(project, abs(found.odd))} {way} than the sides allow: "
            "measure the case's width and height, and the diagonals once more."
        )
    if square.differ is not None:
        said.append(f"Its back lets the diagonals differ by {fine(project, square.differ)} at most.")
    return Squared(tuple(said), out)
