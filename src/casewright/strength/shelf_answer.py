"""Whether a shelf meets a published limit, and what would make it meet it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction
from functools import lru_cache
from math import floor

from .beam import EndSupport
from .loaded_shelf import LoadedShelf, ShelfMaterial, ShelfSag, ShelfStrip, sag_of
from .sag_limits import SagLimit

SIXTEENTH = Fraction(1, 16)

JUDGED_KEPT = 4096
"""Judged shelves kept: those of a large job, with what was tried on each to mend it."""

USUAL_HEIGHTS = tuple(Fraction(quarters, 4) for quarters in (4, 5, 6, 7, 8, 10, 12))
"""Heights in inches that front edgings are made in. Common practice, no source."""


@dataclass(frozen=True)
class ShelfVerdict:
    """A shelf held against one limit: the sag the limit speaks of, at once or after years, and what it
    allows."""

    shelf: LoadedShelf
    limit: SagLimit
    sag: ShelfSag
    at_once: ShelfSag
    after_years: ShelfSag
    allowed: Fraction

    @property
    def meets(self) -> bool:
        """Whether the figure of the source is met; it says nothing about a shelf being safe."""
        return self.sag.most <= self.allowed

    @property
    def meets_only_at_once(self) -> bool:
        """Whether the figure is met at once, and no longer after years."""
        return self.meets and self.after_years.most > self.allowed


@lru_cache(maxsize=JUDGED_KEPT)
def against_limit(shelf: LoadedShelf, limit: SagLimit) -> ShelfVerdict:
    """Hold a shelf against a limit. The limit goes by the distance between two neighbouring supports."""
    first, later = sag_of(shelf, years=False), sag_of(shelf, years=True)
    sag = later if limit.after_years else first
    return ShelfVerdict(shelf, limit, sag, first, later, limit.allowed(shelf.clear_span))


class CureKind(Enum):
    """What can be changed of a shelf so that it sags less."""

    FRONT_STRIP = "front edging"
    BOTH_STRIPS = "strips at front and back"
    OTHER_PANEL = "another panel"
    FIXED_TO_BACK = "fixed, and fastened to the back"
    THICKER = "thicker panel"
    MIDDLE_SUPPORT = "support at the middle"
    SHORTER = "shorter span"


@dataclass(frozen=True)
class ShelfCure:
    """One change that makes a shelf meet a limit; `size` is the strip's height, the panel's thickness or the
    span in inches, None where the change has none. `changed` is the shelf with it."""

    kind: CureKind
    size: Fraction | None
    changed: LoadedShelf


def longest_span(shelf: LoadedShelf, limit: SagLimit, up_to: Fraction = Fraction(120)) -> Fraction | None:
    """The longest span, in sixteenths of an inch, over which the shelf meets the limit.

    A support at the middle stays there. None where no span of an inch or more does. The sag grows
    faster with the span than any limit, so the spans that meet it are those up to the longest.
    """

    def meets(sixteenths: int) -> bool:
        return against_limit(replace(shelf, span=sixteenths * SIXTEENTH), limit).meets

    low, high = floor(1 / SIXTEENTH), floor(up_to / SIXTEENTH)
    if not meets(low):
        return None
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if meets(middle) else (low, middle - 1)
    return low * SIXTEENTH


def cures(
    shelf: LoadedShelf,
    limit: SagLimit,
    edging: ShelfStrip | None = None,
    thicknesses: Sequence[Fraction] = (),
    panels: Iterable[tuple[Fraction, ShelfMaterial]] = (),
    *,
    can_fix: bool = False,
    can_edge_back: bool = True,
) -> Iterator[ShelfCure]:
    """Single changes that make a shelf meet the limit, the least work first, each worked out when it is asked
    for; none where it meets it already.

    `edging` is a strip whose width and material may serve at the usual heights, with its upper face as it
    says; `thicknesses` are those the panel can be bought in, `panels` others that may take its place, each
    so thick and of such a material; `can_fix` tells that a loose shelf may be fixed and screwed to the back,
    `can_edge_back` that a strip can go along its rear edge. The order is common practice, no source.
    """
    if against_limit(shelf, limit).meets:
        return
    front = _least(CureKind.FRONT_STRIP, limit, _with_strips(shelf, edging, both=False))
    both = _with_strips(shelf, edging, both=True) if can_edge_back and front is None else ()
    if front:
        yield front
    tries = (
        (CureKind.BOTH_STRIPS, both),
        (CureKind.OTHER_PANEL, _of_others(shelf, panels)),
        (CureKind.FIXED_TO_BACK, _fixed(shelf) if can_fix else ()),
        (CureKind.THICKER, _thicker(shelf, thicknesses)),
        (CureKind.MIDDLE_SUPPORT, () if shelf.middle else [(None, replace(shelf, middle=True))]),
    )
    for kind, changes in tries:
        if cure := _least(kind, limit, changes):
            yield cure
    longest = longest_span(shelf, limit)
    if longest is not None:
        yield ShelfCure(CureKind.SHORTER, longest, replace(shelf, span=longest))


_Change = tuple[Fraction | None, LoadedShelf]


def _least(kind: CureKind, limit: SagLimit, changes: Sequence[_Change]) -> ShelfCure | None:
    """The first change that meets the limit."""
    return next(
        (ShelfCure(kind, size, one) for size, one in changes if against_limit(one, limit).meets), None
    )


def _with_strips(shelf: LoadedShelf, edging: ShelfStrip | None, *, both: bool) -> Sequence[_Change]:
    if edging is None or (both and shelf.back_held):
        return ()
    strips = [replace(edging, height=height) for height in USUAL_HEIGHTS if height > shelf.thickness]
    fronts = [one for one in strips if shelf.front is None or one.height > shelf.front.height]
    return [(one.height, replace(shelf, front=one, back=one if both else shelf.back)) for one in fronts]


def _fixed(shelf: LoadedShelf) -> Sequence[_Change]:
    return [(None, replace(shelf, support=EndSupport.DADO, back_held=True))]


def _of_others(shelf: LoadedShelf, panels: Iterable[tuple[Fraction, ShelfMaterial]]) -> Sequence[_Change]:
    return [(None, replace(shelf, thickness=thickness, material=material)) for thickness, material in panels]


def _thicker(shelf: LoadedShelf, thicknesses: Sequence[Fraction]) -> Sequence[_Change]:
    return [(one, replace(shelf, thickness=one)) for one in sorted(thicknesses) if one > shelf.thickness]
