"""A panel's end let into another part: in a dado away from the edge, in a rabbet along it."""

from __future__ import annotations

from ....sizes.affine import NOTHING, Affine
from ...directions import Way, third_axis
from ...parts.features.channel import Channel, ChannelKind
from ...size_names import thickness_of
from ..case_draft import CaseDraft, PartDraft
from ..meetings import Meeting, Surface
from .channel_walls import near_and_far


def cut_dado(
    case: CaseDraft,
    into: PartDraft,
    face: Way,
    edge: Way,
    at: Affine,
    material: str,
    name: str,
) -> Channel:
    """A dado in `face` of `into`, its near wall `at` in from `edge`, for a panel of `material`.

    The cutter is set to the sheet, so the width is the measured thickness of the material plus the play.
    """
    width = thickness_of(material) + case.of("dado_play")
    with_grain = third_axis(face.axis, edge.axis) is into.lie.length
    kind = ChannelKind.GROOVE if with_grain else ChannelKind.DADO
    return case.channel(into, name, Channel(name, kind, face, edge, at, width, case.of("dado_depth")))


def cut_rabbet(case: CaseDraft, into: PartDraft, face: Way, edge: Way, material: str, name: str) -> Channel:
    """A rabbet along `edge` in `face` of `into`, as wide as `material` is thick."""
    width = thickness_of(material)
    return case.channel(
        into,
        name,
        Channel(name, ChannelKind.RABBET, face, edge, NOTHING, width, case.of("rabbet_depth")),
    )


def house(case: CaseDraft, panel: PartDraft, into: PartDraft, channel: Channel) -> None:
    """Seat the end of `panel` on the channel's floor and its faces between the channel's walls."""
    end = channel.face.opposite
    floor = Surface(into.mark, channel.face, channel.floor(into), f"floor of {into.mark} {channel.name}")
    seat = f"{panel.mark} on the floor of the {channel.kind.value} in {into.mark}"
    case.meet(seat, Meeting.SEATED, floor, panel.side(end))
    near, far = near_and_far(into, channel)
    if channel.kind is ChannelKind.RABBET:
        case.meet(
            f"{panel.mark} on the shoulder of {into.mark}",
            Meeting.SEATED,
            far,
            panel.side(far.looks.opposite),
        )
        case.flush(channel.edge, into, panel)
        return
    case.meet(
        f"{panel.mark} against the wall of the {channel.kind.value} in {into.mark}",
        Meeting.SEATED,
        near,
        panel.side(near.looks.opposite),
    )
    case.meet(
        f"{panel.mark} in the dado of {into.mark}",
        Meeting.SLIP,
        far,
        panel.side(far.looks.opposite),
        case.of("dado_play"),
    )
