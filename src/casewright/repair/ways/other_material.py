"""Another material for parts that nothing is fitted to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from ...casework.directions import Way
from ...casework.hidden_sides import is_hidden
from ...casework.parts.part import Part, Role
from ...casework.project import Project
from ...lengths.in_a_sentence import listed
from ..as_cut_in_fit import gaps_spoiled
from ..facts import made_of, thickness_from
from ..harm import HarmKind
from ..housings import Housing, housings, is_housed
from ..price import Seen
from .cure import Lack, PartCure, one_part
from .way import KeepAsCut, Mend, WayKind

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
caliper reads (common practice, no source). A fixed shelf that is butted between its uprights is one more."""

STRETCHERS = frozenset({Role.FRONT_STRETCHER, Role.BACK_STRETCHER})
"""Butted and screwed: one that was cut from another sheet by mistake is used, but none is meant to be."""


THINNER = Fraction(1, 16)
"""By how much a loose part may be thicker or thinner than planned (inches; common practice, no source)."""

KICK_APART = Fraction(1, 16)
"""How far the nominal thickness of a toe kick may be from the planned one: 3/4 in for 23/32 in, and the
other way about. Only its front is seen, and its ends butt (common practice, no source)."""

SNUG = Fraction(5, 128)
"""How much a panel may play in a channel that it is glued into: beyond a 32nd and what a caliper is misread
by, the glue bridges no gap (inches; common practice, no source)."""

MOST_PACKED = Fraction(1, 8)
"""How much play veneer and shims still take up (inches; common practice, no source)."""

VENEER_MINUTES = Fraction(15)


def is_loose(project: Project, part: Part) -> bool:
    """Whether another sheet of its thickness serves for the part."""
    return part.role in LOOSE or (part.role is Role.FIXED_SHELF and not is_housed(project, part))


def used_of_other_material(project: Project, lack: Lack) -> Iterator[PartCure]:
    """A part that is right but for the sheet it was cut from, where that serves as well."""
    part, cut = lack.part, lack.cut
    if any(harm.fault is not HarmKind.MATERIAL for harm in cut.harms) or lack.short or lack.narrow:
        return
    own, other = project.job.sheets[part.material], project.job.sheets[made_of(part, cut)]
    thick = thickness_of_piece(project, lack)
    loose = is_loose(project, part) or part.role in STRETCHERS
    play = least_play(project, part, thick)
    measured = any(harm.by for harm in cut.harms)
    near = abs(thick - project.dimensions(part)[2]) if measured else abs(own.nominal - other.nominal)
    if loose and near <= (THINNER if measured else apart(part)):
        why = f"Nothing is fitted to its thickness, and {other.name} does its work as well."
    elif not loose and part.role is not Role.BACK and SNUG < play <= MOST_PACKED:
        yield one_part(WayKind.PACK_IN, lack, (_packed_beside(project, part),), Seen.HIDDEN_LINE)
        return
    elif not loose and play >= 0 and not gaps_spoiled(project, part.case, {part.thickness.name: thick}):
        why = f"At {project.printed(thick)} thick its joints still fit."
    else:
        return
    same = own.key == other.key or is_hidden(project, part, Way.FRONT)
    yield one_part(WayKind.USE, lack, (KeepAsCut(part.mark, why),), Seen.NOTHING if same else Seen.IN_SIGHT)


def _holding(project: Project, part: Part) -> tuple[Housing, ...]:
    axes = (part.lie.length, part.lie.width)
    return tuple(one for axis in axes for one in housings(project, part, axis))


def least_play(project: Project, part: Part, thick: Fraction) -> Fraction:
    """By how much the narrowest channel that holds the part is wider than this (inches; less than zero: it
    does not go in); zero for a part that no channel holds."""
    wide = (project.sizes.of(one.channel.width) for one in _holding(project, part))
    return min(wide, default=thick) - thick


def _packed_beside(project: Project, part: Part) -> Mend:
    names = listed([f"{one.channel.name} of {one.holder.mark}" for one in _holding(project, part)])
    steps = (
        f"{part.mark} would rattle in {names}: glue veneer or thin shims along the face of it that is seen "
        "less, until it is snug there.",
    )
    return Mend(part.mark, VENEER_MINUTES, steps)


def thickness_of_piece(project: Project, lack: Lack) -> Fraction:
    """How thick the piece is: as measured, else as the sheet that it was cut from."""
    return thickness_from(project, lack.part, next(harm for harm in lack.cut.harms))


def apart(part: Part) -> Fraction:
    """How far another sheet's nominal thickness may be from the planned one (inches)."""
    return KICK_APART if part.role is Role.TOE_KICK else Fraction(0)


def material_swaps(project: Project, parts: Sequence[Part]) -> Iterator[tuple[Project, tuple[Part, ...]]]:
    """Projects in which all of `parts` are made from one other material; none if one of them may not be.

    Yields the project, with the other sheet's thickness given, and the changed parts.
    """
    loose = [part for part in parts if is_loose(project, part)]
    if not loose or len(loose) < len(parts):
        return
    sheets = {key: sheet for key, sheet in project.job.sheets.items() if sheet.boards is None}
    for key, sheet in sheets.items():
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
