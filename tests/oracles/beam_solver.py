"""Beams on any supports under any loads, by the stiffness method, in floats.

Nodes stand at supports and where a load begins, ends or acts; between two nodes the cubic of the ends and the
quartic of an even load are exact, so no mesh has to be fine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

SAMPLES = 65  # places looked at between two nodes; the lowest is then refined by a parabola


@dataclass(frozen=True)
class BeamSupport:
    """A rest that cannot sink, inches from the beam's left end; `fixed` where the beam cannot turn on it."""

    at: float
    fixed: bool = False


@dataclass(frozen=True)
class EvenLoad:
    """Pounds per inch from one place of the beam to another."""

    per_inch: float
    start: float
    end: float


@dataclass(frozen=True)
class LoadAt:
    """Pounds at one place of the beam."""

    pounds: float
    at: float


@dataclass(frozen=True)
class BentBeam:
    """A beam under its loads: how far it sags at any place, inches, down more than zero."""

    nodes: NDArray[np.float64]
    sags: NDArray[np.float64]
    slopes: NDArray[np.float64]
    loads: NDArray[np.float64]
    stiffness: float

    def at(self, place: float) -> float:
        """The sag at a place of the beam."""
        number = int(np.clip(np.searchsorted(self.nodes, place) - 1, 0, len(self.loads) - 1))
        return float(self._within(number, np.array([place - self.nodes[number]]))[0])

    def _within(self, number: int, from_left: NDArray[np.float64]) -> NDArray[np.float64]:
        long = self.nodes[number + 1] - self.nodes[number]
        share = from_left / long
        left, right = self.sags[number], self.sags[number + 1]
        turn_left, turn_right = self.slopes[number] * long, self.slopes[number + 1] * long
        cubic = (
            left * (1 - 3 * share**2 + 2 * share**3)
            + turn_left * (share - 2 * share**2 + share**3)
            + right * (3 * share**2 - 2 * share**3)
            + turn_right * (share**3 - share**2)
        )
        own = self.loads[number] * (from_left * (long - from_left)) ** 2 / (24 * self.stiffness)
        return np.asarray(cubic + own, dtype=np.float64)

    @property
    def most(self) -> float:
        """The largest sag or rise anywhere, more than zero."""
        return max(self._most_within(number) for number in range(len(self.loads)))

    def _most_within(self, number: int) -> float:
        long = self.nodes[number + 1] - self.nodes[number]
        sags = np.abs(self._within(number, np.linspace(0.0, long, SAMPLES)))
        top = int(np.argmax(sags))
        if not 0 < top < SAMPLES - 1:
            return float(sags[top])
        before, peak, after = sags[top - 1 : top + 2]
        bend = 2 * peak - before - after
        return float(peak + (after - before) ** 2 / (8 * bend)) if bend > 0 else float(peak)


def bend(
    length: float,
    stiffness: float,
    supports: Sequence[BeamSupport],
    loads: Sequence[EvenLoad | LoadAt],
) -> BentBeam:
    """Bend a beam of one section under its loads.

    Raises ValueError where the supports leave it free to fall or turn, or where one lies off the beam.
    """
    if stiffness <= 0 or length <= 0:
        raise ValueError("a beam needs a length and a stiffness of more than zero")
    if len({one.at for one in supports}) < 2 and not any(one.fixed for one in supports):
        raise ValueError("a beam needs two supports, or one that holds it from turning")
    places = {0.0, length}
    for one in (*supports, *loads):
        places |= {one.start, one.end} if isinstance(one, EvenLoad) else {one.at}
    nodes = np.array(sorted(places))
    if nodes[0] < 0 or nodes[-1] > length:
        raise ValueError("a support or a load lies off the beam")
    lengths = np.diff(nodes)
    middles = (nodes[:-1] + nodes[1:]) / 2
    even = np.zeros(len(lengths))
    forces = np.zeros(2 * len(nodes))
    for load in loads:
        if isinstance(load, EvenLoad):
            even += np.where((load.start < middles) & (middles < load.end), load.per_inch, 0.0)
        else:
            forces[2 * int(np.searchsorted(nodes, load.at))] += load.pounds
    matrix = np.zeros((2 * len(nodes), 2 * len(nodes)))
    for number, (long, each) in enumerate(zip(lengths, even, strict=True)):
        here = slice(2 * number, 2 * number + 4)
        matrix[here, here] += _element(long, stiffness)
        forces[here] += each * np.array([long / 2, long**2 / 12, long / 2, -(long**2) / 12])
    held = [2 * int(np.searchsorted(nodes, one.at)) for one in supports]
    held += [2 * int(np.searchsorted(nodes, one.at)) + 1 for one in supports if one.fixed]
    free = np.setdiff1d(np.arange(2 * len(nodes)), held)
    moved = np.zeros(2 * len(nodes))
    moved[free] = np.linalg.solve(matrix[np.ix_(free, free)], forces[free])
    return BentBeam(nodes, moved[0::2], moved[1::2], even, stiffness)


def _element(long: float, stiffness: float) -> NDArray[np.float64]:
    """The stiffness of a beam element against sinking and turning at its two ends."""
    return (stiffness / long**3) * np.array(
        [
            [12, 6 * long, -12, 6 * long],
            [6 * long, 4 * long**2, -6 * long, 2 * long**2],
            [-12, -6 * long, 12, -6 * long],
            [6 * long, 2 * long**2, -6 * long, 4 * long**2],
        ]
    )
