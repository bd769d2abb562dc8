"""What happened at the dry fit beside what was predicted, kind of joint by kind of joint.

What that changes is worked out in `outcomes/by_dry_fits.py`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from ...shop.dry_fits import DryFitTally
from ..chains.roles import GapRole
from ..errors.causes import Cause
from ..outcomes.by_dry_fits import ENOUGH, TALLIED, expected_shares
from ..outcomes.gap_spread import Fit, GapSpread
from ..outcomes.outcome import Outcome
from .tapped_joints import TappedJoints


class JoinedHow(Enum):
    """How a joint went together, in the words of the shop's record."""

    BY_HAND = "by hand"
    CLAMP = "clamp"
    EASED = "eased"
    REMADE = "remade"


@dataclass(frozen=True)
class RoleRecord:
    """The joints of one role that were tried: how many outcomes of each kind were predicted, and happened.

    `worth` is how many joints, each cut on settings and sheets of its own, would tell as much.
    """

    role: GapRole
    joints: int
    worth: float
    predicted: Mapping[JoinedHow, float]
    happened: Mapping[JoinedHow, int]

    @property
    def tally(self) -> DryFitTally:
        """The same as the shop writes it down."""
        hand, clamp, eased, remade = JoinedHow
        return DryFitTally(
            (self.predicted[hand], self.predicted[clamp], self.predicted[eased], self.predicted[remade]),
            (self.happened[hand], self.happened[clamp], self.happened[eased], self.happened[remade]),
            self.worth,
        )

    @property
    def enough(self) -> bool:
        """Whether so many joints were tried that predictions change by them."""
        return self.joints >= ENOUGH and self.role in TALLIED

    def share(self, how: JoinedHow) -> float:
        """How likely this is for the next joint of the role."""
        return expected_shares(self.tally)[list(JoinedHow).index(how)]


def dry_fit_records(fit: Fit, tapped: TappedJoints) -> tuple[RoleRecord, ...]:
    """What happened at each joint that was tapped, against what the model says of it by itself: held against
    a prediction that taps have changed already, the same taps would count twice."""
    by_role: dict[GapRole, list[tuple[GapSpread, JoinedHow]]] = {}
    for name, how in tapped.how.items():
        spread = fit.spreads[name]
        by_role.setdefault(spread.gap.role, []).append((spread, JoinedHow(how)))
    return tuple(_record(role, by_role[role]) for role in GapRole if role in by_role)


def pooled(records: tuple[RoleRecord, ...]) -> tuple[RoleRecord, ...]:
    """Records of several jobs, those of one role together."""
    return tuple(
        RoleRecord(
            role,
            sum(one.joints for one in alike),
            sum(one.worth for one in alike),
            {how: sum(one.predicted[how] for one in alike) for how in JoinedHow},
            {how: sum(one.happened[how] for one in alike) for how in JoinedHow},
        )
        for role in GapRole
        if (alike := [one for one in records if one.role is role])
    )


def _record(role: GapRole, tried: list[tuple[GapSpread, JoinedHow]]) -> RoleRecord:
    shares = [_shares(spread.modelled) for spread, _ in tried]
    return RoleRecord(
        role,
        len(tried),
        independent([spread for spread, _ in tried]),
        {how: sum(one[how] for one in shares) for how in JoinedHow},
        {how: sum(happened is how for _, happened in tried) for how in JoinedHow},
    )


def independent(spreads: Sequence[GapSpread]) -> float:
    """How many joints without a common cause would tell as much as these: twenty dadoes of one packing of the
    stack tell little more than one.

    It is n squared over the sum of all correlations, the effective size of a sample of like members; two gaps
    are correlated by the causes that they share.
    """
    causes: dict[Cause, float] = {}
    number = 0
    for spread in spreads:
        if spread.deviation:
            number += 1
            for cause, share in spread.errors.items():
                causes[cause] = causes.get(cause, 0.0) + share * cause.deviation / spread.deviation
    together = sum(share**2 for share in causes.values())
    return min(float(number), number**2 / together) if together else float(number)


def _shares(outcome: Outcome) -> dict[JoinedHow, float]:
    return {
        JoinedHow.BY_HAND: outcome.by_hand,
        JoinedHow.CLAMP: outcome.clamp,
        JoinedHow.EASED: outcome.ease,
        JoinedHow.REMADE: outcome.recut,
    }
