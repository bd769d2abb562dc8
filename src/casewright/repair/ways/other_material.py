"""Another material for parts that nothing is fitted to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

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
"""Roles that fit into no dado or groove: any sheet of the same nominal thickness serves, whatever the
caliper reads (common practice, no source)."""


KICK_APART = Fraction(1, 16)
"""How far the nominal thickness of a toe kick may be from the planned one: 3/4 in for 23/32 in, and the
other way about. Only its front is seen, and its ends butt (common practice, no source)."""


def apart(part: Part) -> Fraction:
    """How far another sheet's nominal thickness may be from the planned one (inches)."""
    return KICK_APART if part.role is Role.TOE_KICK else Fraction(0)


def material_swaps(project: Project, parts: Sequence[Part]) -> Iterator[tuple[Project, tuple[Part, ...]]]:
    """Projects in which all of `parts` are made from one other material; none if one of them may not be.

    Yields the project, with the other sheet's thickness given, and the changed parts.
    """
    loose = [part for part in parts if part.role in LOOSE]
    if not loose or len(loose) < len(parts):
        return
    for key, sheet in project.job.sheets.items():
        changed = tuple(
            replace(part, material=key)
            for part in loose
            if part.material != key
            and abs(project.job.sheets[part.material].nominal - sheet.nominal) <= apart(part)
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
