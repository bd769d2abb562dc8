"""Channels that are still to be cut, cut to the part that goes into them: its sheet is of another thickness.

The limit and the minutes are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from ...casework.directions import Way
from ...casework.hidden_sides import is_hidden
from ...casework.parts.part import Part
from ...casework.project import Project
from ...lengths.in_a_sentence import listed
from ...workshop.changed_cuts import ChangedCut
from ..as_cut_in_fit import gaps_spoiled
from ..facts import Facts
from ..harm import HarmKind
from ..housings import Housing, housings
from ..price import Seen
from .cure import PartCure, lack_of, one_part
from .other_material import thickness_of_piece
from .way import Mend, WayKind

MOST = Fraction(1, 8)
"""By how much a channel may be wider or narrower than drawn: as far as one set of chippers goes (inches)."""

STACK_MINUTES = Fraction(5)
"""To set the dado stack to the part and cut a test piece."""


def channels_to_part(project: Project, facts: Facts, missing: Sequence[Part]) -> Iterator[PartCure]:
    """For each part that came of a sheet of another thickness, its channels cut to it."""
    for part in missing:
        cut = facts.spoiled.get(part.mark)
        if cut is None or not cut.harms or any(harm.fault is not HarmKind.MATERIAL for harm in cut.harms):
            continue
        lack = lack_of(project, part.mark, cut)
        by = thickness_of_piece(project, lack) - project.dimensions(part)[2]
        held = [one for axis in (part.lie.length, part.lie.width) for one in housings(project, part, axis)]
        if lack.short or lack.narrow or not held or not 0 < abs(by) <= MOST:
            continue
        if not all(_to_cut(facts, one) for one in held) or not _fits(project, part, held, by):
            continue
        names = listed([f"{one.channel.name} of {one.holder.mark}" for one in held])
        wide = project.printed(project.sizes.of(held[0].channel.width) + by)
        step = f"Set the dado stack to {part.mark} itself and cut {names} to it, {wide} wide."
        changes = tuple(ChangedCut(one.holder.mark, one.channel.name, step) for one in held)
        same = {harm.material for harm in cut.harms} <= {part.material}
        hidden = same or is_hidden(project, part, Way.FRONT)
        seen = Seen.NOTHING if hidden else Seen.IN_SIGHT
        mend = Mend(part.mark, STACK_MINUTES, (step,), changes=changes)
        yield one_part(WayKind.MATCH, lack, (mend,), seen)


def _to_cut(facts: Facts, one: Housing) -> bool:
    """Whether a channel is still to be cut."""
    mark = one.holder.mark
    cut = facts.finished.get(mark)
    if cut is None:
        return mark not in facts.spoiled
    so_far = cut.cut_so_far
    return so_far is not None and one.channel.name not in so_far


def _fits(project: Project, part: Part, held: Sequence[Housing], by: Fraction) -> bool:
    of = project.sizes.of
    sizes = {part.thickness.name: of(part.thickness) + by}
    sizes |= {one.channel.width.name: of(one.channel.width) + by for one in held}
    return not gaps_spoiled(project, part.case, sizes)
