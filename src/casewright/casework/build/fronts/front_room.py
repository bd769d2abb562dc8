"""What the fronts of a bay lie against: its opening, and how far they reach over each edge of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ....sizes.affine import NOTHING, Affine
from ...directions import Axis, Way
from ...front_choices import FrontLie
from ..bays import BayPlace, Upright
from ..case_draft import CaseDraft, PartDraft
from ..face_frame import BareCase, FrameParts

ACROSS = (Way.LEFT, Way.RIGHT)


@dataclass(frozen=True)
class UnderFrame:
    """What a case sees of a face frame over several cases: the sides of the neighbours under the same frame,
    the frame `over_all`, whosever parts it is among, and the place of its upright at the left of the case,
    which is the `first` of the case's own."""

    left: PartDraft | None
    right: PartDraft | None
    over_all: FrameParts | None
    first: int

    @property
    def frame(self) -> FrameParts | None:
        """The frame where it is among the parts of this case, which is then the first under it."""
        return self.over_all if self.first == 0 else None

    def beside(self, way: Way) -> PartDraft | None:
        """The neighbour's side there."""
        return self.left if way is Way.LEFT else self.right


@dataclass(frozen=True)
class FrontRoom:
    """The opening of a bay: what bounds it at each side, how `wide` and `high` it is, and how far fronts lap
    over each of its edges (negative for inset fronts, which leave a gap there). `uprights` are the sides or
    dividers of the bay, `floor` its height above the lower ends of the case's sides. A frame that is drawn
    with a neighbour stands `out` before what is named as bounding the opening; `covers` is how far fronts lap
    over the frame itself then. `into` is how far a face frame narrows the bay, left, right and above;
    `over_rail` is how far two neighbouring fronts each lap over the rail between them, where there is one.
    """

    uprights: Mapping[Way, Upright]
    floor: Affine
    beside: Mapping[Way, PartDraft]
    wide: Affine
    high: Affine
    laps: Mapping[Way, Affine]
    covers: Mapping[Way, Affine]
    out: Affine
    into: Mapping[Way, Affine]
    over_rail: Affine
    between: Affine

    @property
    def opening(self) -> Affine:
        """How wide the opening is: that of a face frame, if there is one."""
        if self.out == NOTHING:
            return self.wide
        return self.wide - self.into[Way.LEFT] - self.into[Way.RIGHT]

    @property
    def width(self) -> Affine:
        """How wide the fronts are together, gaps included."""
        return self.wide + self.laps[Way.LEFT] + self.laps[Way.RIGHT]

    @property
    def height(self) -> Affine:
        """How high the fronts are together, gaps included."""
        return self.high + self.laps[Way.DOWN] + self.laps[Way.UP]


def front_rooms(box: BareCase, around: UnderFrame) -> Iterator[tuple[BayPlace, FrontRoom]]:
    """Each bay that has fronts, from the left, with its opening."""
    case, shell = box.case, box.shell
    over = shell.left.size(Axis.Z) - shell.under - shell.bottom.thickness
    high = over - case.of("frame_rail") if case.has_frame else shell.clear
    for index, bay in enumerate(box.bays):
        if not bay.bay.fronts:
            continue
        uprights = {Way.LEFT: bay.left, Way.RIGHT: bay.right}
        ends = {
            way: _End.of(case, uprights[way].part, last, around.beside(way))
            for way, last in ((Way.LEFT, index == 0), (Way.RIGHT, bay is box.bays[-1]))
        }
        laps = {way: _lap(case, end.covered) for way, end in ends.items()}
        low = case.of("frame_rail") if case.has_frame else shell.bottom.thickness
        laps[Way.DOWN] = _lap(case, low)
        laps[Way.UP] = _lap(case, over - high - case.of("front_top"))
        beside = {way: upright.part for way, upright in uprights.items()}
        beside |= {Way.DOWN: shell.bottom, Way.UP: shell.top or case.front_stretcher}
        wide, tall, out, covers = bay.width, shell.clear, NOTHING, laps
        if around.frame:
            pair = around.frame.uprights[index : index + 2]
            beside = dict(zip(ACROSS, pair, strict=True))
            beside |= {Way.DOWN: around.frame.lower, Way.UP: around.frame.upper}
            wide, tall = wide - ends[Way.LEFT].into - ends[Way.RIGHT].into, high
        elif case.has_frame:
            # The frame is drawn with a neighbour: its edges are told from the parts behind them.
            laps = {way: lap - ends[way].into if way in ends else lap for way, lap in laps.items()}
            laps[Way.UP] = laps[Way.UP] - (shell.clear - high)
            out = case.front_strip
        into = {way: end.into for way, end in ends.items()} | {Way.UP: shell.clear - high}
        floor = shell.under + shell.bottom.thickness
        rail, gap = case.of("frame_rail"), case.of("front_gap")
        over_rail = _lap(case, (rail - gap) / 2) if case.has_frame else NOTHING
        between = rail - 2 * over_rail if case.has_frame else gap
        yield bay, FrontRoom(uprights, floor, beside, wide, tall, laps, covers, out, into, over_rail, between)


@dataclass(frozen=True)
class _End:
    """One side of a bay: how far a stile or mullion stands `into` it past the upright behind, and how much of
    what bounds it a front with full overlay covers."""

    into: Affine
    covered: Affine

    @classmethod
    def of(cls, case: CaseDraft, upright: PartDraft, last: bool, beyond: PartDraft | None) -> _End:
        """`last` is a side of the case, `beyond` the neighbour's side under the same frame."""
        thick, gap = upright.thickness, case.of("front_gap")
        if not case.has_frame:
            return cls(NOTHING, thick - gap / 2 if last else (thick - gap) / 2)
        if last and beyond is None:
            stile = case.of("frame_stile")
            return cls(stile - case.of("frame_past") - thick, stile - gap / 2)
        mullion = case.of("frame_mullion")
        behind = thick + beyond.thickness if last and beyond else thick
        return cls((mullion - behind) / 2, (mullion - gap) / 2)


def _lap(case: CaseDraft, full: Affine) -> Affine:
    """How far fronts reach over an edge that full overlay covers by so much."""
    match case.spec.construction.fronts:
        case FrontLie.FULL_OVERLAY:
            return full
        case FrontLie.PARTIAL_OVERLAY:
            return case.of("front_lap")
        case FrontLie.INSET:
            return -case.of("front_gap")
