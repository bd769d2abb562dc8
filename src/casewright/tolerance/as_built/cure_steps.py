"""A cure: the steps that bring gaps back into their range."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ..chains.made_sizes import SizeKind
from ..outcomes.gap_spread import Fit


class Act(Enum):
    """What is done to a group of sizes. The value is its price for each part, for ranking only."""

    CUT = 1  # still uncut: cut it otherwise
    TRIM = 3
    DEEPEN = 4
    WIDEN = 5
    REMAKE = 12


@dataclass(frozen=True, slots=True)
class CureStep:
    """One group of sizes changed alike, by `change` inches."""

    act: Act
    kind: SizeKind
    feature: str
    names: tuple[str, ...]
    parts: tuple[str, ...]
    change: Fraction


@dataclass(frozen=True, slots=True)
class Cure:
    """Steps that together bring every gap of `gaps` into its range and no other out of it."""

    steps: tuple[CureStep, ...]
    gaps: tuple[str, ...]
    price: int

    def sizes(self, fit: Fit) -> dict[str, Fraction]:
        """The changed sizes, by name."""
        return {
            name: fit.error_model().mean(name) + step.change for step in self.steps for name in step.names
        }
