"""The rails of a face frame between the fronts of a bay: one behind each gap between two of them."""

from __future__ import annotations

from collections.abc import Sequence

from ....sizes.affine import Affine
from ...directions import Way
from ...parts.part import PartName, Role
from ..case_draft import PartDraft
from ..face_frame import FrameParts, frame_member
from ..joints.frame_ends import FrameEnd, join, reach
from ..meetings import Meeting
from .front_room import FrontRoom


def draw_cross_rails(frame: FrameParts, place: int, room: FrontRoom, heights: Sequence[Affine]) -> None:
    """Draw up the rails of the bay between the uprights `place` and `place` + 1 of the frame; `heights` are
    those of its fronts, from the bottom up."""
    case = frame.case
    left, right = frame.uprights[place : place + 2]
    up = room.covers[Way.DOWN] * -1
    for height in heights[:-1]:
        up = up + height - room.over_rail
        _cross_rail(frame, (left, right), room, up)
        up = up + case.of("frame_rail") - room.over_rail


def _cross_rail(
    frame: FrameParts, uprights: tuple[PartDraft, PartDraft], room: FrontRoom, up: Affine
) -> None:
    """A rail between two uprights, its lower edge `up` above the lower rail."""
    case, (left, right) = frame.case, uprights
    between = room.opening + reach(case, left.width) + reach(case, right.width)
    number = sum(part.role is Role.CROSS_RAIL for part in case.parts.values()) + 1
    rail = frame_member(case, Role.CROSS_RAIL, PartName.CROSS_RAIL, number, between, case.of("frame_rail"))
    label = f"cross-joint-{number}"
    for way, upright in ((Way.LEFT, left), (Way.RIGHT, right)):
        join(case, FrameEnd(rail, way, upright, Way.DOWN, up + frame.below(upright), label))
    words = f"{rail.mark} above {frame.lower.mark}"
    case.meet(words, Meeting.FLUSH, frame.lower.side(Way.UP), rail.side(Way.DOWN), up)
    case.flush(Way.FRONT, left, rail)
