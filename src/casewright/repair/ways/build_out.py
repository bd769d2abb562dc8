"""A part that was cut too narrow, built out with a strip glued along its edge.

Only width is built out: long grain glued to long grain holds, a strip on an end does not (common
practice, no source). The strip must be wide enough to saw and clamp, so where less than that is
missing the part is first ripped back to make room for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from ...casework.parts.part import Part, Role
from ...casework.project import Project
from ...sizes.affine import Affine
from ..facts import AsCut, Facts, is_of_boards
from .way import Action, GlueOn

NARROWEST = Fraction(3, 4)
WIDEST = Fraction(3)
"""Inches a strip may be wide (common practice, no source)."""

ROLES = frozenset(
    {
        Role.ADJUSTABLE_SHELF,
        Role.FIXED_SHELF,
        Role.DIVIDER,
        Role.BOTTOM,
        Role.TOP,
        Role.LEFT_SIDE,
        Role.RIGHT_SIDE,
        Role.TOE_KICK,
    }
)
"""Backs are too thin to glue on edge; stretchers and strips hold a cabinet to the wall and its
corners together, and are not pieced (common practice, no source)."""


def build_outs(
    project: Project, facts: Facts
) -> Iterator[tuple[tuple[Part, ...], tuple[Action, ...], frozenset[str]]]:
    """The strips to saw, what to do with them, and the parts they save: all narrow parts at once.

    A strip is a part of its own; its mark is the part's mark with a `+`.
    """
    narrow = {mark: cut for mark, cut in facts.spoiled.items() if _can(project, mark, cut)}
    if not narrow:
        return
    built = [_built(project, project.parts[mark], cut) for mark, cut in narrow.items()]
    yield tuple(strip for strip, _ in built), tuple(glue for _, glue in built), frozenset(narrow)


def _can(project: Project, mark: str, cut: AsCut) -> bool:
    part = project.parts[mark]
    length, width, _ = project.dimensions(part)
    return (
        part.role in ROLES
        and not is_of_boards(project, part)
        and not cut.worked
        and cut.length >= length
        and Fraction(0) < width - cut.width <= WIDEST
        and cut.width > 2 * NARROWEST
    )


def _built(project: Project, part: Part, cut: AsCut) -> tuple[Part, GlueOn]:
    length, width, _ = project.dimensions(part)
    wide = max(NARROWEST, width - cut.width)
    mark = f"{part.mark}+"
    strip = replace(
        part, mark=mark, length=Affine(length), width=Affine(wide), features=(), match=None, edges=()
    )
    return strip, GlueOn(part.mark, width - wide, wide, mark)
