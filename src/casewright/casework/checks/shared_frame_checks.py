"""Face frames over several cases, and stiles at walls, that cannot be: said before anything is drawn up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from ...findings import Finding
from ...lengths.in_a_sentence import listed
from ..job import CaseSpec, FaceFrame, Job, Run

_LIKE = ("toe", "toe_height", "bottom_up", "frame")
"""What the cases under one frame have in common besides what the frame itself is made to: its lower rail is
level with all their bottoms."""


def check_shared_frames(job: Job) -> Iterator[Finding]:
    """Findings about the frames that cases share, and about end stiles that are to reach a wall."""
    for run in job.runs:
        yield from _marks(run)
        yield from _scribes(run)
        specs = {spec.mark: spec for spec in run.cases}
        for marks in run.shared_frames:
            if all(mark in specs for mark in marks):
                yield from _unlike(run, [specs[mark] for mark in marks])


def _marks(run: Run) -> Iterator[Finding]:
    """Each frame is over two cases at least, next to one another, and no case has two frames."""
    place = f"runs.{run.name}.shared_frames"
    standing = [spec.mark for spec in run.cases]
    for mark, times in Counter(mark for marks in run.shared_frames for mark in marks).items():
        if mark not in standing:
            fix = f"Use the marks of its cases: {listed(standing)}."
            yield Finding("frame-of-no-case", place, f"{run.name} has no case {mark}.", fix)
        elif times > 1:
            text = f"{mark} is named {times} times; a case has one face frame."
            yield Finding("two-frames", place, text, f"Name {mark} once.")
    for marks in run.shared_frames:
        if len(marks) < 2:
            text = f"{listed(marks) if marks else 'an empty list'} is no frame over several cases."
            fix = "Name two cases or more, or leave the list out: every other case has a frame of its own."
            yield Finding("frame-of-one", place, text, fix)
        elif set(marks) <= set(standing) and not _side_by_side(marks, standing):
            text = f"{listed(marks)} do not stand side by side in this order."
            fix = "Name neighbours from left to right."
            yield Finding("frame-of-apart", place, text, fix)


def _side_by_side(marks: tuple[str, ...], standing: list[str]) -> bool:
    first = standing.index(marks[0])
    return tuple(standing[first : first + len(marks)]) == marks


def _unlike(run: Run, specs: list[CaseSpec]) -> Iterator[Finding]:
    """The fronts under one frame are in one plane, their tops and bottoms level."""
    first = specs[0]
    for other in specs[1:]:
        unlike = [name for name in ("height", "depth") if getattr(first, name) != getattr(other, name)]
        unlike += [name.replace("_", " ") for name in _differing(first, other)]
        if first.materials.frame != other.materials.frame:
            unlike.append("frame material")
        if first.materials.case != other.materials.case:
            unlike.append("case material")
        if unlike:
            text = f"{first.mark} and {other.mark} share a face frame and differ in {listed(unlike)}."
            fix = "Make them alike in this, or give each a frame of its own."
            yield Finding("frame-over-unlike", f"runs.{run.name}.shared_frames", text, fix)
    if first.construction.frame is FaceFrame.NONE:
        text = f"{listed(spec.mark for spec in specs)} are to share a face frame, but have none."
        fix = 'Set frame under construction: frame = "pocket screws", for instance.'
        yield Finding("no-frame-to-share", f"runs.{run.name}.shared_frames", text, fix)


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
        elif run.cases[which].construction.frame is FaceFrame.NONE:
            text = f"{mark} has no face frame whose stile could be planed to the wall."
            yield Finding(
                "scribe-without-frame", place, text, f"Remove {side}_scribe, or give {mark} a frame."
            )
