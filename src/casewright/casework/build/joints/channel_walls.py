"""A panel between the walls of a groove: the back, or the panel of a door."""

from __future__ import annotations

from ...directions import Way
from ...parts.features.channel import Channel
from ..case_draft import CaseDraft, PartDraft
from ..meetings import Meeting, Surface


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
