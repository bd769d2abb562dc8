"""Runs that do not fit their wall: past its end, or in the room of another run."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from ...findings import Finding
from ...lengths.in_a_sentence import listed
from ...lengths.told_lengths import told_at_least
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..job import Job, Run
from .pin_checks import printed_length


@dataclass(frozen=True, slots=True)
class CaseOnWall:
    """A case as it stands: its stretch along the wall and its stretch above the floor, in inches."""

    mark: str
    left: Fraction
    right: Fraction
    foot: Fraction
    top: Fraction

    def shares_room(self, other: CaseOnWall) -> bool:
        beside = self.right <= other.left or other.right <= self.left
        above = self.top <= other.foot or other.top <= self.foot
        return not beside and not above


def check_wall_lengths(job: Job) -> Iterator[Finding]:
    """A finding for each run that reaches past the end of its wall, where the wall's length is given."""
    walls = {run.wall: run.wall_length for run in job.runs if run.wall_length is not None}
    for run in job.runs:
        long = walls.get(run.wall)
        end = run.along + run.opening
        if long is None or end <= long:
            continue
        if run.opening > long:
            text = f"the opening is {printed_length(job, run.opening)} wide"
            fix = "Correct the opening, or the length of the wall."
        else:
            text = f"the opening ends {printed_length(job, end)} along the wall"
            fix = "Make along smaller, or correct the opening."
        wall = f"{run.wall} is only {printed_length(job, long)} long"
        yield Finding("beyond-the-wall", f"runs.{run.name}.opening", f"{text}; {wall}.", fix)


def check_shared_room(
    job: Job, runs: Iterable[tuple[Run, Sequence[Case]]], sizes: Sizes
) -> tuple[Finding, ...]:
    """One finding for each two runs whose cases would stand in one another."""
    standing = [(run, [_standing(run, case, sizes) for case in cases]) for run, cases in runs]
    found = []
    for (one, ours), (other, theirs) in combinations(standing, 2):
        if one.wall != other.wall:
            continue
        pairs = [(a, b) for a in ours for b in theirs if a.shares_room(b)]
        if not pairs:
            continue
        if one.lift == other.lift:
            found.append(_side_by_side(job, one, other, pairs))
        elif one.lift > other.lift:
            found.append(_one_above(job, one, pairs))
        else:
            found.append(_one_above(job, other, [(b, a) for a, b in pairs]))
    return tuple(found)


def _standing(run: Run, case: Case, sizes: Sizes) -> CaseOnWall:
    left = run.along + sizes.of(case.x)
    return CaseOnWall(case.mark, left, left + sizes.of(case.outside), run.lift, run.top_of(case.spec))


def _one_above(job: Job, upper: Run, pairs: Sequence[tuple[CaseOnWall, CaseOnWall]]) -> Finding:
    reach = max(below.top for _, below in pairs)
    hang = listed(dict.fromkeys(above.mark for above, _ in pairs))
    stand = listed(dict.fromkeys(below.mark for _, below in pairs))
    text = (
        f"{hang} would hang at {printed_length(job, upper.lift)}, "
        f"but {stand} reach{'' if ' and ' in stand else 'es'} up to {printed_length(job, reach)}."
    )
    fix = f"Raise lift to {told_at_least(reach, job.mark)} or more."
    return Finding("runs-share-room", f"runs.{upper.name}.lift", text, fix)


def _side_by_side(job: Job, one: Run, other: Run, pairs: Sequence[tuple[CaseOnWall, CaseOnWall]]) -> Finding:
    first, second = sorted((one, other), key=lambda run: run.along)
    end = first.along + first.opening
    text = (
        f"{listed(dict.fromkeys(a.mark for a, _ in pairs))} of {one.name} and "
        f"{listed(dict.fromkeys(b.mark for _, b in pairs))} of "
        f"{other.name} would stand in the same place: {first.name} ends {printed_length(job, end)} along "
        f"{one.wall}, and {second.name} begins at {printed_length(job, second.along)}."
    )
    fix = f"Set along of {second.name} to {told_at_least(end, job.mark)} or more, or give it another wall."
    return Finding("runs-share-room", f"runs.{second.name}.along", text, fix)
