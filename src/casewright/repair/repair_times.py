"""How long each step of a repair takes: our own first estimates, for the maker to correct."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from .ways.way import Action, Buy, CutAgain, GlueOn, NewPlaces, SetInput, TrimTo


@dataclass(frozen=True)
class RepairPace:
    """Minutes for each step. `feature` is one dado, groove, notch or pin row; `fetch` a trip for sheets."""

    cut: Fraction = Fraction(8)
    feature: Fraction = Fraction(4)
    trim: Fraction = Fraction(4)
    glue: Fraction = Fraction(25)
    fetch: Fraction = Fraction(90)
    redraw: Fraction = Fraction(3)

    def minutes(self, action: Action, features: int) -> Fraction:
        """Minutes for one action on a part that has this many features."""
        if isinstance(action, CutAgain):
            return self.cut + self.feature * features
        if isinstance(action, TrimTo):
            return self.trim
        if isinstance(action, GlueOn):
            return self.glue + self.cut
        if isinstance(action, Buy):
            return self.fetch
        if isinstance(action, SetInput | NewPlaces):
            return self.redraw
        return Fraction(0)
