"""Doors and drawer fronts that their bay has no room for, or that would be in each other's way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from ...findings import Finding
from ...lengths.in_a_sentence import listed
from ...lengths.told_lengths import told_at_most
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..build.fronts.placed_fronts import BayFronts
from ..front_choices import FrontLie
from ..job import Job, Run
from ..parts.part import Role
from .each_once import each_once
from .hinge_checks import check_hinges
from .pin_checks import printed_length


def check_fronts(
    job: Job, standing: Iterable[tuple[Run, Sequence[Case]]], sizes: Sizes
) -> tuple[Finding, ...]:
    """Findings about the fronts of the cases of each run."""
    return each_once(_fronts(job, standing, sizes))


def _fronts(job: Job, standing: Iterable[tuple[Run, Sequence[Case]]], sizes: Sizes) -> Iterator[Finding]:
    for _, cases in standing:
        for case in cases:
            for bay in case.fronts:
                yield from _heights(job, case, bay, sizes)
            yield from _laps(job, case, sizes)
            yield from check_hinges(job, case, sizes)
        for one, other in pairwise(cases):
            yield from _between_cases(job, one, other, sizes)


def _heights(job: Job, case: Case, bay: BayFronts, sizes: Sizes) -> Iterator[Finding]:
    """Heights that leave nothing for another front, or that do not come to what the bay has."""
    place = f"cases.{case.mark}.bays[{bay.number - 1}].fronts"
    fronts = case.spec.bays[bay.number - 1].fronts
    room = printed_length(job, sizes.of(bay.height))
    given = {at: front.height for at, front in enumerate(fronts) if front.height is not None}
    where = f"bay {bay.number} of {case.mark}"
    if len(fronts) == 1:
        if given and given[0] != sizes.of(bay.height):
            text = (
                f"the only front of {where} is to be {printed_length(job, given[0])} high, "
                f"but takes all of the {room} there."
            )
            fix = "Leave out its height, or add another front above it."
            yield Finding("front-takes-all", f"{place}[0].height", text, fix)
        return
    gaps = (len(fronts) - 1) * sizes.of(bay.between)
    taken = sum(given.values(), gaps)
    sharing = [f"front {at}" for at in range(1, len(fronts) + 1) if at - 1 not in given]
    if given and sharing and taken >= sizes.of(bay.height):
        highest = max(given, key=lambda at: given[at])
        text = (
            f"the fronts with a height and the gaps take {printed_length(job, taken)} of the {room} of "
            f"{where}: nothing is left for {listed(sharing)}."
        )
        fix = (
            f"Make a front lower; the highest is front {highest + 1}, {printed_length(job, given[highest])}."
        )
        yield Finding("nothing-for-fronts", f"{place}[{highest}].height", text, fix)
    elif not sharing and taken != sizes.of(bay.height):
        filled = printed_length(job, taken)
        text = f"fronts and gaps of {where} add up to {filled}, but there is {room} for them."
        fix = "Leave out the height of one front so that it takes the rest."
        yield Finding("fronts-do-not-fill", place, text, fix)


def _laps(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    """Fronts of two bays that lap over the divider between them until they meet."""
    made = case.spec.construction
    if made.fronts is not FrontLie.PARTIAL_OVERLAY:
        return
    gap = printed_length(job, made.front_gap)
    stacked = any(len(bay.fronts) > 1 for bay in case.fronts)
    if stacked and made.has_frame and 2 * made.front_lap + made.front_gap > made.frame_rail:
        text = (
            f"the fronts of {case.mark} each lap {printed_length(job, made.front_lap)} over the rails "
            f"between them, which are {printed_length(job, made.frame_rail)} wide, so they would be less "
            f"than {gap} apart."
        )
        fix = _lap_fix(job, made.frame_rail, made.front_gap)
        yield Finding("fronts-meet", f"cases.{case.mark}.front_lap", text, fix)
    closed = {bay.number for bay in case.fronts}
    between = _between(case, sizes)
    for number, thick in enumerate(between, 1):
        if {number, number + 1} <= closed and 2 * made.front_lap + made.front_gap > thick:
            text = (
                f"the fronts of bays {number} and {number + 1} of {case.mark} each lap "
                f"{printed_length(job, made.front_lap)} over what is between them, which is "
                f"{printed_length(job, thick)} wide, so they would be less than {gap} apart."
            )
            yield Finding(
                "fronts-meet", f"cases.{case.mark}.front_lap", text, _lap_fix(job, thick, made.front_gap)
            )


def _between_cases(job: Job, one: Case, other: Case, sizes: Sizes) -> Iterator[Finding]:
    """Fronts of two neighbouring cases that lap past their sides until they meet."""
    gap = max(one.spec.construction.front_gap, other.spec.construction.front_gap)
    if not one.fronts or not other.fronts:
        return
    for case, at in ((one, -1), (other, 0)):
        made = case.spec.construction
        shared = other.spec.frame_with_left
        edge = made.frame_mullion / 2 if shared else _edges(case, sizes)[at]
        if made.fronts is FrontLie.PARTIAL_OVERLAY and made.front_lap > edge - gap / 2:
            text = (
                f"the fronts of {one.mark} and {other.mark} would be less than "
                f"{printed_length(job, gap)} apart: those of {case.mark} lap "
                f"{printed_length(job, made.front_lap)} over {'half a mullion' if shared else 'an edge'} "
                f"{printed_length(job, edge)} wide."
            )
            fix = f"Make front_lap {told_at_most(max(edge - gap / 2, Fraction(0)), job.mark)} or less."
            yield Finding("fronts-meet", f"cases.{case.mark}.front_lap", text, fix)
            return


def _lap_fix(job: Job, thick: Fraction, gap: Fraction) -> str:
    room = (thick - gap) / 2
    if room > 0:
        return f"Make front_lap {told_at_most(room, job.mark)} or less, or choose full overlay."
    return "Choose full overlay or inset fronts: the gap alone is wider than that."


def _between(case: Case, sizes: Sizes) -> list[Fraction]:
    """How wide what stands between neighbouring bays is: dividers, or the mullions over them."""
    if case.spec.construction.has_frame:
        return [case.spec.construction.frame_mullion] * (len(case.spec.bays) - 1)
    return [sizes.of(part.thickness) for part in case.parts if part.role is Role.DIVIDER]


def _edges(case: Case, sizes: Sizes) -> tuple[Fraction, Fraction]:
    """How wide the edges at the left and right of a case are: of its sides, or of the stiles over them."""
    made = case.spec.construction
    if made.has_frame:
        return made.frame_stile, made.frame_stile
    left, right = (part for part in case.parts if part.role in (Role.LEFT_SIDE, Role.RIGHT_SIDE))
    return sizes.of(left.thickness), sizes.of(right.thickness)
