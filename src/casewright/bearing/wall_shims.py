"""Shims behind hung cases: what brings their strips into one plane on an uneven wall."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..casework.job import Run
from ..strength.scribe import ScribeLine, ScribePoint, WallOffset


@dataclass(frozen=True)
class Shim:
    """What is packed between wall and strip at a stud, inches: none where the wall stands out most."""

    stud: Fraction
    thick: Fraction


def even_readings(gaps: Sequence[Fraction], start: Fraction, end: Fraction) -> tuple[WallOffset, ...]:
    """Gaps read at equal steps from `start` to `end`, each with its place, inches."""
    step = (end - start) / (len(gaps) - 1)
    return tuple(WallOffset(start + number * step, gap) for number, gap in enumerate(gaps))


def shims_behind(run: Run, ends: tuple[Fraction, Fraction], studs: Sequence[Fraction]) -> tuple[Shim, ...]:
    """The shim at each stud for cases that reach from one end to the other, inches from the wall's left end.

    The cases stand in the plane that touches the wall where it stands out most behind them, parallel to the
    line it was read from. Nothing where the wall was not read.
    """
    if not run.wall_gaps:
        return ()
    readings = even_readings(run.wall_gaps, run.along, run.along + run.opening)
    wall = ScribeLine(tuple(ScribePoint(one.along, one.gap) for one in readings))
    behind = (*ends, *(one.along for one in readings if ends[0] < one.along < ends[1]))
    nearest = min(wall.width_at(place) for place in behind)
    return tuple(Shim(stud, wall.width_at(stud) - nearest) for stud in studs)
