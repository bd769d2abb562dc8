"""Fronts over which the grain runs on: those of one bay that are cut from one piece, in the order they hang.

A door hangs with its grain upright, a drawer front with it level or, if the maker wants it so, upright too.
Fronts one above another come of one piece one after another along the grain where it is upright, side by side
where it is level; a pair of doors side by side. Where a level drawer front meets a door nothing runs on.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import dataclass
from itertools import groupby

from .build.case import Case
from .build.fronts.placed_fronts import BayFronts
from .directions import Axis
from .front_choices import FrontGrain
from .parts.part import Part
from .project import Project


@dataclass(frozen=True)
class FrontsInOnePiece:
    """The marks of fronts from the top down, or from the left where they hang `side_by_side`. They come one
    after another along the grain if `lengthwise`, else side by side."""

    marks: tuple[str, ...]
    side_by_side: bool
    lengthwise: bool


def fronts_in_one_piece(project: Project) -> tuple[FrontsInOnePiece, ...]:
    """What the fronts of each bay come of together, where the maker wants the grain to run on over them. Only
    slabs of one sheet good with grain that are equally long, or wide, along the gap between them."""
    return tuple(
        found
        for case in project.cases.values()
        if case.spec.construction.front_grain is FrontGrain.RUNS_ON
        for bay in case.fronts
        for found in _in_bay(project, case, bay)
    )


def _in_bay(project: Project, case: Case, bay: BayFronts) -> Iterator[FrontsInOnePiece]:
    for front in bay.fronts:
        if len(front.leaves) > 1:
            yield from _alike(project, front.leaves, Axis.X)
    stacked = [front.leaves[0] if len(front.leaves) == 1 else "" for front in reversed(bay.fronts)]
    yield from _alike(project, tuple(stacked), Axis.Z)


def _alike(project: Project, marks: tuple[str, ...], axis: Axis) -> Iterator[FrontsInOnePiece]:
    """What neighbours along an axis, by their marks, have in one piece."""

    def kind(mark: str) -> Hashable:
        part = project.parts.get(mark)
        return None if part is None else _kind(project, part, axis)

    for same, group in groupby(marks, kind):
        found = tuple(group)
        if same is not None and len(found) > 1:
            lengthwise = project.parts[found[0]].lie.length is axis
            yield FrontsInOnePiece(found, axis is Axis.X, lengthwise)


def _kind(project: Project, part: Part, axis: Axis) -> Hashable:
    """What must be the same in fronts that come of one piece; None for one that is cut by itself."""
    good = project.job.sheets[part.material]
    if good.boards is not None or project.may_turn(part):
        return None
    length, width = project.planned_size(part)
    return part.material, part.lie, width if part.lie.length is axis else length
