"""What a drawing shows: shapes, words and dimensions in model inches, y upwards.

Lettering, arrows and the rows of dimension lines keep their size on paper whatever the scale,
so a scene gives them in points and leaves their place to `draughting`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import Enum

from .pens import FINE, INK, Layer, Pen, Tint

Point = tuple[float, float]


class Anchor(Enum):
    """Which point of a text stands at its place."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


class DimensionAxis(Enum):
    """The direction in which a dimension is measured."""

    ACROSS = "across"
    UP = "up"


@dataclass(frozen=True, slots=True)
class Shape:
    """A polygon, or an open line when not `closed`. `name` is what it shows, for example `B1-L`."""

    points: tuple[Point, ...]
    layer: Layer
    pen: Pen | None = FINE
    tint: Tint = Tint.NONE
    closed: bool = True
    hatched: bool = False
    name: str = ""


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle: a hole as it is bored."""

    centre: Point
    radius: float
    layer: Layer
    pen: Pen | None = FINE
    tint: Tint = Tint.NONE
    name: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text. `size` and `shift` (right, up) are in points; `turn` in degrees to the left.

    The text is centred on its place in height. `backing` hides what lies behind it, `pill`
    puts a rounded frame around it. `name` is what it shows. `within` is the width and height, in
    model inches, that it must fit: it is set smaller where needed, and left out where it would be
    too small to read.
    """

    at: Point
    text: str
    size: float = 8.0
    anchor: Anchor = Anchor.MIDDLE
    turn: float = 0.0
    bold: bool = False
    colour: str = INK
    backing: Tint = Tint.NONE
    pill: bool = False
    shift: Point = (0.0, 0.0)
    layer: Layer = Layer.TEXT
    within: Point | None = None
    name: str = ""


class FigurePlace(Enum):
    """Where a dimension's figure stands. ON_LINE and CHAINED differ only where the line is too short for it:
    then it goes beyond the far end, or, in a chain of dimensions on one line, beside the line."""

    ON_LINE = "on the line"
    CHAINED = "on the line of a chain"
    BEFORE = "before the near end"
    BEYOND = "beyond the far end"
    TURNED = "turned, outwards from the line"
    AT_LOW = "beside the line, at its near end"
    AT_HIGH = "beside the line, at its far end"


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length between `low` and `high`, with extension lines from `start` to its own line.

    The line lies `offset` points beyond `base` (negative: below, or to the left). For one that runs
    ACROSS, `low` and `high` are x and `base`, `start` are y; the other way round for UP. The figure is moved
    by `nudge` points along the line where its place is taken, with a hairline to where it belongs.
    `name` is the ledger's name of the size it shows, if it has one.
    """

    axis: DimensionAxis
    low: float
    high: float
    base: float
    start: float
    offset: float
    text: str
    bold: bool = False
    size: float = 9.0
    figure: FigurePlace = FigurePlace.ON_LINE
    nudge: float = 0.0
    name: str = ""


@dataclass(frozen=True, slots=True)
class Leader:
    """A line from a label to what it labels: from `shift` points off `at` to a dot at `tip`."""

    at: Point
    tip: Point
    shift: Point = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow of `length` points centred on `at`, turned `turn` degrees to the left from pointing right.

    `most` is the longest it may be in model inches.
    """

    at: Point
    length: float
    turn: float = 0.0
    both: bool = True
    shift: Point = (0.0, 0.0)
    most: float | None = None


Item = Shape | Disc | Words | Dimension | Leader | Arrow


@dataclass(frozen=True)
class Scene:
    """Items in the order in which they are drawn, later ones on top."""

    items: tuple[Item, ...] = field(default=())
    title: str = ""

    def __iter__(self) -> Iterator[Item]:
        return iter(self.items)

    def shapes(self, name: str) -> tuple[Shape, ...]:
        """The shapes called `name`."""
        return tuple(item for item in self.items if isinstance(item, Shape) and item.name == name)


def rectangle(x: float, y: float, wide: float, high: float) -> tuple[Point, ...]:
    """The corners of a rectangle, counter-clockwise from its lower left one."""
    return ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
