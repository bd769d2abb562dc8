"""The drawers of a case as they were drawn up: what stands behind which front, for all who ask later."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ....shop.slides import Slide
from ....sizes.affine import NOTHING, Affine


@dataclass(frozen=True)
class DrawerParts:
    """The marks of the five parts of a drawer box."""

    left: str
    right: str
    front: str
    back: str
    bottom: str

    @property
    def marks(self) -> tuple[str, ...]:
        """All of them, in the order in which they go together."""
        return (self.left, self.front, self.back, self.bottom, self.right)


@dataclass(frozen=True)
class DrawerRoom:
    """The room of one drawer: how `wide` its opening is, how `high` its own stretch of it, and how `deep` the
    case is behind the drawer front."""

    wide: Affine
    high: Affine
    deep: Affine


@dataclass(frozen=True)
class BoxSizes:
    """What a drawer box is to come to outside; `up` is where the groove of its bottom begins, above the lower
    edges of its sides."""

    width: Affine
    height: Affine
    length: Affine
    up: Affine


@dataclass(frozen=True)
class OnSlides:
    """A drawer on its slides, of that `length`. Between the box and the opening they take `beside` on the
    left and as much on the right; `blocking` brings them level, left and right, with a face frame that
    stands into the bay. `box` is None where the opening leaves no room for one of these `sizes`."""

    slide: Slide
    length: Fraction
    sizes: BoxSizes
    beside: Affine
    blocking: tuple[Affine, Affine] = (NOTHING, NOTHING)
    box: DrawerParts | None = None


@dataclass(frozen=True)
class PlacedDrawer:
    """One drawer: the bay and the front it is behind, both counted from 1 (fronts from the bottom up), the
    mark of that front and the room behind it. `on` is None where the job names no slides, or where the case
    takes none of their lengths."""

    bay: int
    place: int
    front: str
    room: DrawerRoom
    slide: Slide | None = None
    on: OnSlides | None = None

    @property
    def box(self) -> DrawerParts | None:
        """Its box; None where none is drawn."""
        return self.on.box if self.on else None
