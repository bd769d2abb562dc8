"""The rule of one job, with the mark that was chosen for each length that lies between two."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .length import Length, Mark, Unit


@dataclass(frozen=True, eq=False)
class ChosenMarks:
    """The numbers of a job: one number for one exact length, wherever it is printed or set.

    `numbers` holds, by exact length, the mark above it or below it. Lengths without an entry go to the
    nearest mark of `mark`.
    """

    mark: Mark
    numbers: Mapping[Length, Length]

    @property
    def unit(self) -> Unit:
        return self.mark.unit

    @property
    def step(self) -> Length:
        return self.mark.step

    def number(self, length: Length) -> Length:
        """The mark chosen for a length, in inches."""
        chosen = self.numbers.get(length)
        return self.mark.number(length) if chosen is None else chosen
