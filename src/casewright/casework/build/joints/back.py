"""The back: in grooves, in rabbets, or applied over the rear edges.

The front face of the back limits the depth of everything inside the case.
"""

from __future__ import annotations

from dataclasses import dataclass

from ....sizes.affine import NOTHING, Affine
from ...directions import Axis, Way
from ...job import BackKind
from ...parts.features.channel import GROOVE_FOR_BACK, RABBET_FOR_BACK, Channel, ChannelKind
from ...parts.part import Lie, Role
from ...size_names import thickness_of
from ..case_draft import CaseDraft, PartDraft
from ..meetings import Meeting, Surface
from .channel_walls import between_groove_walls

LIE = Lie(Axis.Z, Axis.X, Way.FRONT)


@dataclass(frozen=True)
class Shell:
    """The parts that the back closes, and the space between them."""

    left: PartDraft
    right: PartDraft
    bottom: PartDraft
    top: PartDraft | None  # a top panel; None with stretchers
    inside: Affine  # between the sides
    clear: Affine  # between the bottom and the top or stretchers
    under: Affine  # from the sides' lower ends to the underside of the bottom


def front_of_back(case: CaseDraft) -> Affine:
    """The distance from the rear edges of the sides to the front face of the back."""
    made = case.spec.construction
    back = thickness_of(case.spec.materials.back)
    if made.back is BackKind.GROOVE:
        return behind_back(case) + back + case.of("groove_play")
    return back if made.back is BackKind.RABBET else NOTHING


def behind_back(case: CaseDraft) -> Affine:
    """The space behind a grooved back: the thickness of the mounting strip, or the inset if there is none."""
    if case.spec.construction.strips:
        return thickness_of(case.spec.materials.strip)
    return case.of("back_inset")


def groove(case: CaseDraft, part: PartDraft, face: Way) -> Channel:
    """The back's groove in `face` of a part, measured in from its rear edge."""
    return case.channel(
        part,
        GROOVE_FOR_BACK,
        Channel(
            GROOVE_FOR_BACK,
            ChannelKind.GROOVE,
            face,
            Way.BACK,
            behind_back(case),
            thickness_of(case.spec.materials.back) + case.of("groove_play"),
            case.of("groove_depth"),
        ),
    )


def rabbet(case: CaseDraft, part: PartDraft, face: Way) -> Channel:
    """The back's rabbet along the rear edge of a side."""
    return case.channel(
        part,
        RABBET_FOR_BACK,
        Channel(
            RABBET_FOR_BACK,
            ChannelKind.RABBET,
            face,
            Way.BACK,
            NOTHING,
            thickness_of(case.spec.materials.back),
            case.of("rabbet_depth"),
        ),
    )


def make_back(case: CaseDraft, shell: Shell) -> PartDraft | None:
    """Cut the grooves or rabbets, size the back, and record how it meets the case."""
    kind = case.spec.construction.back
    if kind is BackKind.GROOVE:
        return _grooved(case, shell)
    if kind is BackKind.RABBET:
        return _rabbeted(case, shell)
    if kind is BackKind.APPLIED:
        return _applied(case, shell)
    return None


def _back(case: CaseDraft, length: Affine, width: Affine) -> PartDraft:
    return case.part("K", Role.BACK, case.spec.materials.back, LIE, length, width)


def _grooved(case: CaseDraft, shell: Shell) -> PartDraft:
    left = groove(case, shell.left, Way.RIGHT)
    right = groove(case, shell.right, Way.LEFT)
    below = groove(case, shell.bottom, Way.UP)
    play = case.of("back_play")
    if shell.top:
        above = groove(case, shell.top, Way.DOWN)
        height = shell.clear + below.depth + above.depth - play
    else:
        height = shell.left.size(Axis.Z) - shell.under - shell.bottom.thickness + below.depth
    back = _back(case, height, shell.inside + left.depth + right.depth - play)
    _in_groove(case, back, shell.left, left)
    _in_groove(case, back, shell.right, right)
    _in_groove(case, back, shell.bottom, below)
    if shell.top:
        _in_groove(case, back, shell.top, above)
    else:
        case.flush(Way.UP, shell.left, back)
    return back


def _in_groove(case: CaseDraft, back: PartDraft, part: PartDraft, channel: Channel) -> None:
    """The edge of the back over the floor of the groove, its face against the front wall."""
    floor = Surface(part.mark, channel.face, channel.floor(part), f"groove floor of {part.mark}")
    edge = back.side(channel.face.opposite)
    first = channel.face in (Way.RIGHT, Way.UP)  # pushed left and down, so the play is on the other side
    case.meet(
        f"{back.mark} in the groove of {part.mark}",
        Meeting.SEATED if first else Meeting.PLAY,
        floor,
        edge,
        NOTHING if first else case.of("back_play"),
    )
    between_groove_walls(case, back, part, channel)


def _rabbeted(case: CaseDraft, shell: Shell) -> PartDraft:
    left = rabbet(case, shell.left, Way.RIGHT)
    right = rabbet(case, shell.right, Way.LEFT)
    back = _back(
        case,
        shell.left.size(Axis.Z) - shell.under,
        shell.inside + left.depth + right.depth - case.of("back_play"),
    )
    for part, channel in ((shell.left, left), (shell.right, right)):
        case.meet(
            f"{back.mark} in the rabbet of {part.mark}",
            Meeting.PLAY if part is shell.right else Meeting.SEATED,
            Surface(part.mark, channel.face, channel.floor(part), f"rabbet wall of {part.mark}"),
            back.side(channel.face.opposite),
            case.of("back_play") if part is shell.right else NOTHING,
        )
        shoulder = channel.walls(part).low
        case.meet(
            f"{back.mark} on the rabbet of {part.mark}",
            Meeting.SEATED,
            Surface(part.mark, Way.BACK, shoulder, f"rabbet shoulder of {part.mark}"),
            back.side(Way.FRONT),
        )
        case.flush(Way.BACK, part, back)
    case.flush(Way.UP, shell.left, back)
    _covers(case, back, shell)
    return back


def _applied(case: CaseDraft, shell: Shell) -> PartDraft:
    back = _back(
        case,
        shell.left.size(Axis.Z) - shell.under,
        shell.inside + shell.left.thickness + shell.right.thickness,
    )
    for part, way in ((shell.left, Way.LEFT), (shell.right, Way.RIGHT)):
        case.seat(back, Way.FRONT, part)
        case.flush(way, part, back)
    case.flush(Way.UP, shell.left, back)
    _covers(case, back, shell)
    return back


def _covers(case: CaseDraft, back: PartDraft, shell: Shell) -> None:
    """The back covers the rear edges of bottom and top, down to the underside of the bottom."""
    case.seat(back, Way.FRONT, shell.bottom)
    case.flush(Way.DOWN, shell.bottom, back)
    if shell.top:
        case.seat(back, Way.FRONT, shell.top)
