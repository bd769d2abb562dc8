"""The walls of a channel as surfaces, and a panel that lies between those of a groove."""

from __future__ import annotations

from ....sizes.affine import Affine
from ...directions import Way
from ...parts.features.channel import Channel
from ...parts.features.feature import EDGE_WORDS
from ..case_draft import CaseDraft, PartDraft
from ..meetings import Meeting, Surface


def near_and_far(part: PartDraft, channel: Channel) -> tuple[Surface, Surface]:
    """Both walls of a channel, first the one nearer to the edge that it is measured from."""
    walls, edge = channel.walls(part), channel.edge
    near, far = (walls.low, walls.high) if edge.sign < 0 else (walls.high, walls.low)

    def wall(side: Way, at: Affine) -> Surface:
        words = f"{EDGE_WORDS[side]} wall of {part.mark} {channel.name}"
        return Surface(part.mark, side.opposite, at, words)

    return wall(edge, near), wall(edge.opposite, far)


def between_groove_walls(case: CaseDraft, panel: PartDraft, part: PartDraft, groove: Channel) -> None:
    """The front face of a panel against the front wall of a groove, the play of the groove behind it."""
    walls = groove.walls(part)
    case.meet(
        f"{panel.mark} against the front wall of the groove in {part.mark}",
        Meeting.SEATED,
        Surface(part.mark, Way.BACK, walls.low, f"front groove wall of {part.mark}"),
        panel.side(Way.FRONT),
    )
    case.meet(
        f"{panel.mark} before the rear wall of the groove in {part.mark}",
        Meeting.SLIP,
        panel.side(Way.BACK),
        Surface(part.mark, Way.FRONT, walls.high, f"rear groove wall of {part.mark}"),
        case.of("groove_play"),
    )
