"""Squareness of a case: what its two diagonals say, in figures and in sentences.

Which corners to draw together and by how much, and how far the back alone holds the case square.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import asin, sin, sqrt, tan

from ...casework.build.case import Case
from ...casework.build.meetings import Meeting
from ...casework.directions import Axis
from ...casework.extents import diagonal, face_of
from ...casework.parts.part import Part, Role
from ...casework.project import Project
from ..tolerance_wording import gap_text

ODD = 4.0  # deviations of a reading: beyond these, the sides are not what they should be


@dataclass(frozen=True, slots=True)
class Racking:
    """A case leaning sideways, seen from the front. Lengths in inches.

    `lean` is how far its top stands to the right of its bottom (negative: to the
    left). `draw_in` is by how much the long diagonal must be shortened, from corner to corner,
    and `corners` says which it joins. `odd` is by how much both diagonals are longer than the
    sides allow: zero when sides and readings are true.
    """

    lean: float
    draw_in: float
    corners: str
    odd: float


def racking(width: Fraction, height: Fraction, rising: Fraction, falling: Fraction) -> Racking:
    """How far a case of the given sides is out of square, from both diagonals.

    `rising` runs from the lower left corner to the upper right, `falling` from the upper left to
    the lower right. Plane geometry of a parallelogram that leans by an angle a: the diagonals'
    squares are w^2 + h^2 plus and minus 2 w h sin a. Raises ValueError for diagonals that no
    parallelogram has.
    """
    wide, high = float(width), float(height)
    if min(wide, high, float(rising), float(falling)) <= 0:
        raise ValueError("sides and diagonals must be greater than zero")
    # The readings' own sizes take the place of 2(w^2 + h^2): a common error does not rack the case.
    sine = float(rising**2 - falling**2) / (4 * wide * high)
    if abs(sine) >= 1:
        raise ValueError(f"no case with these sides has diagonals of {float(rising)} and {float(falling)} in")
    square = float(diagonal(width, height))
    long = sqrt(wide**2 + high**2 + 2 * wide * high * abs(sine))
    corners = "lower left and upper right" if rising > falling else "upper left and lower right"
    mean = sqrt(float(rising**2 + falling**2) / 2)
    return Racking(high * sine, long - square, corners if sine else "", mean - square)


@dataclass(frozen=True, slots=True)
class SquareFigures:
    """What to expect of a case: outside size, both diagonals when square, and what its back allows.

    `play` is the room the back has sideways; with the back in and its lower edge down, the case
    cannot lean by more than `lean`, nor its diagonals differ by more than `differ`. None where
    nothing holds the back to the sides.
    """

    case: str
    width: Fraction
    height: Fraction
    diagonal: Fraction
    play: Fraction | None
    lean: float | None
    differ: Fraction | None


def square_figures(project: Project, case: Case) -> SquareFigures:
    """The expected diagonals of a case, from outside corner to outside corner of its sides."""
    sizes = project.sizes
    width, height = face_of(project, case)
    back = _part(case, Role.BACK)
    play = _play(project, case, back) if back else None
    expected = diagonal(width, height)
    if back is None or play is None:
        return SquareFigures(case.mark, width, height, expected, None, None, None)
    # A back that stands on its lower edge stops the sides' lean at its upper corners.
    angle = asin(min(1.0, float(play / sizes.of(back.length))))
    lean = float(height) * tan(angle)
    both = 2 * float(width) * float(height) * sin(angle)
    square = float(expected) ** 2
    differ = Fraction(sqrt(square + both) - sqrt(square - both))
    return SquareFigures(case.mark, width, height, expected, play, lean, differ)


def _part(case: Case, role: Role) -> Part | None:
    return next((part for part in case.parts if part.role is role), None)


def _play(project: Project, case: Case, back: Part) -> Fraction | None:
    """The room between a back and what holds it sideways; nothing for one flush with both sides."""
    for chain in case.chains:
        mate = chain.mate
        if mate.axis is Axis.X and back.mark in (mate.first.part, mate.second.part):
            if mate.meeting is Meeting.PLAY:
                return project.sizes.of(chain.gap)
            if mate.meeting is Meeting.FLUSH:
                return Fraction(0)
    return None


@dataclass(frozen=True)
class SquareReport:
    """What the diagonals show and what to do about it, in sentences."""

    sentences: tuple[str, ...]
    out_of_square: bool


def square_report(project: Project, case: str, rising: Fraction, falling: Fraction) -> SquareReport:
    """Whether a case is square by its diagonals, and which corners to draw in by how much.

    `rising` runs from its lower left corner to the upper right, `falling` from the upper left to
    the lower right. Raises ValueError for lengths that cannot be its diagonals, KeyError for a
    case that is not in the project.
    """
    square = square_figures(project, project.cases[case])
    found = racking(square.width, square.height, rising, falling)
    sentences = [f"When {case} is square, both diagonals measure {project.printed(square.diagonal)}."]
    reading = project.job.shop.deviations.rule
    out = abs(found.lean) > reading
    if out:
        way = "right" if found.lean > 0 else "left"
        sentences.append(f"Its top leans {gap_text(project, abs(found.lean))} to the {way}.")
        shorter = gap_text(project, found.draw_in)
        sentences.append(
            f"Draw the {found.corners} corners together until that diagonal is {shorter} shorter."
        )
    else:
        sentences.append("It is square as far as a rule can tell.")
    if abs(found.odd) > ODD * reading:
        way = "longer" if found.odd > 0 else "shorter"
        sentences.append(
            f"On average the diagonals are {gap_text(project, abs(found.odd))} {way} than the sides allow: "
            "measure the width and height of the case, and both diagonals again."
        )
    if square.differ is not None:
        sentences.append(
            f"Its back allows the diagonals to differ by {gap_text(project, square.differ)} at most."
        )
    return SquareReport(tuple(sentences), out)
