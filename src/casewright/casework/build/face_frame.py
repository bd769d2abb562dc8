"""A face frame over the front of a case: stiles, two rails between them, a mullion over each divider.

The frame is sized from the box: its width from what the sides and the bottom come to, its height from
the bottom and the upper ends of the sides. So a box that was measured drives its frame.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...sizes.affine import Affine
from ..directions import Axis, Way
from ..job import FaceFrame
from ..parts.part import Lie, PartName, Role
from .case_draft import CaseDraft, PartDraft
from .joints.back import Shell
from .meetings import Meeting

UPRIGHT = Lie(Axis.Z, Axis.X, Way.BACK)
LEVEL = Lie(Axis.X, Axis.Z, Way.BACK)
"""Pockets are bored into the face that nobody sees."""


@dataclass(frozen=True)
class FrameParts:
    """The parts of a face frame: its rails, and its stiles and mullions from the left."""

    lower: PartDraft
    upper: PartDraft
    uprights: tuple[PartDraft, ...]


def draw_face_frame(case: CaseDraft, shell: Shell, dividers: Sequence[PartDraft]) -> FrameParts | None:
    """The frame of a case, if it has one: the lower rail level with the bottom, the top flush."""
    if case.spec.construction.frame is FaceFrame.NONE:
        return None
    left, right, bottom = shell.left, shell.right, shell.bottom
    rail, past = case.of("frame_rail"), case.of("frame_past")
    height = left.size(Axis.Z) - shell.under - bottom.thickness + rail
    between = shell.inside + left.thickness + right.thickness + 2 * past - 2 * case.of("frame_stile")
    first, last = (
        _member(case, Role.STILE, PartName.STILE, number, UPRIGHT, height, "frame_stile") for number in (1, 2)
    )
    lower, upper = (
        _member(case, Role.RAIL, PartName.RAIL, number, LEVEL, between, "frame_rail") for number in (1, 2)
    )
    _beside(case, left, first, Way.LEFT, -past)
    case.seat(lower, Way.LEFT, first)
    case.meet(
        f"{lower.mark} level with {bottom.mark}", Meeting.FLUSH, bottom.side(Way.UP), lower.side(Way.UP)
    )
    case.flush(Way.FRONT, first, lower)
    case.seat(last, Way.LEFT, lower)
    _beside(case, right, last, Way.RIGHT, past)
    case.flush(Way.DOWN, first, lower)
    case.seat(upper, Way.LEFT, first)
    case.seat(upper, Way.RIGHT, last)
    case.flush(Way.UP, first, upper)
    case.flush(Way.FRONT, first, upper)
    mullions = [
        _mullion(case, number, divider, height - 2 * rail, (lower, upper))
        for number, divider in enumerate(dividers, 1)
    ]
    return FrameParts(lower, upper, (first, *mullions, last))


def _member(
    case: CaseDraft, role: Role, short: str, number: int, lie: Lie, length: Affine, width: str
) -> PartDraft:
    """A part of the frame; `width` is the entry of the construction that says how wide its kind is."""
    match = f"{case.spec.mark} {role.value}s"
    material = case.spec.materials.frame
    return case.part(f"{short}{number}", role, material, lie, length, case.of(width), match=match)


def _beside(case: CaseDraft, side: PartDraft, stile: PartDraft, way: Way, past: Affine) -> None:
    """A stile over the front edge of a side, `past` beyond its outer face, flush above."""
    case.seat(stile, Way.BACK, side)
    case.flush(Way.UP, side, stile)
    words = f"{stile.mark} past the outside of {side.mark}"
    case.meet(words, Meeting.FLUSH, side.side(way), stile.side(way), past)


def _mullion(
    case: CaseDraft, number: int, divider: PartDraft, length: Affine, rails: tuple[PartDraft, PartDraft]
) -> PartDraft:
    """A mullion from rail to rail, centred over a divider."""
    lower, upper = rails
    mullion = _member(case, Role.MULLION, PartName.MULLION, number, UPRIGHT, length, "frame_mullion")
    case.seat(mullion, Way.DOWN, lower)
    case.seat(mullion, Way.UP, upper)
    case.flush(Way.FRONT, lower, mullion)
    case.meet(
        f"{mullion.mark} in the middle of {divider.mark}",
        Meeting.FLUSH,
        divider.side(Way.LEFT),
        mullion.side(Way.LEFT),
        (divider.thickness - case.of("frame_mullion")) / 2,
    )
    return mullion
