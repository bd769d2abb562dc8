"""One case, from its specification to parts with features and positions, and closed loops."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...sizes.affine import NOTHING, Affine
from ...sizes.ledger import Book
from ..directions import Axis, Way
from ..job import CaseSpec, Filler, ToeKind
from ..parts.part import Lie, Part, PartName, Role
from ..size_names import CaseSizes, PartSizes, part_mark
from .case_draft import CaseDraft, PartDraft, ShelvesOnPins
from .drawers.draw_drawers import draw_drawers
from .drawers.placed_drawers import PlacedDrawer
from .edged_edges import EdgingChoice
from .face_frame import draw_face_frame
from .fittings import FittingChoice
from .fronts.draw_fronts import draw_fronts
from .fronts.placed_fronts import BayFronts
from .interior import draw_contents
from .meetings import Chain, Mate, Placement, place
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
    edging that is put on last, stands out before its sides; `front_edging` the latter alone. `placement`
    holds each part's low corner, measured from that of the left side. `fronts` are those of each bay that has
    any, `drawers` what stands behind those that are drawers.
    """

    spec: CaseSpec
    parts: tuple[Part, ...]
    mates: tuple[Mate, ...]
    placement: Placement
    foot: Affine
    on_pins: tuple[ShelvesOnPins, ...] = ()
    front_strip: Affine = NOTHING
    front_edging: Affine = NOTHING
    fronts: tuple[BayFronts, ...] = ()
    drawers: tuple[PlacedDrawer, ...] = ()

    @property
    def chains(self) -> tuple[Chain, ...]:
        """Every closed loop of meetings in the case."""
        return self.placement.chains


def draw_case(
    book: Book,
    spec: CaseSpec,
    width: Affine,
    rounding: Fraction,
    ends: Ends,
    sheet_of: Mapping[str, str],
    edging: EdgingChoice,
    fittings: FittingChoice,
) -> Case:
    """Draw up one case `width` wide; bays that share its width are rounded to `rounding`.

    `sheet_of` names a different material for single parts, by their marks; `edging` says which edges are
    covered, `fittings` which hinges and slides the case has.
    """
    case = CaseDraft(book, spec, rounding, sheet_of, edging)
    shell, depth, back = draw_shell(case, width)
    bays = draw_contents(case, shell, depth, back)
    frame = draw_face_frame(case, shell, [bay.left.part for bay in bays[1:]])
    fronts = draw_fronts(case, shell, frame, bays)
    drawers = draw_drawers(case, shell, frame, bays, fronts, fittings.slide(spec))
    if ends.left:
        _filler(case, ends.left, shell.left, Way.LEFT)
    if ends.right:
        _filler(case, ends.right, shell.right, Way.RIGHT)
    placement = place(shell.left.mark, case.parts, case.mates)
    corner = placement.corners[shell.right.mark, Axis.X]
    outside = corner + shell.right.thickness
    case.book.form(case.sizes.outside, outside, f"outside width of {spec.mark} as its parts add up")
    foot = case.of("toe_height") if spec.construction.toe is ToeKind.PLINTH else NOTHING
    parts = tuple(part.finish(spec.mark) for part in case.parts.values())
    return Case(
        spec.mark,
        spec,
        parts,
        tuple(case.mates),
        placement,
        foot,
        tuple(case.on_pins),
        case.front_strip,
        case.front_edging,
        fronts,
        drawers,
    )


def _filler(case: CaseDraft, at: FillerAt, side: PartDraft, way: Way) -> None:
    """A strip beside a side, flush at the front; its width is the part in sight plus the scribe."""
    name = PartName.FILLER_LEFT if way is Way.LEFT else PartName.FILLER_RIGHT
    scribe = PartSizes(part_mark(case.spec.mark, name)).scribe
    lie = Lie(Axis.Z, Axis.X, Way.FRONT)
    strip = case.part(name, Role.FILLER, at.filler.material, lie, side.size(Axis.Z), at.visible + scribe)
    front = _front_of(case, side)
    case.seat(strip, way.opposite, front)
    case.flush(Way.FRONT, front, strip)
    case.flush(Way.DOWN, side, strip)


def _front_of(case: CaseDraft, side: PartDraft) -> PartDraft:
    """What stands foremost at a side: its stile, if the case has a face frame."""
    stiles = [part for part in case.parts.values() if part.role is Role.STILE]
    return side if not stiles else stiles[0 if side.role is Role.LEFT_SIDE else 1]
