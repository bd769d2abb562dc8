"""What is done to a part after it is cut to size, in a few words."""

from __future__ import annotations

from ..casework.parts.features import Channel, ChannelKind, Notch, PinRow
from ..casework.parts.part import Part
from ..casework.project import Project


def work_in_short(project: Project, part: Part) -> str:
    """`2 dados, groove, notch, 18 holes`; nothing for a part that is only cut to size."""
    said: list[str] = []
    for kind in ChannelKind:
        number = sum(isinstance(feature, Channel) and feature.kind is kind for feature in part.features)
        if number:
            said.append(kind.value if number == 1 else f"{number} {kind.value}s")
    if any(isinstance(feature, Notch) for feature in part.features):
        said.append("notch")
    holes = sum(
        int(project.sizes.of(feature.number)) for feature in part.features if isinstance(feature, PinRow)
    )
    if holes:
        said.append(f"{holes} holes")
    return ", ".join(said)
