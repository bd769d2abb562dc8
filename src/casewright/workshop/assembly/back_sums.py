"""The width of a back as a sum of what is measured at the dry fit, to be worked out beside the case."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ...casework.directions import Axis
from ...casework.parts.part import Role
from ...casework.project import Project

_SIDES = (Role.LEFT_SIDE, Role.RIGHT_SIDE)


@dataclass(frozen=True, slots=True)
class BackSum:
    """A back and its planned width and height in inches.

    `room` is planned between the sides and `depths` are those of the channels in the left and the right
    side; width = room + depths - `play`. Without channels in both sides `depths` is empty, and the planned
    width stands.
    """

    mark: str
    width: Fraction
    height: Fraction
    room: Fraction
    depths: tuple[Fraction, ...]
    play: Fraction

    @property
    def terms(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """What is added up to the width, each with its sign; empty where there is no sum."""
        added = [(Fraction(1), one) for one in (self.room, *self.depths)]
        return (*added, (Fraction(-1), self.play)) if self.depths else ()


def back_sums(project: Project, cases: Iterable[str]) -> tuple[BackSum, ...]:
    """A sum for every back of the cases of these marks, in their order."""
    of = project.sizes.of
    found: list[BackSum] = []
    for case in (project.cases[mark] for mark in cases):
        for back in case.parts:
            if back.role is not Role.BACK:
                continue
            depths = tuple(
                of(channel.depth)
                for role in _SIDES
                for side in case.parts
                if side.role is role
                for channel in side.channels
                if channel.takes_back
            )
            width, height = of(back.size(Axis.X)), of(back.size(Axis.Z))
            room = of(case.inside)
            both = depths if len(depths) == len(_SIDES) else ()
            play = room + sum(both, Fraction(0)) - width if both else Fraction(0)
            found.append(BackSum(back.mark, width, height, room, both, play))
    return tuple(found)
