"""What a part is let into: the channels whose floor its ends or edges reach."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..casework.directions import Axis, Way
from ..casework.parts.features.channel import Channel
from ..casework.parts.part import Part
from ..casework.project import Project


@dataclass(frozen=True)
class Housing:
    """A channel of the part `holder`, into which another part goes with the side `end`."""

    holder: Part
    channel: Channel
    end: Way


def housings(project: Project, part: Part, axis: Axis) -> tuple[Housing, ...]:
    """The channels that hold a part by its sides along an axis."""
    return tuple(dict.fromkeys(_housings(project, part, axis)))


def is_housed(project: Project, part: Part) -> bool:
    """Whether any side of the part goes into a channel."""
    return any(housings(project, part, axis) for axis in (part.lie.length, part.lie.width))


def _housings(project: Project, part: Part, axis: Axis) -> Iterator[Housing]:
    case = project.cases[part.case]
    holders = {one.mark: one for one in case.parts}
    for mate in case.mates:
        pair = (mate.first, mate.second)
        if mate.axis is not axis or part.mark not in (mate.first.part, mate.second.part):
            continue
        own, other = pair if mate.first.part == part.mark else pair[::-1]
        holder = holders[other.part]
        for channel in holder.channels:
            if channel.face.axis is axis and other.at == channel.floor(holder):
                yield Housing(holder, channel, own.looks)
