"""One case, from its specification to parts with features and positions, and closed loops."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ...sizes.affine import NOTHING, Affine
from ...sizes.ledger import Book
from ..directions import Axis, Way
from ..job import CaseSpec, Filler, ToeKind
from ..parts.part import FACE_FRAME, Lie, Part, PartName, Role
from ..size_names import CaseSizes, PartSizes, part_mark
from .case_draft import CaseDraft, PartDraft, ShelvesOnPins
from .drawers.placed_drawers import PlacedDrawer
from .edged_edges import EdgingChoice
from .face_frame import BareCase
from .fittings import FittingChoice
from .fronts.placed_fronts import BayFronts
from .interior import draw_contents
from .meetings import Chain, Mate, Meeting, Placement, place
from .shell import draw_shell


@dataclass(frozen=True)
class FillerAt:
    """A filler, with the form of its width in sight."""

    filler: Filler
    visible: Affine


@dataclass(frozen=True)
class Ends:
    """The fillers at the sides of a case that is at an end of its run."""

    left: FillerAt | None = None
    right: FillerAt | None = None


@dataclass(frozen=True)
class Case(CaseSizes):
    """A case drawn up, with its sizes: `case.inside`, `case.height` and so on.

    `outside` is its width as its parts add up, `foot` the height of its sides above the floor (on a
    plinth), `on_pins` its clear heights with shelves on pins. `front_strip` is how far a face frame, or
    edging that is put on last, stands out before its sides; `front_edging` the latter alone. `framed` are the
    marks of the cases under the face frame that is among its parts: empty without one, or where that belongs
    to a neighbour. `fronts` are those of each bay that has any, `drawers` what stands behind those
    that are drawers. `placement` holds each part's low corner, measured from that of the left side.
    """

    spec: CaseSpec
    parts: tuple[Part, ...]
    mates: tuple[Mate, ...]
    placement: Placement
    foot: Affine
    on_pins: tuple[ShelvesOnPins, ...] = ()
    front_strip: Affine = NOTHING
    front_edging: Affine = NOTHING
    framed: tuple[str, ...] = ()
    fronts: tuple[BayFronts, ...] = ()
    drawers: tuple[PlacedDrawer, ...] = ()

    @property
    def shares_frame(self) -> bool:
        """Whether its face frame covers other cases too; the frame goes on where they stand joined."""
        return len(self.framed) > 1

    @property
    def own_parts(self) -> tuple[Part, ...]:
        """Its parts, without a face frame that covers other cases too."""
        return tuple(part for part in self.parts if not (self.shares_frame and part.role in FACE_FRAME))

    @property
    def chains(self) -> tuple[Chain, ...]:
        """Every closed loop of meetings in the case."""
        return self.placement.chains


def draw_box(
    book: Book,
    spec: CaseSpec,
    width: Affine,
    sheet_of: Mapping[str, str],
    edging: EdgingChoice,
    fittings: FittingChoice,
) -> BareCase:
    """Draw up one case `width` wide but for what covers its front.

    `sheet_of` names a different material for single parts, by their marks; `edging` says which edges are
    covered, `fittings` what its doors hang on and its drawers run on.
    """
    case = CaseDraft(book, spec, sheet_of, edging, fittings)
    shell, depth, back = draw_shell(case, width)
    return BareCase(case, shell, draw_contents(case, shell, depth, back))


def finish_case(
    box: BareCase,
    ends: Ends,
    framed: tuple[str, ...],
    fronts: tuple[BayFronts, ...],
    drawers: tuple[PlacedDrawer, ...],
) -> Case:
    """The case with its fillers, once its frame and fronts are drawn; `framed` are the marks of the cases
    under its frame."""
    case, shell = box.case, box.shell
    if ends.left:
        _filler(case, ends.left, shell.left, Way.LEFT)
    if ends.right:
        _filler(case, ends.right, shell.right, Way.RIGHT)
    placement = place(shell.left.mark, case.parts, case.mates)
    corner = placement.corners[shell.right.mark, Axis.X]
    outside = corner + shell.right.thickness
    case.book.form(case.sizes.outside, outside, f"outside width of {case.spec.mark} as its parts add up")
    foot = case.of("toe_height") if case.spec.construction.toe is ToeKind.PLINTH else NOTHING
    parts = tuple(part.finish(case.spec.mark) for part in case.parts.values())
    return Case(
        case.spec.mark,
        case.spec,
        parts,
        tuple(case.mates),
        placement,
        foot,
        tuple(case.on_pins),
        case.front_strip,
        case.front_edging,
        framed,
        fronts,
        drawers,
    )


def _filler(case: CaseDraft, at: FillerAt, side: PartDraft, way: Way) -> None:
    """A strip beside a side, flush at the front; its width is the part in sight plus the scribe."""
    name = PartName.FILLER_LEFT if way is Way.LEFT else PartName.FILLER_RIGHT
    scribe = PartSizes(part_mark(case.spec.mark, name)).scribe
    lie = Lie(Axis.Z, Axis.X, Way.FRONT)
    strip = case.part(name, Role.FILLER, at.filler.material, lie, side.size(Axis.Z), at.visible + scribe)
    if front := _front_of(case, side):
        case.seat(strip, way.opposite, front)
        case.flush(Way.FRONT, front, strip)
    else:
        # The stile beside it is a part of another case: where it stands follows from the side behind it.
        words = f"{strip.mark} beside the stile over {side.mark}"
        case.meet(words, Meeting.FLUSH, side.side(way), strip.side(way.opposite))
        words = f"{strip.mark} flush with the frame over {side.mark}"
        case.meet(words, Meeting.FLUSH, side.side(Way.FRONT), strip.side(Way.FRONT), -case.front_strip)
    case.flush(Way.DOWN, side, strip)


def _front_of(case: CaseDraft, side: PartDraft) -> PartDraft | None:
    """What stands foremost at a side: its stile, if the case has a face frame; None where that belongs to
    another case."""
    if not case.has_frame:
        return side
    stiles = [part for part in case.parts.values() if part.role is Role.STILE]
    met = {frozenset((mate.first.part, mate.second.part)) for mate in case.mates}
    return next((stile for stile in stiles if {stile.mark, side.mark} in met), None)
