"""How big a gap may come out, by the way its surfaces are meant to meet.

All limits are common practice; no source states them. They are forms over the ledger, so a
play that the maker changes moves its own limits.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.build.meetings import Mate, Meeting
from ...casework.project import DrawnRun
from ...sizes.affine import NOTHING, Affine
from ...sizes.ledger import Sizes

THIRTY_SECOND = Fraction(1, 32)
TAPPED_IN = Fraction(1, 200)
CAULKED = Fraction(1, 8)
FILLER_LEAST = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class GapLimits:
    """The range a gap must lie in, as forms over the ledger, in inches, and why."""

    low: Affine
    high: Affine
    reason: str


def gap_limits(mate: Mate, play: Fraction) -> GapLimits:
    """The range for the gap at `mate`, from how its surfaces meet and the `play` stated there, in inches."""
    gap = mate.gap
    if mate.meeting is Meeting.SLIP:
        return GapLimits(
            Affine(-TAPPED_IN),
            Affine(THIRTY_SECOND) if play <= THIRTY_SECOND / 2 else 2 * gap,
            "goes in by hand or with a light tap, and does not rattle (common practice, no source)",
        )
    if mate.meeting is Meeting.PLAY:
        return GapLimits(
            NOTHING,
            2 * gap if play >= THIRTY_SECOND else gap + THIRTY_SECOND,
            "goes in without force, with at most twice the play (common practice, no source)",
        )
    if mate.meeting is Meeting.FLUSH:
        return GapLimits(
            gap - THIRTY_SECOND,
            gap + THIRTY_SECOND,
            "proud or shy by no more than sanding takes off (common practice, no source)",
        )
    return GapLimits(
        gap - THIRTY_SECOND,
        gap + THIRTY_SECOND,
        "clamps and screws draw it home, glue bridges what is left (common practice, no source)",
    )


def spare_limits(drawn: DrawnRun, sizes: Sizes) -> GapLimits:
    """What may be left over beside a run: fillers give way, an open end keeps its own gap.

    A filler may be planed down to half an inch in sight, or shown wider by its scribe. An open
    end may close to nothing, or open to what a line of caulk covers.
    """
    low, high = NOTHING, NOTHING
    for end, filler in ((drawn.left, drawn.run.left), (drawn.right, drawn.run.right)):
        low = low - end
        if filler:
            low = low + min(FILLER_LEAST, sizes.of(end))
            high = high + filler.scribe
        else:
            high = high + CAULKED
    return GapLimits(low, high, "goes in, and filler or caulk covers the rest (common practice, no source)")
