"""Which features are cut in the pieces there are once a way is carried out.

A piece that serves as another part brings its features with it, a part that is cut again has none, and a
feature that was cut in the wrong place is to be cut again once it is filled.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..casework.project import Project
from .facts import AsCut, Facts, made_as
from .piece_shape import TURNS, piece_shape
from .ways.way import CutAgain, Forgo, Mend, MillAgain, Option, ServeAs

NONE = frozenset[str]()


def cut_after(project: Project, facts: Facts, option: Option) -> dict[str, frozenset[str]]:
    """The names of the features that are cut in each piece that there is once the way is carried out, or that
    the way changes, by the mark of the part that it serves as then."""
    before = _cut_before(project, facts)
    found = dict(before)
    for one in option.actions:
        if isinstance(one, CutAgain | MillAgain):
            found[one.mark] = NONE
        elif isinstance(one, ServeAs):
            found[one.mark] = _brought_along(project, facts, before, one)
        elif isinstance(one, Mend):
            found[one.mark] = before.get(one.mark, NONE).difference(one.again)
        elif isinstance(one, Forgo):
            found.pop(one.mark, None)
    return found


def _cut_before(project: Project, facts: Facts) -> dict[str, frozenset[str]]:
    """The features that are cut so far in each piece, rightly or wrongly, by the mark of its part."""
    return {
        mark: _cut_in(project, mark, piece) for mark, piece in {**facts.spoiled, **facts.finished}.items()
    }


def _cut_in(project: Project, mark: str, piece: AsCut) -> frozenset[str]:
    """The features cut in one piece: those of the part that it was made as."""
    was = made_as(project, piece.harms) or project.parts[mark]
    return frozenset(feature.name for feature in piece.made_of_it(was))


def _brought_along(
    project: Project, facts: Facts, before: Mapping[str, frozenset[str]], one: ServeAs
) -> frozenset[str]:
    """The features of the part that are cut already in the piece that serves as it now, turned as it is."""
    if one.planned or one.turn not in TURNS:
        return NONE
    piece, part = project.parts[one.piece], project.parts[one.mark]
    spoiled = facts.spoiled.get(one.piece)
    half = project.job.mark.step / 2
    made = [
        shape.turned(TURNS[one.turn])
        for name in before.get(one.piece, NONE)
        if (shape := piece_shape(project, piece, spoiled.harms if spoiled else (), {name})) is not None
    ]
    return frozenset(
        feature.name
        for feature in part.features
        if (need := piece_shape(project, part, only={feature.name})) is not None
        and any(shape.alike(need, half) for shape in made)
    )
