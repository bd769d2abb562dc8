"""How much there is to finish, and how many cans that takes."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from ...casework.parts.part import FACE_FRAME, FRONTS, Part, Role
from ...casework.project import Project
from ...lengths.in_a_sentence import listed
from ...shop.prices import FinishPrice, Surfaces

SEEN_SHUT = FACE_FRAME | FRONTS | {Role.FILLER, Role.TOE_KICK, Role.PLINTH_FRONT, Role.PLINTH_END}
"""What is seen of cases with their doors shut."""


def finish_area(project: Project, finish: FinishPrice) -> Fraction:
    """The square inches to finish: both faces and the four edges of every part that gets a finish. Panels
    that are known to come faced get none.

    What lies in a joint is not taken off: it is a few parts in a hundred, and a finish is never bought so
    close.
    """
    return sum((_surface(project, part) for part in _to_finish(project, finish, faced=False)), Fraction(0))


def none_on_faced(project: Project, finish: FinishPrice) -> str:
    """Which kinds of panel are left out because they come faced, though the job does not say so itself:
    `none on melamine-faced board`; empty where there are none."""
    kinds = (project.job.sheets[part.material].kind for part in _to_finish(project, finish, faced=True))
    named = tuple(dict.fromkeys(kind.value for kind in kinds if kind is not None))
    return f"none on {listed(named)}" if named else ""


def all_to_finish(project: Project) -> Fraction:
    """The square inches to finish with the job's own finish; none where it has no finish."""
    finish = project.job.prices.finish
    return finish_area(project, finish) if finish else Fraction(0)


def _to_finish(project: Project, finish: FinishPrice, *, faced: bool) -> Iterator[Part]:
    """The parts that the job wants finished: those of faced panels, or all others."""
    for part in project:
        kind = project.job.sheets[part.material].kind
        if _is_finished(part, finish) and faced == (kind is not None and kind.is_faced):
            yield part


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
