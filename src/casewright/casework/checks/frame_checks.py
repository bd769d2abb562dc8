"""Face frames that cannot be put on: past a neighbour, too narrow for their sides, below the floor."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from ...findings import Finding, Weight
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..directions import Axis
from ..job import CaseSpec, FaceFrame, Job, Run
from ..parts.part import Part, Role
from .pin_checks import printed_length


def check_frames(job: Job, standing: Iterable[tuple[Run, Sequence[Case]]], sizes: Sizes) -> Iterator[Finding]:
    """Findings about the face frames of the cases of each run."""
    for run, cases in standing:
        for place, case in enumerate(cases):
            made = case.spec.construction
            if made.frame is FaceFrame.NONE:
                continue
            ends = (place == 0, place == len(cases) - 1)
            yield from _past(job, run, case.spec, ends)
            yield from _narrow(job, case, sizes)
            yield from _low(job, run, case, sizes)
            if case.spec.materials.frame == case.spec.materials.case:
                name = job.sheets[case.spec.materials.frame].name
                text = f"the face frame of {case.mark} is made of {name}, as the case is."
                fix = "Set frame under made_of to the boards that it is made of."
                yield Finding("frame-of-the-case", f"cases.{case.mark}.made_of.frame", text, fix, Weight.WARN)
            if case.spec.edged.case:
                text = f"the face frame of {case.mark} covers the edging of its front."
                fix = f'Leave the edging out: set case = "none" under edged for {case.mark}.'
                yield Finding("edging-under-frame", f"cases.{case.mark}.edged", text, fix, Weight.WARN)


def _past(job: Job, run: Run, spec: CaseSpec, ends: tuple[bool, bool]) -> Iterator[Finding]:
    """Beside another case or a filler there is no room past the side, at an open end as much as its gap."""
    past = spec.construction.frame_past
    for side, at_end, filler in (("left", ends[0], run.left), ("right", ends[1], run.right)):
        room = run.gap if at_end and filler is None else Fraction(0)
        if past > room:
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
    side, stile = _first(case, Role.LEFT_SIDE), _first(case, Role.STILE)
    covers = sizes.of(stile.size(Axis.X)) - case.spec.construction.frame_past
    thick = sizes.of(side.thickness)
    if covers < thick:
        text = (
            f"the stiles of {case.mark} cover {printed_length(job, covers)} of its sides, "
            f"which are {printed_length(job, thick)} thick."
        )
        fix = f"Make frame_stile {printed_length(job, thick - covers)} wider, or more."
        yield Finding("stile-too-narrow", f"cases.{case.mark}.frame_stile", text, fix)


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
