"""A drawer box made a little smaller than drawn, because parts of it came out small.

Its front hides it, so that nobody sees whether it is shorter, lower or narrower: the other parts that are as
long in that direction come down by as much. A narrower box has its slides packed out. Common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ...casework.build.drawers.placed_drawers import DrawerParts
from ...casework.directions import Axis
from ...casework.parts.part import Part
from ...casework.project import Project
from ...shop.slides import SlideKind
from ..facts import AsCut, Facts
from .cure import PartCure
from .way import Action, KeepAsCut, Mend, TakeSize, TrimTo, WayKind

SMALLER = Fraction(1, 4)
"""How much smaller than drawn a drawer box may be, in any direction (inches)."""

PACK_SLIDES_MINUTES = Fraction(10)


@dataclass(frozen=True)
class _Lacking:
    """What the parts of a box lack along one axis: `spans` are those that reach all along it, `by` is how
    much they come down, `marks` those of them that are spoiled."""

    axis: Axis
    spans: tuple[Part, ...]
    by: Fraction
    marks: tuple[str, ...]


def smaller_boxes(project: Project, facts: Facts, missing: Sequence[Part]) -> Iterator[PartCure]:
    """For each drawer box some of whose parts are too small in one direction alone, the smaller box."""
    spoiled = {part.mark for part in missing if part.mark in facts.spoiled}
    for case in dict.fromkeys(part.case for part in missing):
        for drawer in project.cases[case].drawers:
            if drawer.on is None or drawer.on.box is None or not spoiled & {*drawer.on.box.marks}:
                continue
            found = _lacking(project, facts, drawer.on.box, spoiled)
            if found is None:
                continue
            if found.axis is Axis.X and drawer.on.slide.kind is not SlideKind.SIDE:
                continue  # nothing can be packed out beside slides that are under the box
            yield _smaller(project, facts, found)


def _spanning(project: Project, box: DrawerParts) -> Mapping[Axis, tuple[Part, ...]]:
    """The parts of a box that are as long as it is in each direction, or that follow it there."""
    parts = project.parts
    ends, sides = (parts[box.front], parts[box.back]), (parts[box.left], parts[box.right])
    bottom = parts[box.bottom]
    return {Axis.X: (*ends, bottom), Axis.Y: (*sides, bottom), Axis.Z: (*sides, *ends)}


def _lacking(project: Project, facts: Facts, box: DrawerParts, spoiled: set[str]) -> _Lacking | None:
    """In which direction the box is smaller, and by how much; None where it is not by that alone, or where a
    part that would come down has its joints cut."""
    marks = tuple(mark for mark in box.marks if mark in spoiled)
    found: list[_Lacking] = []
    for axis, spans in _spanning(project, box).items():
        by = [_short(project, project.parts[mark], facts.spoiled[mark], axis) for mark in marks]
        known = [one for one in by if one is not None]
        if len(known) < len(by) or not {*marks} <= {part.mark for part in spans}:
            continue
        if marks == (box.bottom,):
            continue  # it alone makes no box smaller
        cut = [facts.spoiled.get(part.mark) or facts.finished.get(part.mark) for part in spans]
        if 0 < max(known) <= SMALLER and not any(one.worked for one in cut if one):
            found.append(_Lacking(axis, spans, max(known), marks))
    return found[0] if len(found) == 1 else None


def _short(project: Project, part: Part, cut: AsCut, axis: Axis) -> Fraction | None:
    """By how much a part is too small along the axis; None where anything else is wrong with it."""
    length, width, _ = project.dimensions(part)
    short = {part.lie.length: length - cut.length, part.lie.width: width - cut.width}
    by = short.pop(axis, None)
    return by if by is not None and by > 0 and not cut.harms and not any(short.values()) else None


def _smaller(project: Project, facts: Facts, lacking: _Lacking) -> PartCure:
    actions: list[Action] = []
    for part in lacking.spans:
        length, width, _ = project.dimensions(part)
        along = part.lie.length is lacking.axis
        form, planned = (part.length, length) if along else (part.width, width)
        new = planned - lacking.by
        cut = facts.spoiled.get(part.mark) or facts.finished.get(part.mark)
        if cut and (cut.length if along else cut.width) == new:
            actions.append(KeepAsCut(part.mark, "Its front hides that the box is smaller."))
        else:  # one that is still to be cut too: the sheets stay planned for the size drawn
            actions.append(TrimTo(part.mark, *((new, width) if along else (length, new))))
        actions.append(TakeSize(part.mark, ((form.name, new),)))
    if lacking.axis is Axis.X:
        much = project.printed(lacking.by / 2)
        box = lacking.spans[0].mark
        steps = (f"Pack out each of the slides of the box of {box} by {much}, so that it does not play.",)
        actions.append(Mend(box, PACK_SLIDES_MINUTES, steps))
    marks = frozenset(lacking.marks)
    touches = marks | {part.mark for part in lacking.spans}
    return PartCure(WayKind.SMALLER_BOX, marks, tuple(actions), touches=touches)
