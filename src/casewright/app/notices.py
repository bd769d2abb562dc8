"""What the packet's cover says besides the figures: diagonals to expect, sizes easy to confuse."""

from __future__ import annotations

from fractions import Fraction

from ..casework.project import Project
from ..documents.packet import Notice
from ..drawings.lettering import lettered
from ..fit.square import SquareOf, square_of
from ..putright.guard import look_alikes

MOST = 12
"""Lines of a notice; a cover that says everything is read by nobody."""


def notices(project: Project) -> tuple[Notice, ...]:
    """Every notice there is reason for."""
    said = (_diagonals(project), _alike(project))
    return tuple(notice for notice in said if notice.lines)


def _diagonals(project: Project) -> Notice:
    same: dict[tuple[Fraction, Fraction], list[SquareOf]] = {}
    for case in project.cases.values():
        expected = square_of(project, case)
        same.setdefault((expected.width, expected.height), []).append(expected)
    each = [
        f"{', '.join(one.case for one in cases)}: {lettered(Fraction(cases[0].diagonal), project.job.mark)}"
        for cases in same.values()
    ]
    return Notice("Both diagonals of a case should be", ("; ".join(each),))


def _alike(project: Project) -> Notice:
    lines = [f"{alike.likeness.value.capitalize()}: {alike.advice}" for alike in look_alikes(project)]
    return Notice("Sizes easily taken for one another", _cut_short(lines))


def _cut_short(lines: list[str]) -> tuple[str, ...]:
    if len(lines) <= MOST:
        return tuple(lines)
    return (*lines[: MOST - 1], f"and {len(lines) - MOST + 1} more.")
