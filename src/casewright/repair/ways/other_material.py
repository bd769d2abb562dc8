"""Another material for a part that nothing is fitted to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...casework.parts.part import Part, Role
from ...casework.project import Project

LOOSE = frozenset(
    {
        Role.ADJUSTABLE_SHELF,
        Role.TOE_KICK,
        Role.MOUNTING_STRIP,
        Role.PLINTH_FRONT,
        Role.PLINTH_BACK,
        Role.PLINTH_END,
    }
)
"""Roles that no dado or groove is set to: a sheet of the same name but another caliper reading
will do (common practice, no source)."""


def material_swaps(project: Project, parts: Sequence[Part]) -> Iterator[tuple[Project, tuple[Part, ...]]]:
    """Projects in which those of `parts` that may be are made of one other material.

    Yields the project, with the other sheet's thickness as a fact, and the changed parts.
    """
    loose = [part for part in parts if part.role in LOOSE]
    if not loose or len(loose) < len(parts):
        return
    for key, sheet in project.job.sheets.items():
        changed = tuple(
            replace(part, material=key)
            for part in loose
            if part.material != key and project.job.sheets[part.material].nominal == sheet.nominal
        )
        if len(changed) != len(loose):
            continue
        thickness = {part.thickness.name: sheet.thickness for part in changed}
        yield with_parts(project.given(thickness), changed), changed


def with_parts(project: Project, changed: Sequence[Part]) -> Project:
    """The project with some of its parts replaced by others of the same mark."""
    by_mark = {part.mark: part for part in changed}
    runs = tuple(
        replace(
            run,
            cases=tuple(
                replace(case, parts=tuple(by_mark.get(part.mark, part) for part in case.parts))
                for case in run.cases
            ),
        )
        for run in project.runs
    )
    return replace(project, runs=runs)
