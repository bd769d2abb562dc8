"""Face frames that cannot be put on: past a neighbour, too narrow for their sides, below the floor, longer
than their boards."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from ...findings import Finding, Weight
from ...lengths.in_a_sentence import listed
from ...lengths.told_lengths import told_at_least
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..directions import Axis
from ..job import CaseSpec, Job, Run
from ..parts.part import Part, Role
from .frame_joint_checks import check_frame_joints
from .pin_checks import printed_length


def check_frames(job: Job, standing: Iterable[tuple[Run, Sequence[Case]]], sizes: Sizes) -> Iterator[Finding]:
    """Findings about the face frames of the cases of each run."""
    for run, cases in standing:
        by_mark = {case.mark: case for case in cases}
        for case in cases:
            if case.framed:
                under = [by_mark[mark] for mark in case.framed]
                yield from _past(job, run, case.spec, (case is cases[0], under[-1] is cases[-1]))
                yield from _narrow(job, case, sizes)
                yield from _between(job, under, sizes)
                yield from _low(job, run, case, sizes)
                yield from _long(job, case, under, sizes)
                yield from _of_the_case(job, case)
                yield from check_frame_joints(job, case, sizes)
            if case.spec.construction.has_frame and case.spec.edged.case:
                text = f"the face frame of {case.mark} covers the edging of its front."
                fix = f'Leave the edging out: set case = "none" under edged for {case.mark}.'
                yield Finding("edging-under-frame", f"cases.{case.mark}.edged", text, fix, Weight.WARN)


def _past(job: Job, run: Run, spec: CaseSpec, ends: tuple[bool, bool]) -> Iterator[Finding]:
    """Beside another case or a filler there is no room past the side, at an open end as much as its gap. A
    stile that is planed to the wall takes what room there is."""
    past = spec.construction.frame_past
    for side, at_end, filler, scribe in (
        ("left", ends[0], run.left, run.left_scribe),
        ("right", ends[1], run.right, run.right_scribe),
    ):
        room = run.gap if at_end and filler is None else Fraction(0)
        if past > room and not (at_end and scribe is not None):
            beside = "the end of its opening" if at_end and not filler else "a filler" if at_end else "a case"
            far, between = printed_length(job, past), printed_length(job, room)
            text = (
                f"the stiles of {spec.mark} stand {far} past its sides; "
                f"at its {side} is {beside}, with {between} between."
            )
            open_end = at_end and filler is None
            fix = "Make frame_past smaller." if open_end else "Set frame_past to 0 for this case."
            yield Finding("frame-past-its-room", f"cases.{spec.mark}.frame_past", text, fix)
            return


def _narrow(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    side, made = _first(case, Role.LEFT_SIDE), case.spec.construction
    covers = made.frame_stile - made.frame_past
    thick = sizes.of(side.thickness)
    if covers < thick:
        text = (
            f"the stiles of {case.mark} cover {printed_length(job, covers)} of its sides, "
            f"which are {printed_length(job, thick)} thick."
        )
        fix = f"Make frame_stile {told_at_least(thick - covers, job.mark)} wider, or more."
        yield Finding("stile-too-narrow", f"cases.{case.mark}.frame_stile", text, fix)


def _between(job: Job, under: Sequence[Case], sizes: Sizes) -> Iterator[Finding]:
    """A mullion over two sides that stand against each other covers both."""
    for one, other in pairwise(under):
        sides = _first(one, Role.RIGHT_SIDE), _first(other, Role.LEFT_SIDE)
        thick = sum((sizes.of(side.thickness) for side in sides), Fraction(0))
        wide = under[0].spec.construction.frame_mullion
        if wide < thick:
            text = (
                f"the mullion over {one.mark} and {other.mark} is {printed_length(job, wide)} wide; the two "
                f"sides behind it are {printed_length(job, thick)} thick together."
            )
            fix = f"Make frame_mullion {told_at_least(thick, job.mark)} or more."
            yield Finding("mullion-too-narrow", f"cases.{under[0].mark}.frame_mullion", text, fix)
            return


def _long(job: Job, case: Case, under: Sequence[Case], sizes: Sizes) -> Iterator[Finding]:
    """A frame over several cases whose rails no board that is sold gives, and which cases could share one."""
    boards = job.sheets[case.spec.materials.frame]
    longest = (
        max(boards.sheet_length, *(other.length for other in boards.others), Fraction(0)) - 2 * boards.trim
    )
    rail = sizes.of(_first(case, Role.RAIL).length)
    if len(under) < 2 or rail <= longest:
        return
    more = rail - sum((sizes.of(one.outside) for one in under), Fraction(0))
    groups: list[list[Case]] = []
    for one in under:
        held = sum((sizes.of(other.outside) for other in groups[-1]), Fraction(0)) if groups else longest
        if held + sizes.of(one.outside) + more <= longest:
            groups[-1].append(one)
        else:
            groups.append([one])
    text = (
        f"the rails of the frame over {listed(one.mark for one in under)} are {printed_length(job, rail)} "
        f"long; {boards.name} gives {printed_length(job, longest)}."
    )
    begins = [some[0].mark for some in groups[1:]]
    fix = f"Begin a new frame at {listed(begins)}: leave frame_with_left out there. Or enter longer boards."
    yield Finding("frame-too-long", f"cases.{begins[0]}.frame_with_left", text, fix)


def _of_the_case(job: Job, case: Case) -> Iterator[Finding]:
    if case.spec.materials.frame == case.spec.materials.case:
        name = job.sheets[case.spec.materials.frame].name
        text = f"the face frame of {case.mark} is made of {name}, as the case is."
        fix = "Set frame under made_of to the boards that it is made of."
        yield Finding("frame-of-the-case", f"cases.{case.mark}.made_of.frame", text, fix, Weight.WARN)


def _low(job: Job, run: Run, case: Case, sizes: Sizes) -> Iterator[Finding]:
    stile, side = _first(case, Role.STILE), _first(case, Role.LEFT_SIDE)
    corners = case.placement.corners
    foot = corners[stile.mark, Axis.Z] - corners[side.mark, Axis.Z] + case.foot
    above = run.lift + sizes.of(foot)
    if above < 0:
        text = f"the face frame of {case.mark} would reach {printed_length(job, -above)} below the floor."
        fix = "Make frame_rail narrower, or raise the bottom: give the case a toe kick, or set bottom_up."
        yield Finding("frame-below-floor", f"cases.{case.mark}.frame_rail", text, fix)


def _first(case: Case, role: Role) -> Part:
    return next(part for part in case.parts if part.role is role)
