"""One case, from its specification to parts with features, places and closed loops."""

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
from .interior import draw_contents
from .meetings import Chain, Mate, Placement, place
from .shell import draw_shell


@dataclass(frozen=True)
class FillerAt:
    """A filler with the form of its width in sight, which the run's opening depends on."""

    filler: Filler
    visible: Affine


@dataclass(frozen=True)
class Ends:
    """What closes a case towards the walls, where it ends its run."""

    left: FillerAt | None = None
    right: FillerAt | None = None


@dataclass(frozen=True)
class Case(CaseSizes):
    """A case drawn up, with its sizes: `case.inside`, `case.height` and so on.

    `outside` is its width as its parts add up, `foot` how far its sides stand up, `on_pins` its
    clear heights that have shelves on pins. `placement` holds each part's low corner from the low
    corner of the left side.
    """

    spec: CaseSpec
    parts: tuple[Part, ...]
    mates: tuple[Mate, ...]
    placement: Placement
    foot: Affine
    on_pins: tuple[ShelvesOnPins, ...] = ()

    @property
    def chains(self) -> tuple[Chain, ...]:
        """Every loop that closes inside the case."""
        return self.placement.chains


def draw_case(
    book: Book,
    spec: CaseSpec,
    width: Affine,
    rounding: Fraction,
    ends: Ends,
    sheet_of: Mapping[str, str] | None = None,
) -> Case:
    """Draw up one case `width` wide; bays that share its width are brought to `rounding`.

    `sheet_of` names another material for single parts, by their marks.
    """
    case = CaseDraft(book, spec, rounding, sheet_of)
    shell, depth, back = draw_shell(case, width)
    draw_contents(case, shell, depth, back)
    if ends.left:
        _filler(case, ends.left, shell.left, Way.LEFT)
    if ends.right:
        _filler(case, ends.right, shell.right, Way.RIGHT)
    placement = place(shell.left.mark, case.parts, case.mates)
    corner = placement.corners[shell.right.mark, Axis.X]
    outside = corner + shell.right.thickness
    case.book.form(case.sizes.outside.name, outside, f"outside width of {spec.mark} as its parts add up")
    foot = case.of("toe_height") if spec.construction.toe is ToeKind.PLINTH else NOTHING
    parts = tuple(part.finish(spec.mark) for part in case.parts.values())
    return Case(spec.mark, spec, parts, tuple(case.mates), placement, foot, tuple(case.on_pins))


def _filler(case: CaseDraft, at: FillerAt, side: PartDraft, way: Way) -> None:
    """A strip beside a side, flush in front, wider than what is seen by what the scribe takes."""
    name = PartName.FILLER_LEFT if way is Way.LEFT else PartName.FILLER_RIGHT
    scribe = PartSizes(part_mark(case.spec.mark, name)).scribe
    lie = Lie(Axis.Z, Axis.X, Way.FRONT)
    strip = case.part(name, Role.FILLER, at.filler.material, lie, side.length, at.visible + scribe)
    case.seat(strip, way.opposite, side)
    case.flush(Way.FRONT, side, strip)
    case.flush(Way.DOWN, side, strip)
