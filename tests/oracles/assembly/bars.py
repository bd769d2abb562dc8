"""A panel as a bar of the programme that closes a case: its columns, the forces on it, how it moves."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

import numpy as np

from .bending import compliance
from .geometry import Piece, X, Y, Z

Form = dict[int, float]  # a sum of the programme's unknowns, by column

SAME_PLACE = 0.5
"""Forces nearer together than this along a panel act at one place, in inches; panels are thicker."""


class Bar:
    """A bar's columns, and the forces across it that have been named so far."""

    def __init__(self, piece: Piece, axis: int, first_column: int, places: Iterable[float], e: float) -> None:
        self.piece, self.axis = piece, axis
        self.across = X if axis == Z else Z
        self.long = piece.size[axis]
        self.shift, self.low, self.high = first_column, first_column + 1, first_column + 2
        self.places = _merged(places, (0.0, self.long))
        rigidity = e * piece.size[Y] * piece.size[self.across] ** 3 / 12
        self.bends = compliance(self.places, rigidity)
        self.across_forces: list[tuple[int, int, float]] = []  # place, column, sign
        self.along_forces: list[tuple[int, float]] = []

    def node(self, place: float) -> int:
        return int(np.argmin([abs(one - place) for one in self.places]))

    def moved(self, place: float) -> Form:
        """How far it has moved across itself at a place along it. Call once every force is named."""
        node = self.node(place)
        share = self.places[node] / self.long
        form: Form = defaultdict(float, {self.low: 1 - share, self.high: share})
        for other, column, sign in self.across_forces:
            form[column] += sign * self.bends[node, other]
        return form


def _merged(joints: Iterable[float], ends: tuple[float, float]) -> list[float]:
    """The places along a bar, joints before its ends where they are one place."""
    found: list[float] = []
    for place in (*sorted(joints), *ends):
        if all(abs(place - other) > SAME_PLACE for other in found):
            found.append(place)
    return sorted(found)
