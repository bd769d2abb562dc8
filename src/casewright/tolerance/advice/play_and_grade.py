"""A dado's play that the job's grade does not allow: why a gap shows in so many cases, and what mends it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.size_names import read_name
from ...sizes.ledger import Given
from ..chains.limits import OPEN_JOINT
from ..chains.roles import GapRole
from ..outcomes.case_outcome import job_outcome
from ..outcomes.gap_spread import WORTH_A_WORD, Fit
from ..outcomes.outcome import Outcome
from .bench_minutes import bench_minutes
from .change import Change, ChangeKind, with_change
from .find_changes import LESS


@dataclass(frozen=True)
class TooMuchPlay:
    """The gap that the grade `allows` in sight and the greatest `play` of the job's dados, in inches; and
    what happens with the play that costs the least time at the dry fit, `less`."""

    allows: Fraction
    play: Fraction
    less: Fraction
    with_less: Outcome


def too_much_play(fit: Fit) -> TooMuchPlay | None:
    """What most gaps in sight come from, if it is the play of the dados; None where something else is, or
    where few show."""
    if job_outcome(fit).shown <= WORTH_A_WORD:
        return None
    shown: dict[GapRole, float] = {}
    for spread in fit.spreads.values():
        shown[spread.gap.role] = shown.get(spread.gap.role, 0.0) + spread.outcome.shown
    ledger = fit.project.sizes.ledger
    plays = {
        name: fit.project.sizes.of(name)
        for name, entry in ledger.items()
        if isinstance(entry.definition, Given) and read_name(name).what == "dado_play"
    }
    play = max(plays.values(), default=Fraction(0))
    if not play or max(shown, key=lambda role: shown[role]) is not GapRole.OWN_DADO:
        return None
    after = {part: _with_play(fit, plays, part) for part in LESS}
    least = min(LESS, key=lambda part: bench_minutes().of_all(after[part].spreads.values()))
    allows = OPEN_JOINT[fit.project.job.grade]
    return TooMuchPlay(allows, play, play * (1 - least), job_outcome(after[least]))


def _with_play(fit: Fit, plays: dict[str, Fraction], part: Fraction) -> Fit:
    inputs = {name: play * (1 - part) for name, play in plays.items()}
    return with_change(fit, Change(ChangeKind.PLAY, tuple(plays), 0.0, inputs=inputs))
