"""Parts that are used at the size they came out with, which every list, label and page says from then on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from ..casework.project import Project, draw_up, is_used_as_cut
from ..casework.size_names import owner_of
from .facts import Facts
from .ways.way import Action, TakeSize


def with_sizes_taken(project: Project, actions: Iterable[Action]) -> Project:
    """The job in which the parts that a way uses as they were cut have that size."""
    return project.used_as_cut(
        {name: value for one in actions if isinstance(one, TakeSize) for name, value in one.sizes}
    )


def as_drawn_where_gone(project: Project, facts: Facts) -> Project:
    """The job in which the parts that were used as they were cut, and are spoiled or lost since, are to be
    made as drawn again."""
    planned = facts.planned
    gone = {
        mark
        for mark in project.parts
        if is_used_as_cut(project.job, mark) and mark not in facts.finished and mark not in planned
    }
    if not gone:
        return project
    kept = {name: size for name, size in project.job.as_cut.items() if owner_of(name) not in gone}
    return draw_up(replace(project.job, as_cut=kept))


def moves_what_is_used(before: Project, after: Project) -> bool:
    """Whether a changed job draws a part otherwise that is used at the size it came out with: whether it
    would still serve nobody has asked."""
    return any(
        before.planned_size(part) != after.planned_size(after.parts[part.mark])
        for part in before
        if is_used_as_cut(before.job, part.mark) and part.mark in after.parts
    )
