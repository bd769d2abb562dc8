"""The ends of a face frame's rails and mullions: how far they reach into what they meet, and how they are
joined to it.

What is upright lies over what is level: in a half lap stiles and mullions are cut from behind and show whole,
rails are cut from the front.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ....sizes.affine import NOTHING, Affine
from ...directions import Axis, Way
from ...job import FaceFrame
from ...parts.features.channel import Channel, ChannelKind
from ...parts.features.feature import EDGE_WORDS, place_from
from ...parts.features.frame_joints import DowelPair, Mortise, Tenon
from ...size_names import FeatureSizes
from ..case_draft import CaseDraft, PartDraft
from ..meetings import Meeting, Surface
from .channel_walls import near_and_far

MORTISE_DEEPER = Fraction(1, 16)
"""A mortise is so much deeper than its tenon is long, inches: two answers of one woodworking magazine, one of
which says 1/8 in another printing."""

SHOULDER = Fraction(1, 4)
"""What a tenon has off each edge, inches, so that its mortise stays shut at the end of a stile: a magazine's
mortise of 1 1/2 in stock 2 in wide."""


@dataclass(frozen=True)
class FrameEnd:
    """The side of `piece` that faces `way`, and what it meets there: its near edge is `at` in from the side
    of `into` that faces `end`. `label` tells this place on `into` from its others."""

    piece: PartDraft
    way: Way
    into: PartDraft
    end: Way
    at: Affine
    label: str


def reach(case: CaseDraft, into: Affine) -> Affine:
    """How far the end of a rail or mullion reaches beyond the edge it meets of a piece `into` wide."""
    joint = case.spec.construction.frame
    if joint is FaceFrame.HALF_LAPS:
        return into
    return case.of("frame_tenon") if joint is FaceFrame.MORTISE_AND_TENON else NOTHING


def worked_face(case: CaseDraft, upright: bool) -> Way:
    """The face that is up while a piece of the frame is worked: pockets and the laps of what is upright are
    cut from behind, where nobody sees them."""
    lapped = case.spec.construction.frame is FaceFrame.HALF_LAPS
    return Way.FRONT if lapped and not upright else Way.BACK


def join(case: CaseDraft, end: FrameEnd) -> None:
    """Join an end as the case's frame is joined, and record how the two pieces meet."""
    joint = case.spec.construction.frame
    if joint is FaceFrame.HALF_LAPS:
        _lap(case, end)
    elif joint is FaceFrame.MORTISE_AND_TENON:
        _tenon(case, end)
    else:
        case.seat(end.piece, end.way, end.into)
        if joint is FaceFrame.DOWELS:
            _dowels(case, end)


def _lap(case: CaseDraft, at: FrameEnd) -> None:
    piece, into = at.piece, at.into
    over = _cut(case, piece, _end_name(at), at.way, NOTHING, into.width, piece.thickness / 2)
    under = _cut(case, into, at.label, at.end, at.at, piece.width, into.thickness - over.depth)
    _on_shoulder(case, at, over.at + over.width)
    case.flush(at.way, into, piece)
    _floors(case, piece, over, into, under)
    _between_walls(case, at, under)


def _on_shoulder(case: CaseDraft, at: FrameEnd, long: Affine) -> None:
    """The shoulder of a lap or tenon, `long` in from the end of the piece, against the edge that it meets."""
    piece, into = at.piece, at.into
    shoulder = place_from(at.way, piece.size(at.way.axis), long)
    case.meet(
        f"shoulder of {piece.mark} against {into.mark}",
        Meeting.SEATED,
        Surface(piece.mark, at.way, shoulder, f"shoulder of {piece.mark}, {at.way.word}"),
        into.side(at.way.opposite),
    )


def _cut(
    case: CaseDraft, part: PartDraft, name: str, edge: Way, at: Affine, width: Affine, depth: Affine
) -> Channel:
    return case.channel(part, name, Channel(name, ChannelKind.LAP, part.lie.worked, edge, at, width, depth))


def _floors(case: CaseDraft, piece: PartDraft, over: Channel, into: PartDraft, under: Channel) -> None:
    faces = [
        Surface(one.mark, cut.face, cut.floor(one), f"floor of {one.mark} {cut.name}")
        for one, cut in ((piece, over), (into, under))
    ]
    case.meet(f"{piece.mark} in the half lap of {into.mark}", Meeting.SEATED, faces[0], faces[1])


def _between_walls(case: CaseDraft, at: FrameEnd, under: Channel) -> None:
    """The piece against the far wall of the lap at an end, between both walls of one in the middle."""
    piece, into = at.piece, at.into
    near, far = near_and_far(into, under)
    if at.at == NOTHING:
        words = f"{piece.mark} on the shoulder of {into.mark}"
        case.meet(words, Meeting.SEATED, far, piece.side(far.looks.opposite))
        case.flush(at.end, into, piece)
        return
    words = f"{piece.mark} against the wall of the half lap in {into.mark}"
    case.meet(words, Meeting.SEATED, near, piece.side(near.looks.opposite))
    words = f"{piece.mark} between the walls of the half lap in {into.mark}"
    case.meet(words, Meeting.SLIP, far, piece.side(far.looks.opposite))


def _dowels(case: CaseDraft, at: FrameEnd) -> None:
    """Two holes at a quarter of the width from both edges, bored alike into the end and into what it
    meets."""
    across = Way.LEFT if at.way.axis is Axis.Z else Way.DOWN
    _bore(case, at.piece, _end_name(at), at.way, across, NOTHING, at.piece.width)
    _bore(case, at.into, at.label, at.way.opposite, at.end, at.at, at.piece.width)


def _bore(case: CaseDraft, part: PartDraft, name: str, face: Way, end: Way, at: Affine, wide: Affine) -> None:
    sizes, words = FeatureSizes(part.mark, name), f"{part.mark} {name}"
    form = case.book.form
    part.features.append(
        DowelPair(
            name,
            face,
            Way.FRONT,
            end,
            form(sizes.first, at + wide / 4, f"{words}, first hole"),
            form(sizes.second, at + wide * 3 / 4, f"{words}, second hole"),
            form(sizes.setback, part.thickness / 2, f"{words} behind the front"),
            case.of("frame_dowel"),
            case.of("frame_dowel_depth"),
        )
    )


def _tenon(case: CaseDraft, at: FrameEnd) -> None:
    piece = at.piece
    thick, name = case.of("frame_mortise"), _end_name(at)
    sizes, words = FeatureSizes(piece.mark, name), f"{piece.mark} {name}"
    long = case.book.form(sizes.long, case.of("frame_tenon"), f"{words} length")
    cheek = case.book.form(sizes.cheek, (piece.thickness - thick) / 2, f"{words} cheek")
    piece.features.append(Tenon(name, at.way, Way.FRONT, long, cheek, thick, NOTHING + SHOULDER))
    _mortise(case, at, thick)
    _on_shoulder(case, at, long)


def _mortise(case: CaseDraft, at: FrameEnd, wide: Affine) -> None:
    into, name = at.into, at.label
    sizes, words = FeatureSizes(into.mark, name), f"{into.mark} {name}"
    form = case.book.form
    into.features.append(
        Mortise(
            name,
            at.way.opposite,
            Way.FRONT,
            at.end,
            form(sizes.at, at.at + SHOULDER, f"{words} place"),
            form(sizes.long, at.piece.width - 2 * SHOULDER, f"{words} length"),
            form(sizes.cheek, (into.thickness - wide) / 2, f"{words} cheek"),
            wide,
            form(sizes.depth, case.of("frame_tenon") + MORTISE_DEEPER, f"{words} depth"),
        )
    )


def _end_name(at: FrameEnd) -> str:
    return f"{EDGE_WORDS[at.way]}-end"
