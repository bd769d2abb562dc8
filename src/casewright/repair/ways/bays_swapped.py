"""The two bays of a case changed over: what was laid out from the wrong side is right, in another design."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from ...casework.job import Job
from ...casework.project import Project
from ..facts import AsCut, Facts
from ..piece_shape import piece_shape
from .free_sizes import draw_up_or_none
from .way import Action, KeepAsCut, SwapBays

WHY = "It is cut as it should be once the bays have changed over."


def bays_swapped(project: Project, facts: Facts) -> Iterator[tuple[Project, Facts, tuple[Action, ...]]]:
    """For each case whose spoiled parts are right with its two bays changed over: the job so, its facts with
    those parts finished, and what is done. Only where every part keeps its mark, so that no label lies."""
    for case in project.cases.values():
        bays = case.spec.bays
        spoiled = [part for part in case.parts if part.mark in facts.spoiled]
        if case.mark in facts.assembled or not spoiled or len(bays) != 2 or bays[0] == bays[1]:
            continue
        after = draw_up_or_none(_with_bays(project.job, case.mark))
        if after is None or after.parts.keys() != project.parts.keys():
            continue
        right = [
            part.mark for part in spoiled if _is_right(project, after, facts.spoiled[part.mark], part.mark)
        ]
        if right:
            good = {mark: replace(facts.spoiled[mark], harms=(), begun=frozenset()) for mark in right}
            left = {mark: cut for mark, cut in facts.spoiled.items() if mark not in good}
            now = replace(facts, spoiled=left, finished={**facts.finished, **good})
            kept = tuple(KeepAsCut(mark, WHY) for mark in right)
            yield after, now, (SwapBays(case.mark), *kept)


def _with_bays(job: Job, mark: str) -> Job:
    runs = tuple(
        replace(
            run,
            cases=tuple(
                replace(case, bays=case.bays[::-1]) if case.mark == mark else case for case in run.cases
            ),
        )
        for run in job.runs
    )
    return replace(job, runs=runs)


def _is_right(before: Project, after: Project, cut: AsCut, mark: str) -> bool:
    """Whether a piece, with what is cut into it so far, is begun as the part that the changed job has."""
    half: Fraction = before.job.mark.step / 2
    length, width, _ = after.dimensions(after.parts[mark])
    have = piece_shape(before, before.parts[mark], cut.harms, cut.cut_so_far)
    need = piece_shape(after, after.parts[mark])
    same = abs(cut.length - length) <= half and abs(cut.width - width) <= half
    return bool(cut.harms) and same and have is not None and need is not None and have.cut_towards(need, half)
