"""Which features are cut in the pieces once a way is chosen: what was ticked of one part may hold of another.

A piece that serves as another part brings its features with it, and a feature that was cut in the wrong place
is to be cut again once it is filled.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from ..casework.project import Project
from .facts import Facts, made_as
from .harm import HarmKind
from .piece_shape import TURNS, piece_shape
from .ways.way import Mend, Option, ServeAs

CUT_AGAIN = frozenset({HarmKind.FACE, HarmKind.END, HarmKind.EDGE, HarmKind.PLACE, HarmKind.SMALL})
"""Faults whose cure ends with the feature being cut where, or as large as, it belongs."""


def cut_after(
    project: Project, facts: Facts, cut: Mapping[str, frozenset[str]], option: Option
) -> dict[str, frozenset[str]]:
    """The features that are cut in each part whose ticks the way changes, by its mark.

    `cut` are those ticked so far of every part, by its mark.
    """
    found: dict[str, frozenset[str]] = {}
    for one in option.actions:
        if isinstance(one, ServeAs):
            found[one.mark] = _brought_along(project, facts, cut, one)
        elif isinstance(one, Mend) and one.mark in facts.spoiled:
            # A turn names no feature; a feature that is filled or plugged is named where it is cut again.
            said = " ".join(one.steps)
            again = {
                harm.feature
                for harm in facts.spoiled[one.mark].harms
                if harm.fault in CUT_AGAIN and re.search(rf"\b{re.escape(harm.feature)}(?![\w-])", said)
            }
            if again:
                found[one.mark] = cut.get(one.mark, frozenset()) - again
    return found


def _brought_along(
    project: Project, facts: Facts, cut: Mapping[str, frozenset[str]], one: ServeAs
) -> frozenset[str]:
    """The features of the part that are cut already in the piece that serves as it now, turned as it is."""
    if one.planned or one.turn not in TURNS:
        return frozenset()
    piece, part = project.parts[one.piece], project.parts[one.mark]
    spoiled = facts.spoiled.get(one.piece)
    begun = spoiled.cut_so_far if spoiled else cut.get(one.piece, frozenset())
    was = (made_as(project, spoiled.harms) if spoiled else None) or piece
    has = frozenset(feature.name for feature in was.features) if begun is None else begun
    half = project.job.mark.step / 2
    made = [
        shape.turned(TURNS[one.turn])
        for name in has
        if (shape := piece_shape(project, piece, spoiled.harms if spoiled else (), {name})) is not None
    ]
    return frozenset(
        feature.name
        for feature in part.features
        if (need := piece_shape(project, part, only={feature.name})) is not None
        and any(shape.alike(need, half) for shape in made)
    )
