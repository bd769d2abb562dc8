"""What happened at the dry fit beside what was predicted, and how likely each outcome is from then on.

The model's share of an outcome is a Beta belief worth ten joints; joints that were tried update it
(Beta-binomial: Gelman and others, "Bayesian Data Analysis", 3rd edition, section 2.4).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from ..chains.roles import GapRole
from ..outcomes.gap_spread import Fit
from ..outcomes.outcome import Outcome
from .tapped_joints import TappedJoints

MODEL_WORTH = 10.0
"""The model's shares count as so many joints tried (our judgement, no source)."""


class JoinedHow(Enum):
    """How a joint went together, in the words of the shop's record."""

    BY_HAND = "by hand"
    CLAMP = "clamp"
    EASED = "eased"
    REMADE = "remade"


@dataclass(frozen=True)
class RoleRecord:
    """The joints of one role that were tried: how many outcomes of each kind were predicted, and happened."""

    role: GapRole
    joints: int
    predicted: Mapping[JoinedHow, float]
    happened: Mapping[JoinedHow, int]

    def share(self, how: JoinedHow) -> float:
        """How likely this is for the next joint of the role."""
        model = self.predicted[how] / self.joints
        return (MODEL_WORTH * model + self.happened[how]) / (MODEL_WORTH + self.joints)


def dry_fit_records(fit: Fit, tapped: TappedJoints) -> tuple[RoleRecord, ...]:
    """What happened at each joint that was tapped, against the outcomes of `fit`."""
    by_role: dict[GapRole, list[tuple[Outcome, JoinedHow]]] = {}
    for name, how in tapped.how.items():
        spread = fit.spreads[name]
        by_role.setdefault(spread.gap.role, []).append((spread.outcome, JoinedHow(how)))
    return tuple(_record(role, by_role[role]) for role in GapRole if role in by_role)


def pooled(records: tuple[RoleRecord, ...]) -> tuple[RoleRecord, ...]:
    """Records of several jobs, those of one role together."""
    return tuple(
        RoleRecord(
            role,
            sum(one.joints for one in alike),
            {how: sum(one.predicted[how] for one in alike) for how in JoinedHow},
            {how: sum(one.happened[how] for one in alike) for how in JoinedHow},
        )
        for role in GapRole
        if (alike := [one for one in records if one.role is role])
    )


def _record(role: GapRole, tried: list[tuple[Outcome, JoinedHow]]) -> RoleRecord:
    shares = [_shares(outcome) for outcome, _ in tried]
    return RoleRecord(
        role,
        len(tried),
        {how: sum(one[how] for one in shares) for how in JoinedHow},
        {how: sum(happened is how for _, happened in tried) for how in JoinedHow},
    )


def _shares(outcome: Outcome) -> dict[JoinedHow, float]:
    return {
        JoinedHow.BY_HAND: outcome.by_hand,
        JoinedHow.CLAMP: outcome.clamp,
        JoinedHow.EASED: outcome.ease,
        JoinedHow.REMADE: outcome.recut,
    }
