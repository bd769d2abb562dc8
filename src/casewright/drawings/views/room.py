"""What stands along one wall of the room, as every picture of it needs: parts with their places."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.directions import Axis
from ...casework.parts.part import Part, Role
from ...casework.project import DrawnRun, Project


@dataclass(frozen=True)
class Standing:
    """A part in the room: its low corner and its size along x (right), y (to the wall), z (up)."""

    part: Part
    low: tuple[Fraction, Fraction, Fraction]
    size: tuple[Fraction, Fraction, Fraction]

    @property
    def high(self) -> tuple[Fraction, Fraction, Fraction]:
        x, y, z = (low + size for low, size in zip(self.low, self.size, strict=True))
        return x, y, z


@dataclass(frozen=True)
class StandingCase:
    """A case in the room, from its left side to its right one, with the parts it is made of."""

    mark: str
    low: tuple[Fraction, Fraction, Fraction]
    high: tuple[Fraction, Fraction, Fraction]
    parts: tuple[Standing, ...]


@dataclass(frozen=True)
class Wall:
    """The runs along one wall; y is nothing at the wall and negative before it."""

    name: str
    project: Project
    runs: tuple[DrawnRun, ...]

    @property
    def cases(self) -> tuple[StandingCase, ...]:
        """Every case along the wall, run by run."""
        return tuple(self._case(run, case.mark) for run in self.runs for case in run.cases)

    @property
    def low(self) -> tuple[DrawnRun, ...]:
        """The runs that stand on the floor."""
        return tuple(run for run in self.runs if not run.run.lift)

    @property
    def hung(self) -> tuple[DrawnRun, ...]:
        """The runs that hang above it."""
        return tuple(run for run in self.runs if run.run.lift)

    def run_cases(self, run: DrawnRun) -> tuple[StandingCase, ...]:
        """The cases of one run from left to right."""
        return tuple(self._case(run, case.mark) for case in run.cases)

    def _case(self, run: DrawnRun, mark: str) -> StandingCase:
        of = self.project.sizes.of
        deepest = max(of(case.depth) for case in run.cases)
        shift = (run.run.along, -deepest, Fraction(0))
        parts = tuple(
            Standing(
                part,
                _sum(self.project.corner(part), shift),
                (of(part.size(Axis.X)), of(part.size(Axis.Y)), of(part.size(Axis.Z))),
            )
            for part in self.project.cases[mark].parts
        )
        own = [part for part in parts if part.part.role is not Role.FILLER]
        low = tuple(min(part.low[axis] for part in own) for axis in range(3))
        high = tuple(max(part.high[axis] for part in own) for axis in range(3))
        return StandingCase(mark, (low[0], low[1], low[2]), (high[0], high[1], high[2]), parts)


def _sum(
    one: tuple[Fraction, Fraction, Fraction], other: tuple[Fraction, Fraction, Fraction]
) -> tuple[Fraction, Fraction, Fraction]:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def walls(project: Project) -> tuple[Wall, ...]:
    """The job's walls in the order in which its runs name them."""
    found: dict[str, list[DrawnRun]] = {}
    for run in project.runs:
        found.setdefault(run.run.wall, []).append(run)
    return tuple(Wall(name, project, tuple(runs)) for name, runs in found.items())
