"""A rectangle of sheet goods on the workshop floor, and what one straight cut makes of it.

Kept apart from the planner on purpose: this knows edges, kerfs and rectangles, and no plan.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

ALONG, ACROSS = "along the grain", "across the grain"
"""The two axes of a piece: its length lies along the grain of its sheet, its width across it."""

NEAR_SIDES = ("left", "near")
SIDE_OF = {"left": (ALONG, 0), "right": (ALONG, 1), "near": (ACROSS, 0), "far": (ACROSS, 1)}
"""Which end of which axis an edge is, by the words a step uses for it."""


class Side(NamedTuple):
    """An edge: where on its sheet it lies, and how much must still come off before it is a good one."""

    at: Fraction
    owed: Fraction


class Sized(NamedTuple):
    """What brought a piece to its size along an axis: a machine, its distance, and the batch."""

    machine: str
    distance: Fraction
    batch: int


@dataclass(eq=False)
class Wood:
    """A piece that lies somewhere. `may_hold` are the marks of parts that may still come of it, `at_saw`
    whether it has been carried to the table saw, `born` the number of the step that freed it."""

    sheet: str
    sides: dict[str, tuple[Side, Side]]
    may_hold: frozenset[str]
    born: int = 0
    at_saw: bool = False
    sized: dict[str, Sized] = field(default_factory=dict)
    beside: Wood | None = None

    def across(self, axis: str) -> Fraction:
        low, high = self.sides[axis]
        return high.at - low.at

    @property
    def size(self) -> tuple[Fraction, Fraction]:
        """Along the grain first."""
        return self.across(ALONG), self.across(ACROSS)

    def owed(self, edge: str) -> Fraction:
        axis, end = SIDE_OF[edge]
        return self.sides[axis][end].owed

    def rough_edges(self) -> tuple[str, ...]:
        """The edges that nobody has made good."""
        return tuple(edge for edge in SIDE_OF if self.owed(edge) > 0)

    def narrowed(self, marks: frozenset[str]) -> None:
        """These parts come of this piece, so none of them of the piece it was parted from."""
        if self.beside is not None:
            self.beside.may_hold -= marks
        self.may_hold = marks


class Cut(NamedTuple):
    """One pass from edge to edge: what is kept, measured from an edge; what is left on the other side may
    be thinner than the blade and so nothing at all."""

    edge: str
    kept: Fraction
    kerf: Fraction
    owed: tuple[Fraction, Fraction] = (
        Fraction(0),
        Fraction(0),
    )  # on the new edges: of what is kept, of the rest


def parted(piece: Wood, cut: Cut) -> tuple[Wood, Wood | None]:
    """The piece that is kept and the rest. The new edge of either owes what the old one beyond it still
    did, less what the cut takes off there. ValueError where the piece is not as large as what is kept."""
    axis, end = SIDE_OF[cut.edge]
    low, high = piece.sides[axis]
    if not 0 < cut.kept < high.at - low.at:
        raise ValueError(f"{cut.kept} is not to be had of {high.at - low.at}")
    if end == 0:
        line = low.at + cut.kept
        kept = (low, Side(line, max(cut.owed[0], high.owed - (high.at - line))))
        edge = line + cut.kerf
        rest = (Side(edge, max(cut.owed[1], low.owed - (edge - low.at))), high)
    else:
        line = high.at - cut.kept
        kept = (Side(line, max(cut.owed[0], low.owed - (line - low.at))), high)
        edge = line - cut.kerf
        rest = (low, Side(edge, max(cut.owed[1], high.owed - (high.at - edge))))
    one = _piece(piece, axis, kept)
    if rest[1].at <= rest[0].at:
        return one, None
    other = _piece(piece, axis, rest)
    one.beside, other.beside = other, one
    return one, other


def _piece(of: Wood, axis: str, sides: tuple[Side, Side]) -> Wood:
    sized = {other: made for other, made in of.sized.items() if other != axis}
    return Wood(of.sheet, {**of.sides, axis: sides}, of.may_hold, of.born, of.at_saw, sized)
