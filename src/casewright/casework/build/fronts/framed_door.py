"""A door with a frame and a panel: stiles as high as the door, rails and panel in grooves all round."""

from __future__ import annotations

from collections.abc import Mapping

from ....sizes.affine import NOTHING, Affine
from ...directions import Axis, Way
from ...parts.features.channel import Channel, ChannelKind
from ...parts.features.feature import place_from
from ...parts.part import Hand, Lie, Role
from ...size_names import part_mark, thickness_of
from ..case_draft import CaseDraft, PartDraft
from ..joints.channel_walls import between_groove_walls
from ..meetings import Meeting, Surface
from .leaf import DOOR_LIE, FRONT_LIE, FrontLeaf

GROOVE = "groove-panel"
LETTERS = {Way.LEFT: "L", Way.RIGHT: "R", Way.DOWN: "B", Way.UP: "T"}
PANEL = "P"
"""What follows the door's own short name in the marks of its parts."""


def framed_door(case: CaseDraft, short: str, width: Affine, height: Affine, hand: Hand) -> FrontLeaf:
    """A door of two stiles, two rails with tongues at their ends, and a panel.

    Rails are as long as the door is wide, less both stiles, with a tongue more at each end (a cutter seller's
    page). The groove is as wide as the panel is thick, in the middle of the frame's edge.
    """
    stile, rail, tongue = (case.of(f"door_{name}") for name in ("stile", "rail", "tongue"))
    between = width - 2 * stile
    parts = {
        way: _member(case, short, way, Role.DOOR_STILE, DOOR_LIE, height, stile, hand)
        for way in (Way.LEFT, Way.RIGHT)
    }
    parts |= {
        way: _member(case, short, way, Role.DOOR_RAIL, FRONT_LIE, between + 2 * tongue, rail, Hand.NONE)
        for way in (Way.DOWN, Way.UP)
    }
    grooves = {way: _groove(case, part, way.opposite) for way, part in parts.items()}
    for way in (Way.DOWN, Way.UP):
        for end in (Way.LEFT, Way.RIGHT):
            _tongue(case, parts[way], end)
    _put_together(case, parts)
    play = case.of("panel_play")
    panel = case.part(
        f"{short}{PANEL}",
        Role.DOOR_PANEL,
        case.spec.materials.panel,
        DOOR_LIE,
        height - 2 * rail + 2 * tongue - play,
        between + 2 * tongue - play,
    )
    _in_grooves(case, panel, parts, grooves)
    mark = part_mark(case.spec.mark, short)
    hung = parts[Way.RIGHT if hand is Hand.RIGHT else Way.LEFT]
    outline = {**parts, Way.FRONT: hung, Way.BACK: hung}
    return FrontLeaf(short, mark, width, height, outline)


def _member(
    case: CaseDraft, short: str, way: Way, role: Role, lie: Lie, length: Affine, width: Affine, hand: Hand
) -> PartDraft:
    """A stile or rail; the doors' stiles are cut on one setting, and so are their rails. The stile that the
    hinges are bored into has the hand of the door."""
    hung = {Hand.LEFT: Way.LEFT, Hand.RIGHT: Way.RIGHT}.get(hand)
    own = hand if way is hung else Hand.NONE
    match = f"{case.spec.mark} {short} {role.value}s"
    name = f"{short}{LETTERS[way]}"
    return case.part(name, role, case.spec.materials.front, lie, length, width, hand=own, match=match)


def _groove(case: CaseDraft, part: PartDraft, face: Way) -> Channel:
    """The groove in the inner edge of a stile or rail, in the middle of its thickness."""
    wide = thickness_of(case.spec.materials.panel) + case.of("groove_play")
    at = (part.thickness - wide) / 2
    channel = Channel(GROOVE, ChannelKind.GROOVE, face, Way.FRONT, at, wide, case.of("door_tongue"))
    return case.channel(part, GROOVE, channel)


def _tongue(case: CaseDraft, rail: PartDraft, end: Way) -> None:
    """What is taken from both faces of a rail's end leaves a tongue that fills the stile's groove."""
    wide = thickness_of(case.spec.materials.panel) + case.of("groove_play")
    cheek = (rail.thickness - wide) / 2
    for face in (Way.FRONT, Way.BACK):
        name = f"tongue-{end.word}-{face.word}"
        kind, long = ChannelKind.TONGUE, case.of("door_tongue")
        case.channel(rail, name, Channel(name, kind, face, end, NOTHING, long, cheek))


def _put_together(case: CaseDraft, parts: Mapping[Way, PartDraft]) -> None:
    """The shoulders of the rails on the inner edges of the stiles, all outer edges and fronts flush."""
    left, right = parts[Way.LEFT], parts[Way.RIGHT]
    lower, upper = parts[Way.DOWN], parts[Way.UP]
    _shoulder(case, lower, left, Way.LEFT)
    case.flush(Way.DOWN, left, lower)
    _shoulder(case, lower, right, Way.RIGHT)
    case.flush(Way.DOWN, lower, right)
    _shoulder(case, upper, left, Way.LEFT)
    case.flush(Way.UP, left, upper)
    _shoulder(case, upper, right, Way.RIGHT)
    case.flush(Way.UP, upper, right)
    for part in (lower, right, upper):
        case.flush(Way.FRONT, left, part)


def _shoulder(case: CaseDraft, rail: PartDraft, stile: PartDraft, end: Way) -> None:
    """The shoulder of a rail's tongue against the inner edge of a stile."""
    at = place_from(end, rail.size(Axis.X), case.of("door_tongue"))
    shoulder = Surface(rail.mark, end, at, f"shoulder of {rail.mark}, {end.word}")
    case.meet(f"{rail.mark} against {stile.mark}", Meeting.SEATED, shoulder, stile.side(end.opposite))


def _in_grooves(
    case: CaseDraft, panel: PartDraft, parts: Mapping[Way, PartDraft], grooves: Mapping[Way, Channel]
) -> None:
    """The panel in the middle between the floors of the grooves, with play all round and across."""
    play = case.of("panel_play")
    for way in (Way.LEFT, Way.DOWN, Way.RIGHT, Way.UP):
        part, groove = parts[way], grooves[way]
        floor = Surface(part.mark, groove.face, groove.floor(part), f"groove floor of {part.mark}")
        words = f"{panel.mark} in the groove of {part.mark}"
        case.meet(words, Meeting.PLAY, floor, panel.side(way), play / 2)
    between_groove_walls(case, panel, parts[Way.LEFT], grooves[Way.LEFT])
