"""Lengths as they are told in a sentence or marked with a pencil: to a coarse mark, never with `~`."""

from __future__ import annotations

from math import ceil, floor

from .length import Length, Mark, Unit, show

PENCIL_MARKS = {Unit.INCH: Mark.SIXTEENTH, Unit.MM: Mark.MILLIMETRE}
"""How fine places on a wall and sizes with play are told; a pencil marks no finer."""

FINE_MARKS = {Unit.INCH: Mark.THIRTY_SECOND, Unit.MM: Mark.HALF_MILLIMETRE}
"""How fine a sag or a cut line is told; nobody knows a sag better, and a plane follows no finer line."""


def told(length: Length, mark: Mark) -> str:
    """A length at the nearest mark."""
    return show(length, mark, unit=True).plain


def at_least(length: Length, mark: Mark) -> Length:
    """The next mark up, for what must not be less."""
    return ceil(length / mark.step) * mark.step


def told_at_least(length: Length, mark: Mark) -> str:
    """The same in words."""
    return told(at_least(length, mark), mark)


def told_at_most(length: Length, mark: Mark) -> str:
    """A length at the next mark down, for what must not be more."""
    return told(floor(length / mark.step) * mark.step, mark)
