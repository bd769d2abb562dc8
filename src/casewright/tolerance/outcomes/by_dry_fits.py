"""Predictions set right by the shop's own dry fits: the one place where taps change an outcome.

What the model predicts of a kind of joint is a Dirichlet belief worth so many joints tried, with the
prediction as its mean; joints that were tried update it (Dirichlet-multinomial: Gelman and others, "Bayesian
Data Analysis", 3rd edition, section 3.4). Joints of one kind still differ as the model says: where more of
them want a clamp than predicted, the odds of each go up by the same factor.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ...shop.dry_fits import DryFits, DryFitTally
from ..chains.roles import GapRole
from .bounds import STANDARD, Bounds, NormalGap

MODEL_WORTH = 10.0
"""The model's shares count as so many joints tried, each cut on settings of its own (our judgement, no
source)."""

ENOUGH = 20
"""Fewer joints of a kind change no prediction: none of twenty clamped where one in ten was predicted is still
luck in one shop of eight (0.9 to the power 20 is 0.12). Our judgement, no source."""

FOR_ALL_ALIKE = 0.05
"""So much of what happened beyond what was predicted is laid on every joint alike, however sound the model
thinks it: what the model does not know of may strike any (our judgement, no source)."""

TALLIED = {
    GapRole.OWN_DADO: "dado",
    GapRole.END: "end",
    GapRole.LEAN: "second_joint",
    GapRole.BACK_PLAY: "back",
}
"""The roles that a maker feels when parts go together, and what the shop's tallies call them; a step, a shelf
on its pins or a run in its opening is seen, and takes no tap."""

FourShares = tuple[float, float, float, float]
"""By hand, with a clamp, eased, remade; together they make one."""

LEAST = 1e-12  # a share so small moves no limit; its quantile would lie beyond any gap


def tally_of(fits: DryFits, role: GapRole) -> DryFitTally | None:
    """The shop's tally for joints of this role; None where it is too short to change a prediction."""
    found: DryFitTally | None = getattr(fits, TALLIED[role]) if role in TALLIED else None
    return found if found is not None and found.joints >= ENOUGH else None


def expected_shares(tally: DryFitTally) -> FourShares:
    """The shares to expect of the joints tried: the mean of the belief after them."""
    each, after = tally.worth / tally.joints, MODEL_WORTH + tally.worth
    believed = zip(_predicted(tally), tally.happened, strict=True)
    a, b, c, d = ((MODEL_WORTH * share + each * went) / after for share, went in believed)
    return a, b, c, d


def set_right(shares: FourShares, tally: DryFitTally) -> FourShares:
    """One joint's predicted shares as the shop's dry fits have them."""
    own, before, after = (_so_bad(one) for one in (shares, _predicted(tally), expected_shares(tally)))
    clamp, ease, recut = (
        _at_other_odds(share, old, new) for share, old, new in zip(own, before, after, strict=True)
    )
    ease = min(ease, clamp)
    recut = min(recut, ease)
    return 1.0 - clamp, clamp - ease, ease - recut, recut


def bounds_by_dry_fits(bounds: Bounds, gap: NormalGap, tally: DryFitTally | None) -> Bounds:
    """A joint's limits moved to where its outcomes have the shares that the dry fits say.

    Moving the limits, and not the shares alone, keeps the joints of a case together: those that are tight by
    one cause ask for a clamp together, as before. What shows is not tapped and stays.
    """
    if tally is None or gap.deviation == 0.0:
        return bounds
    tails = gap.tails(bounds)
    ease, recut = tails.ease + tails.ease_high, tails.recut + tails.recut_high
    by_hand = max(0.0, 1.0 - tails.clamp - ease - recut)
    _, clamp, new_ease, new_recut = set_right((by_hand, tails.clamp, ease, recut), tally)
    # What is too open stays the same part of its kind; a kind that was not predicted is taken as too tight.
    ease_high = new_ease * tails.ease_high / ease if ease else 0.0
    recut_high = new_recut * tails.recut_high / recut if recut else 0.0
    again_low = new_recut - recut_high
    eased_low = again_low + new_ease - ease_high
    return replace(
        bounds,
        again_low=_limit(gap, again_low),
        ease=_limit(gap, eased_low),
        hand=_limit(gap, eased_low + clamp),
        ease_high=_limit_above(gap, recut_high + ease_high) if ease_high else None,
        again_high=_limit_above(gap, recut_high),
    )


def _predicted(tally: DryFitTally) -> FourShares:
    whole = sum(tally.predicted)
    a, b, c, d = (share / whole for share in tally.predicted)
    return a, b, c, d


def _so_bad(shares: FourShares) -> tuple[float, float, float]:
    """The shares of what asks for a clamp or worse, for easing or worse, for another part."""
    _, clamp, ease, recut = shares
    return clamp + ease + recut, ease + recut, recut


def _at_other_odds(share: float, before: float, after: float) -> float:
    """A joint's share, where the share of its kind went from `before` to `after`; `after` if it was as its
    kind."""
    alike = FOR_ALL_ALIKE * max(0.0, after - before)
    old = _odds(before) + alike
    odds = (_odds(share) + alike) * (_odds(after) / old if old else 1.0)
    return odds / (1.0 + odds)


def _odds(share: float) -> float:
    held = min(share, 1.0 - LEAST)
    return held / (1.0 - held)


def _limit(gap: NormalGap, share: float) -> Fraction | None:
    """Below which that share of the gaps lies; None for no share."""
    if share < LEAST:
        return None
    return Fraction(gap.mean + gap.deviation * STANDARD.inv_cdf(min(share, 1.0 - LEAST)))


def _limit_above(gap: NormalGap, share: float) -> Fraction | None:
    if share < LEAST:
        return None
    return Fraction(gap.mean - gap.deviation * STANDARD.inv_cdf(min(share, 1.0 - LEAST)))
