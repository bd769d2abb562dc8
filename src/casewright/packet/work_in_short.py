"""The work on a part after it is cut to size, in a few words."""

from __future__ import annotations

from ..casework.parts.features import Channel, ChannelKind, Notch
from ..casework.parts.part import Part
from ..casework.project import Project


def work_in_short(project: Project, part: Part) -> str:
    """For example `2 dados, groove, notch, 18 holes`; empty for a part that is only cut to size."""
    words: list[str] = []
    for kind in ChannelKind:
        number = sum(isinstance(feature, Channel) and feature.kind is kind for feature in part.features)
        if number:
            words.append(kind.value if number == 1 else f"{number} {kind.value}s")
    if any(isinstance(feature, Notch) for feature in part.features):
        words.append("notch")
    holes = sum(len(feature.bores(part, project.sizes)) for feature in part.features)
    if holes:
        words.append(f"{holes} holes")
    return ", ".join(words)
