"""A face frame over the front of a case, or of neighbouring cases as one: a stile at each end, two rails
through, a mullion over each divider and over each pair of sides between two cases.

The frame is sized from the boxes: its width from what their sides and bottoms come to, its height from
the bottom and the upper ends of the sides. So a box that was measured drives its frame. The parts of a frame
over several cases belong to the first of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...sizes.affine import NOTHING, Affine, total
from ..directions import Axis, Way
from ..parts.part import Lie, PartName, Role
from .bays import BayPlace
from .case_draft import CaseDraft, PartDraft
from .joints.back import Shell
from .joints.frame_ends import FrameEnd, join, reach, worked_face
from .meetings import Meeting, place


@dataclass(frozen=True)
class FrameParts:
    """The parts of a face frame in `case`: its rails, and its stiles and mullions from the left."""

    case: CaseDraft
    lower: PartDraft
    upper: PartDraft
    uprights: tuple[PartDraft, ...]

    def below(self, upright: PartDraft) -> Affine:
        """How far the lower end of a stile or mullion is below the upper edge of the lower rail."""
        rail = self.case.of("frame_rail")
        return rail if upright.role is Role.STILE else reach(self.case, rail)


@dataclass(frozen=True)
class BareCase:
    """A case with all inside it, before its front is covered: its shell and bays."""

    case: CaseDraft
    shell: Shell
    bays: tuple[BayPlace, ...]

    @property
    def dividers(self) -> tuple[PartDraft, ...]:
        return tuple(bay.left.part for bay in self.bays[1:])

    @property
    def outside(self) -> Affine:
        """Its width over the sides."""
        return self.shell.inside + self.shell.left.thickness + self.shell.right.thickness


@dataclass(frozen=True)
class ToTheWall:
    """How far the stiles at the ends of a run reach past the sides, scribe and all, where they are planed to
    the wall; None for an end without scribe."""

    left: Affine | None = None
    right: Affine | None = None


@dataclass(frozen=True)
class _Frame:
    """The rails and stiles of a frame in `case`; `begin` is where the rails begin, from the outside of the
    left side, and `height` that of the frame."""

    case: CaseDraft
    rails: tuple[PartDraft, PartDraft]
    stiles: tuple[PartDraft, PartDraft]
    begin: Affine
    height: Affine


def draw_face_frame(boxes: Sequence[BareCase], walls: ToTheWall) -> FrameParts | None:
    """The frame over neighbouring cases, if they have one: the lower rail level with the bottom, the top
    flush."""
    case = boxes[0].case
    if not case.has_frame:
        return None
    frame = _outer(boxes, walls)
    begins = NOTHING
    mullions: list[PartDraft] = []
    for box, following in zip(boxes, (*boxes[1:], None), strict=True):
        placed = place(box.shell.left.mark, box.case.parts, box.case.mates)
        for divider in box.dividers:
            middle = placed.corners[divider.mark, Axis.X] + divider.thickness / 2
            own = divider if box.case is case else None
            mullions.append(_mullion(frame, len(mullions) + 1, begins + middle, own))
        begins = begins + box.outside
        if following:
            pair = box.shell.right.thickness - following.shell.left.thickness
            mullions.append(_mullion(frame, len(mullions) + 1, begins - pair / 2, None))
    first, last = frame.stiles
    return FrameParts(case, *frame.rails, (first, *mullions, last))


def _outer(boxes: Sequence[BareCase], walls: ToTheWall) -> _Frame:
    """The stiles and rails, over the outermost sides."""
    case, shell = boxes[0].case, boxes[0].shell
    left, right, bottom = shell.left, boxes[-1].shell.right, shell.bottom
    rail, usual, wide = case.of("frame_rail"), case.of("frame_past"), case.of("frame_stile")
    past = [usual if wall is None else wall for wall in (walls.left, walls.right)]
    outside = total(box.outside for box in boxes)
    height = left.size(Axis.Z) - shell.under - bottom.thickness + rail
    within = outside + 2 * usual - 2 * wide
    alike = past[0] == past[1]
    first, last = (
        frame_member(case, Role.STILE, PartName.STILE, number, height, wide + more - usual, alike=alike)
        for number, more in enumerate(past, 1)
    )
    long = within + reach(case, first.width) + reach(case, last.width)
    lower, upper = (frame_member(case, Role.RAIL, PartName.RAIL, number, long, rail) for number in (1, 2))
    _beside(case, left, first, Way.LEFT, -past[0])
    join(case, FrameEnd(lower, Way.LEFT, first, Way.DOWN, NOTHING, "lower-joint"))
    case.meet(
        f"{lower.mark} level with {bottom.mark}", Meeting.FLUSH, bottom.side(Way.UP), lower.side(Way.UP)
    )
    case.flush(Way.FRONT, first, lower)
    join(case, FrameEnd(lower, Way.RIGHT, last, Way.DOWN, NOTHING, "lower-joint"))
    if len(boxes) == 1:
        _beside(case, right, last, Way.RIGHT, past[1])
    else:
        case.flush(Way.UP, first, last)
        case.flush(Way.FRONT, first, last)
    case.flush(Way.DOWN, first, lower)
    join(case, FrameEnd(upper, Way.LEFT, first, Way.UP, NOTHING, "upper-joint"))
    join(case, FrameEnd(upper, Way.RIGHT, last, Way.UP, NOTHING, "upper-joint"))
    case.flush(Way.UP, first, upper)
    case.flush(Way.FRONT, first, upper)
    begin = wide - usual - reach(case, first.width)
    return _Frame(case, (lower, upper), (first, last), begin, height)


def frame_member(
    case: CaseDraft, role: Role, short: str, number: int, length: Affine, width: Affine, *, alike: bool = True
) -> PartDraft:
    """A part of the frame; those of one kind that are `alike` are cut on one setting."""
    match = f"{case.spec.mark} {role.value}s" if alike else None
    upright = role not in (Role.RAIL, Role.CROSS_RAIL)
    worked = worked_face(case, upright)
    lie = Lie(Axis.Z, Axis.X, worked) if upright else Lie(Axis.X, Axis.Z, worked)
    return case.part(f"{short}{number}", role, case.spec.materials.frame, lie, length, width, match=match)


def _beside(case: CaseDraft, side: PartDraft, stile: PartDraft, way: Way, past: Affine) -> None:
    """A stile over the front edge of a side, `past` beyond its outer face, flush above."""
    case.seat(stile, Way.BACK, side)
    case.flush(Way.UP, side, stile)
    words = f"{stile.mark} past the outside of {side.mark}"
    case.meet(words, Meeting.FLUSH, side.side(way), stile.side(way), past)


def _mullion(frame: _Frame, number: int, middle: Affine, over: PartDraft | None) -> PartDraft:
    """A mullion from rail to rail, its `middle` so far from the outside of the left side; centred over the
    divider `over`, if that is in the same case."""
    case, (lower, upper) = frame.case, frame.rails
    width, rail = case.of("frame_mullion"), case.of("frame_rail")
    long = frame.height - 2 * rail + 2 * reach(case, rail)
    mullion = frame_member(case, Role.MULLION, PartName.MULLION, number, long, width)
    at = middle - width / 2 - frame.begin
    for way, one in ((Way.DOWN, lower), (Way.UP, upper)):
        join(case, FrameEnd(mullion, way, one, Way.LEFT, at, f"joint-{number}"))
    case.flush(Way.FRONT, lower, mullion)
    if over:
        case.meet(
            f"{mullion.mark} in the middle of {over.mark}",
            Meeting.FLUSH,
            over.side(Way.LEFT),
            mullion.side(Way.LEFT),
            (over.thickness - width) / 2,
        )
    else:
        words = f"{mullion.mark} along {lower.mark}"
        case.meet(words, Meeting.FLUSH, lower.side(Way.LEFT), mullion.side(Way.LEFT), at)
    return mullion
