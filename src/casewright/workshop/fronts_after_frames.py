"""Doors behind a face frame are cut once the frame is on: its openings are then what they hang in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from ..casework.parts.part import FRONTS
from ..casework.project import Project
from .assembly.joining import frame_key
from .operations import Operation, OperationKind


def fronts_after_frames(project: Project, operations: Iterable[Operation]) -> Iterator[Operation]:
    """The operations, a cut that yields only fronts of cases under a frame waiting for that frame; except
    what a frame itself waits for, as where both are cut from one strip."""
    every = {one.key: one for one in operations}
    owner = {mark: frame_key(case.mark) for case in project.cases.values() for mark in case.framed}
    before = _all_before(every, {key for key in owner.values() if key in every})
    for one in every.values():
        frames = _frames_of(project, one, owner)
        late = one.key not in before and one.kind is not OperationKind.CARRY and not one.kind.mills_boards
        if frames and late and one.kind.cuts_up_a_sheet:
            one = replace(one, after=(*one.after, *(key for key in frames if key in every)))
        yield one


def _frames_of(project: Project, cut: Operation, owner: dict[str, str]) -> tuple[str, ...]:
    """The steps that put on the frames before all parts of a cut; none where one of them is no such front."""
    parts = [project.parts[mark] for mark in cut.parts if mark in project.parts]
    if not parts or any(part.role not in FRONTS or part.case not in owner for part in parts):
        return ()
    return tuple(dict.fromkeys(owner[part.case] for part in parts))


def _all_before(every: dict[str, Operation], keys: set[str]) -> set[str]:
    """Everything that one of these operations waits for, directly or not."""
    found: set[str] = set()
    waiting = list(keys)
    while waiting:
        for key in every[waiting.pop()].after:
            if key in every and key not in found:
                found.add(key)
                waiting.append(key)
    return found
