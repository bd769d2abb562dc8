"""How long each step of a repair takes: our own first estimates, for the maker to correct."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..shop.machines import HOURLY
from .facts import SPOILED
from .ways.way import (
    Action,
    Buy,
    BuyBoard,
    CutAgain,
    GlueOn,
    Mend,
    MillAgain,
    NewPlaces,
    ServeAs,
    SetInput,
    TrimTo,
)


@dataclass(frozen=True)
class RepairPace:
    """Minutes for each step, and what an hour counts as; a part cut from itself is only trimmed.

    `feature` is one dado, groove, notch or pin row; `fetch` a trip for sheets.

    New places cost `setting` for each piece of wood that is disturbed (its settings are made again) and
    `relabel` for each part on it; a piece that serves as another part costs `relabel` too.

    A part of boards takes `mill` for each strip from rough board to planed, beside what a part of a sheet
    takes. What goes through jointer and planer by itself costs a `setting` of each more; a part that is glued
    up is glued once.
    """

    cut: Fraction = Fraction(8)
    feature: Fraction = Fraction(4)
    trim: Fraction = Fraction(4)
    glue: Fraction = Fraction(25)
    fetch: Fraction = Fraction(90)
    redraw: Fraction = Fraction(3)
    relabel: Fraction = Fraction(1)
    setting: Fraction = Fraction(5)
    mill: Fraction = Fraction(10)
    hourly: Fraction = HOURLY

    def minutes(self, action: Action, features: int) -> Fraction:
        """Minutes for one action on a part that has this many features."""
        if isinstance(action, CutAgain):
            if action.blank == f"{SPOILED}{action.mark}":
                return self.trim  # only what has no features yet is wood
            return self.cut + self.feature * features
        if isinstance(action, MillAgain):
            alone = 2 * self.setting if action.alone else 0
            glued = self.glue if action.pieces > 1 else 0
            return self.cut + self.feature * features + self.mill * action.strips + alone + glued
        if isinstance(action, TrimTo):
            return self.trim
        if isinstance(action, ServeAs):
            return self.relabel + (self.trim if action.trim else 0)
        if isinstance(action, Mend):
            return action.minutes
        if isinstance(action, GlueOn):
            return self.glue + self.cut
        if isinstance(action, Buy | BuyBoard):
            return self.fetch
        if isinstance(action, NewPlaces):
            return self.redraw + self.setting * action.sheets + self.relabel * len(action.marks)
        if isinstance(action, SetInput):
            return self.redraw
        return Fraction(0)
