"""The work on a part after it is cut to size, in a few words."""

from __future__ import annotations

from collections import Counter

from ..casework.parts.part import Part
from ..casework.project import Project
from ..workshop.edging_wording import edged_in_short

_FIRST = ("dado", "groove", "rabbet", "notch")
"""Kinds named before all others, in this order."""


def work_in_short(project: Project, part: Part) -> str:
    """`edged front to 24, 2 dados, groove, 18 holes`; empty for a part that is only cut to size."""
    kinds = Counter(feature.kind_words for feature in part.features if feature.cuts(part))
    words = [edged] if (edged := edged_in_short(project, part)) else []
    words += [
        kind if kinds[kind] == 1 else f"{kinds[kind]} {kind}{'es' if kind.endswith('ch') else 's'}"
        for kind in dict.fromkeys((*_FIRST, *kinds))
        if kinds[kind]
    ]
    holes = sum(len(feature.bores(part, project.sizes)) for feature in part.features)
    if holes:
        words.append(f"{holes} holes")
    return ", ".join(words)
