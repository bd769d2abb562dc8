"""The cases along one wall of the room, with the place of every part, for its pictures."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from ...casework.extents import Corner, RoomBox, case_extent, part_extent, stretches_of
from ...casework.parts.part import Part
from ...casework.project import DrawnRun, Project
from ...casework.worktops import laid_worktops


@dataclass(frozen=True)
class Standing:
    """A part in the room, along x (right), y (to the wall), z (up)."""

    part: Part
    extent: RoomBox

    @property
    def low(self) -> Corner:
        return self.extent.low

    @property
    def high(self) -> Corner:
        return self.extent.high

    @property
    def size(self) -> Corner:
        return self.extent.size


@dataclass(frozen=True)
class StandingCase:
    """A case in the room, from its left side to its right one, with the parts it is made of."""

    mark: str
    low: Corner
    high: Corner
    parts: tuple[Standing, ...]


@dataclass(frozen=True)
class Wall:
    """The runs along one wall; y is zero at the wall and negative in front of it."""

    name: str
    project: Project
    runs: tuple[DrawnRun, ...]

    @cached_property
    def cases(self) -> tuple[StandingCase, ...]:
        """Every case along the wall, run by run."""
        return tuple(self._case(case.mark) for run in self.runs for case in run.cases)

    @property
    def low(self) -> tuple[DrawnRun, ...]:
        """The runs that stand on the floor."""
        return tuple(run for run in self.runs if not run.run.lift)

    @property
    def hung(self) -> tuple[DrawnRun, ...]:
        """The runs that hang above it."""
        return tuple(run for run in self.runs if run.run.lift)

    @cached_property
    def worktops(self) -> tuple[RoomBox, ...]:
        """The worktops along the wall."""
        marks = {case.mark for case in self.cases}
        return tuple(one.box for one in laid_worktops(self.project) if marks.issuperset(one.marks))

    @property
    def ceiling(self) -> Fraction | None:
        """The height of the ceiling, where a run states it."""
        return next((run.run.ceiling for run in self.runs if run.run.ceiling is not None), None)

    @property
    def ends(self) -> tuple[float, float]:
        """The left and right end of what is drawn: of all openings together."""
        openings = [stretches_of(self.project, run)[0] for run in self.runs]
        return float(min(one.low for one in openings)), float(max(one.high for one in openings))

    @property
    def top(self) -> float:
        """The ceiling, or the top of the highest case."""
        tops = [*(case.high[2] for case in self.cases), *(top.high[2] for top in self.worktops)]
        return float(self.ceiling or max(tops))

    @property
    def deep(self) -> float:
        """How far the cases stand out from the wall at most."""
        fronts = [*(case.low[1] for case in self.cases), *(top.low[1] for top in self.worktops)]
        return -float(min(fronts))

    def run_cases(self, run: DrawnRun) -> tuple[StandingCase, ...]:
        """The cases of one run from left to right."""
        marks = {case.mark for case in run.cases}
        return tuple(case for case in self.cases if case.mark in marks)

    def _case(self, mark: str) -> StandingCase:
        case = self.project.cases[mark]
        parts = tuple(Standing(part, part_extent(self.project, part)) for part in case.parts)
        whole = case_extent(self.project, case)
        return StandingCase(mark, whole.low, whole.high, parts)


def walls(project: Project) -> tuple[Wall, ...]:
    """The job's walls in the order in which its runs name them."""
    found: dict[str, list[DrawnRun]] = {}
    for run in project.runs:
        found.setdefault(run.run.wall, []).append(run)
    return tuple(Wall(name, project, tuple(runs)) for name, runs in found.items())
