"""How much there is to finish, and how many cans that takes."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from ...casework.parts.part import FACE_FRAME, FRONTS, Part, Role
from ...casework.project import Project
from ...shop.prices import FinishPrice, Surfaces

SEEN_SHUT = FACE_FRAME | FRONTS | {Role.FILLER, Role.TOE_KICK, Role.PLINTH_FRONT, Role.PLINTH_END}
"""What is seen of cases with their doors shut."""


def finish_area(project: Project, finish: FinishPrice) -> Fraction:
    """The square inches to finish: both faces and the four edges of every part that gets a finish.

    What lies in a joint is not taken off: it is a few parts in a hundred, and a finish is never bought so
    close.
    """
    return sum((_surface(project, part) for part in project if _is_finished(part, finish)), Fraction(0))


def all_to_finish(project: Project) -> Fraction:
    """The square inches to finish with the job's own finish; none where it has no finish."""
    finish = project.job.prices.finish
    return finish_area(project, finish) if finish else Fraction(0)


def _is_finished(part: Part, finish: FinishPrice) -> bool:
    if part.material in finish.not_on:
        return False
    return finish.surfaces is Surfaces.ALL or part.role in SEEN_SHUT


def _surface(project: Project, part: Part) -> Fraction:
    length, width, thickness = project.dimensions(part)
    return 2 * (length * width + length * thickness + width * thickness)


def cans_used(area: Fraction, coats: int, covers: Fraction) -> Fraction:
    """How many cans so many coats on an area take, where a can covers that much with one coat."""
    return area * coats / covers


def cans_to_buy(used: Fraction) -> int:
    """Whole cans: an open one skins over before the next job. Common practice, no source."""
    return ceil(used)
