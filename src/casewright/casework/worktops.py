"""Worktops: where one lies, how high and how large it comes out, and what it weighs."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from ..shop.materials import per_square_inch
from .directions import Axis
from .extents import RoomBox, around, case_body
from .job import Worktop
from .project import DrawnRun, Project

X, Y, Z = (axis.value for axis in Axis)


@dataclass(frozen=True)
class LaidWorktop:
    """A worktop where it lies: over cases side by side, by their marks from the left; `box` in the room."""

    top: Worktop
    marks: tuple[str, ...]
    box: RoomBox

    @property
    def pounds(self) -> Fraction | None:
        """What it weighs; None where nobody says."""
        return self.weight_over(self.box.size[X])

    def weight_over(self, wide: Fraction) -> Fraction | None:
        """What so much of its length weighs, from its back to its front."""
        if self.top.weight is None:
            return None
        return wide * self.box.size[Y] * per_square_inch(self.top.weight)


def laid_worktops(project: Project) -> tuple[LaidWorktop, ...]:
    """Every worktop of a job, one for each stretch of base cases that stand side by side."""
    return tuple(one for run in project.runs for one in _of_run(project, run))


def worktop_over(project: Project, mark: str) -> LaidWorktop | None:
    """The worktop that lies on a case."""
    return next((one for one in _of_run(project, project.run_of(mark)) if mark in one.marks), None)


def _of_run(project: Project, run: DrawnRun) -> list[LaidWorktop]:
    top, under = run.run.worktop, {spec.mark for spec in run.run.under_worktop}
    if top is None:
        return []
    stretches = groupby((case.mark for case in run.cases), key=lambda mark: mark in under)
    return [_laid(project, top, list(marks)) for covered, marks in stretches if covered]


def _laid(project: Project, top: Worktop, marks: list[str]) -> LaidWorktop:
    below = around(case_body(project, project.cases[mark]) for mark in marks)
    low = (below.low[X], below.low[Y] - top.overhang, below.high[Z])
    high = (below.high[X], below.high[Y], below.high[Z] + top.thick)
    return LaidWorktop(top, tuple(marks), RoomBox(low, high))
