"""Face frames over several cases, and stiles at walls, that cannot be: said before anything is drawn up."""

from __future__ import annotations

from collections.abc import Iterator

from ...findings import Finding
from ...lengths.in_a_sentence import listed
from ..job import CaseSpec, Job, Run

_LIKE = ("toe", "toe_height", "bottom_up", "frame")
"""What the cases under one frame have in common besides what the frame itself is made to: its lower rail is
level with all their bottoms."""


def check_shared_frames(job: Job) -> Iterator[Finding]:
    """Findings about the frames that cases share, and about end stiles that are to reach a wall."""
    for run in job.runs:
        if run.cases and run.cases[0].frame_with_left:
            mark = run.cases[0].mark
            none = f"but it is the first of {run.name}"
            text = f"{mark} is to share the face frame of the case at its left, {none}."
            yield Finding("no-case-at-left", _place(mark), text, "Leave frame_with_left out there.")
        for group in run.framed_together:
            if len(group) > 1:
                yield from _unlike(group)
        yield from _scribes(run)


def _place(mark: str) -> str:
    return f"cases.{mark}.frame_with_left"


def _unlike(group: tuple[CaseSpec, ...]) -> Iterator[Finding]:
    """The fronts under one frame are in one plane, their tops and bottoms level."""
    first, *others = group
    for other in others:
        unlike = [name for name in ("height", "depth") if getattr(first, name) != getattr(other, name)]
        unlike += [name.replace("_", " ") for name in _differing(first, other)]
        if first.materials.frame != other.materials.frame:
            unlike.append("frame material")
        if first.materials.case != other.materials.case:
            unlike.append("case material")
        if unlike:
            text = f"{first.mark} and {other.mark} share a face frame and differ in {listed(unlike)}."
            fix = "Make them alike in this, or leave frame_with_left out."
            yield Finding("frame-over-unlike", _place(other.mark), text, fix)
            return
    if not first.construction.has_frame:
        text = f"{listed(spec.mark for spec in group)} are to share a face frame, but have none."
        fix = 'Set frame under construction: frame = "pocket screws", for instance.'
        yield Finding("no-frame-to-share", _place(others[0].mark), text, fix)


def _differing(first: CaseSpec, other: CaseSpec) -> list[str]:
    one, two = vars(first.construction), vars(other.construction)
    return [name for name in one if (name in _LIKE or name.startswith("frame_")) and one[name] != two[name]]


def _scribes(run: Run) -> Iterator[Finding]:
    """A stile reaches a wall only where the end case has a frame and no filler stands between."""
    ends = (("left", run.left_scribe, run.left, 0), ("right", run.right_scribe, run.right, -1))
    for side, scribe, filler, which in ends:
        if scribe is None or not run.cases:
            continue
        place, mark = f"runs.{run.name}.{side}_scribe", run.cases[which].mark
        if filler:
            text = f"a filler stands between {mark} and the wall at its {side}: the stile does not reach it."
            fix = f"Remove {side}_scribe, or the filler; the filler has a scribe of its own."
            yield Finding("scribe-behind-filler", place, text, fix)
        elif not run.cases[which].construction.has_frame:
            text = f"{mark} has no face frame whose stile could be planed to the wall."
            yield Finding(
                "scribe-without-frame", place, text, f"Remove {side}_scribe, or give {mark} a frame."
            )
