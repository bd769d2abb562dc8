"""What the fronts of a bay lie against: its opening, and how far they reach over each edge of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ....sizes.affine import NOTHING, Affine
from ...directions import Axis, Way
from ...front_choices import FrontLie
from ..bays import BayPlace
from ..case_draft import CaseDraft, PartDraft
from ..face_frame import FrameParts
from ..joints.back import Shell

ACROSS = (Way.LEFT, Way.RIGHT)


@dataclass(frozen=True)
class FrontRoom:
    """The opening of a bay: what bounds it at each side, how `wide` and `high` it is, and how far fronts lap
    over each of its edges (negative for inset fronts, which leave a gap there). `past` is how far a face
    frame stands into the bay, past the faces of the uprights."""

    beside: Mapping[Way, PartDraft]
    wide: Affine
    high: Affine
    laps: Mapping[Way, Affine]
    past: Mapping[Way, Affine]

    @property
    def width(self) -> Affine:
        """How wide the fronts are together, gaps included."""
        return self.wide + self.laps[Way.LEFT] + self.laps[Way.RIGHT]

    @property
    def height(self) -> Affine:
        """How high the fronts are together, gaps included."""
        return self.high + self.laps[Way.DOWN] + self.laps[Way.UP]


def front_rooms(
    case: CaseDraft, shell: Shell, frame: FrameParts | None, bays: tuple[BayPlace, ...]
) -> Iterator[FrontRoom]:
    """The opening of each bay, from the left."""
    bottom, above = shell.bottom, shell.top or case.front_stretcher
    over = shell.left.size(Axis.Z) - shell.under - bottom.thickness
    high = shell.clear
    if frame:
        bottom, above = frame.lower, frame.upper
        high = over - case.of("frame_rail")
    for index, bay in enumerate(bays):
        members = (bay.left.part, bay.right.part)
        wide, past = bay.width, dict.fromkeys(ACROSS, NOTHING)
        if frame:
            framed = frame.uprights[index : index + 2]
            for way, upright, member in zip(ACROSS, members, framed, strict=True):
                past[way] = _past(case, way, upright, member, shell)
                wide = wide - past[way]
            members = (framed[0], framed[1])
        beside = {Way.LEFT: members[0], Way.RIGHT: members[1], Way.DOWN: bottom, Way.UP: above}
        outer = {Way.LEFT: index == 0, Way.RIGHT: index == len(bays) - 1}
        laps = {way: _lap_across(case, beside[way], outer[way]) for way in ACROSS}
        laps[Way.DOWN] = _lap(case, bottom.size(Axis.Z))
        laps[Way.UP] = _lap(case, over - high - case.of("front_top"))
        yield FrontRoom(beside, wide, high, laps, past)


def _past(case: CaseDraft, way: Way, upright: PartDraft, member: PartDraft, shell: Shell) -> Affine:
    """How far a stile or mullion stands into the bay, past the face of the side or divider behind it."""
    over = member.size(Axis.X) - upright.thickness
    if upright in (shell.left, shell.right):
        return over - case.of("frame_past")
    return over / 2


def _lap_across(case: CaseDraft, beside: PartDraft, outer: bool) -> Affine:
    """Neighbouring fronts share what is between their bays, or between their cases, less the gap."""
    size, gap = beside.size(Axis.X), case.of("front_gap")
    return _lap(case, size - gap / 2 if outer else (size - gap) / 2)


def _lap(case: CaseDraft, full: Affine) -> Affine:
    """How far fronts reach over an edge that full overlay covers by so much."""
    match case.spec.construction.fronts:
        case FrontLie.FULL_OVERLAY:
            return full
        case FrontLie.PARTIAL_OVERLAY:
            return case.of("front_lap")
        case FrontLie.INSET:
            return -case.of("front_gap")
