"""Turn a scene into strokes at a scale: dimension lines, ticks, leaders, hatching, lettering."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, floor, pi, radians, sin

from .lettering import CAP_HEIGHT, width_of
from .pens import FINE, HAIR, INK, Layer, Pen, Tint
from .scene import (
    Anchor,
    Arrow,
    Dimension,
    DimensionAxis,
    Disc,
    FigurePlace,
    Leader,
    Point,
    Scene,
    Shape,
    Words,
)
from .strokes import Lettering, Outline, Ring, Stroke

TICK = 2.6
BEYOND = 2.5
ROUND_FIGURE = 7.0
"""Points of a dimension line that must be left on either side of its figure together."""

TO_FIGURE = 5.0
"""Points from a dimension line to a figure beside it."""

HATCH_STEP = 5.0
LINE = Pen(0.45, INK)
TICK_PEN = Pen(1.1, INK)


def strokes(scene: Scene, point: float) -> tuple[Stroke, ...]:
    """The scene's strokes in model inches, at a scale where a point on paper covers `point` of them.

    The figures of dimensions come last, so that no line is drawn through one.
    """
    drawn: list[Stroke] = []
    figures: list[Stroke] = []
    for item in scene:
        if isinstance(item, Shape):
            drawn.extend(_shape(item, point))
        elif isinstance(item, Disc):
            drawn.append(Ring(item.centre, item.radius, item.pen, item.tint, item.layer, item.name))
        elif isinstance(item, Words):
            drawn.extend(_words(item, point))
        elif isinstance(item, Dimension):
            drawn.extend(_dimension_lines(item, point))
            figures.extend(_words(_figure(item, point), point))
        elif isinstance(item, Leader):
            drawn.extend(_leader(item, point))
        else:
            drawn.extend(_arrow(item, point))
    return (*drawn, *figures)


def _shape(item: Shape, point: float) -> Iterator[Stroke]:
    yield Outline(
        item.points, item.closed, None if item.hatched else item.pen, item.tint, item.layer, item.name
    )
    if item.hatched:
        for ends in hatching(item.points, HATCH_STEP * point):
            yield Outline(ends, False, HAIR, Tint.NONE, Layer.HATCHING)
        yield Outline(item.points, item.closed, item.pen, Tint.NONE, item.layer)


def hatching(points: tuple[Point, ...], step: float) -> Iterator[tuple[Point, Point]]:
    """Lines at 45 degrees over the rectangle that bounds `points`, `step` apart across them."""
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, high = min(y for _, y in points), max(y for _, y in points)
    along = step * 2**0.5
    for index in range(floor((left - high) / along) + 1, floor((right - low) / along) + 1):
        c = index * along  # the line x - y = c
        start, end = max(left, low + c), min(right, high + c)
        if end > start:
            yield (start, start - c), (end, end - c)


SMALLEST = 8.0
"""Points of the smallest lettering: at arm's length over a bench, smaller print is not read."""


def _kept_within(item: Words, point: float) -> float:
    """The size in points at which the text fits its space."""
    if item.within is None:
        return item.size
    wide = width_of(item.text, 1.0, bold=item.bold)
    room = (item.within[0] / point - 2.0, item.within[1] / point - 1.0)
    across, up = (room[1], room[0]) if item.turn else room
    return min(item.size, across / max(wide, 0.01), up / 0.8)


def _words(item: Words, point: float) -> Iterator[Stroke]:
    points = _kept_within(item, point)
    if points < SMALLEST:
        return
    size = points * point
    c, s = cos(radians(item.turn)), sin(radians(item.turn))
    x, y = item.at[0] + item.shift[0] * point, item.at[1] + item.shift[1] * point
    drop = CAP_HEIGHT / 2 * size
    text = Lettering(
        (x + s * drop, y - c * drop),
        item.text,
        size,
        item.anchor,
        item.turn,
        item.bold,
        item.colour,
        item.layer,
        item.name,
    )
    if item.backing is not Tint.NONE or item.pill:
        wide = width_of(item.text, size, bold=item.bold)
        middle = {Anchor.START: wide / 2, Anchor.MIDDLE: 0.0, Anchor.END: -wide / 2}[item.anchor]
        centre = (x + c * middle, y + s * middle)
        if item.pill:
            frame = _pill(centre, wide / 2 + 0.15 * size, 0.62 * size)
            yield Outline(frame, True, Pen(0.7, item.colour), Tint.PAPER, item.layer, item.name)
        else:
            half = (wide / 2 + 0.12 * size, 0.44 * size)
            yield Outline(_turned_box(centre, half, item.turn), True, None, item.backing, item.layer)
    yield text


def _turned_box(centre: Point, half: Point, turn: float) -> tuple[Point, ...]:
    c, s = cos(radians(turn)), sin(radians(turn))
    u, v = half
    return tuple(
        (centre[0] + c * a - s * b, centre[1] + s * a + c * b)
        for a, b in ((-u, -v), (u, -v), (u, v), (-u, v))
    )


def _pill(centre: Point, half: float, radius: float) -> tuple[Point, ...]:
    """A frame with round ends: straight for `half` to either side of the centre, then half circles."""
    x, y = centre
    arc = [pi * step / 8 for step in range(9)]
    right = [(x + half + radius * sin(a), y - radius * cos(a)) for a in arc]
    left = [(x - half - radius * sin(a), y + radius * cos(a)) for a in arc]
    return (*right, *left)


def _level(item: Dimension, point: float) -> float:
    """Where the dimension line lies."""
    return item.base + item.offset * point


def _place(item: Dimension, along: float, off: float) -> Point:
    return (along, off) if item.axis is DimensionAxis.ACROSS else (off, along)


def _dimension_lines(item: Dimension, point: float) -> Iterator[Stroke]:
    """Extension lines, and the dimension line with a slash at either end."""
    over = BEYOND * point * (1.0 if item.offset >= 0 else -1.0)
    level, tick = _level(item, point), TICK * point

    def line(a: Point, b: Point, pen: Pen) -> Outline:
        return Outline((_place(item, *a), _place(item, *b)), False, pen, Tint.NONE, Layer.DIMENSIONS)

    for end in (item.low, item.high):
        yield line((end, item.start + over), (end, level + over), HAIR)
        yield line((end - tick, level - tick), (end + tick, level + tick), TICK_PEN)
    yield line((item.low, level), (item.high, level), LINE)
    if item.nudge:
        at = _along(item, point)
        out = point if item.offset >= 0 else -point
        yield line((at - item.nudge * point, level), (at, level + (TO_FIGURE - 1.0) * out), HAIR)


def _figure(item: Dimension, point: float) -> Words:
    """A dimension's text where `item.figure` has it stand."""
    wide = width_of(item.text, item.size, bold=item.bold)
    across = item.axis is DimensionAxis.ACROSS
    along, off, anchor = _along(item, point), _level(item, point), Anchor.MIDDLE
    out = point if item.offset >= 0 else -point
    too_short = item.high - item.low < ((wide if across else item.size) + ROUND_FIGURE) * point
    if item.figure is FigurePlace.BEFORE:
        along, anchor = item.low - 5.0 * point, Anchor.END
    elif item.figure is FigurePlace.BEYOND or (too_short and across and item.figure is FigurePlace.ON_LINE):
        along, anchor = item.high + 5.0 * point, Anchor.START
    elif item.figure is FigurePlace.TURNED:
        off += (0.5 * wide + TO_FIGURE) * out
    elif item.figure in (FigurePlace.AT_LOW, FigurePlace.AT_HIGH):
        off += TO_FIGURE * out
        anchor = Anchor.START if item.offset >= 0 else Anchor.END
    elif too_short and item.figure is FigurePlace.CHAINED:
        off += (0.5 * item.size + 2.5 if across else 0.5 * wide + 4.0) * out
    elif too_short:
        along = item.high + (0.5 * item.size + 4.0) * point
    return Words(
        _place(item, along, off),
        item.text,
        item.size,
        anchor,
        turn=90.0 if item.figure is FigurePlace.TURNED else 0.0,
        bold=item.bold,
        backing=Tint.PAPER,
        layer=Layer.DIMENSIONS,
        name=item.name,
    )


def _along(item: Dimension, point: float) -> float:
    """Where along its line a figure stands that needs no place outside it."""
    ends = {FigurePlace.AT_LOW: item.low, FigurePlace.AT_HIGH: item.high}
    return ends.get(item.figure, (item.low + item.high) / 2) + item.nudge * point


def _leader(item: Leader, point: float) -> Iterator[Stroke]:
    start = (item.at[0] + item.shift[0] * point, item.at[1] + item.shift[1] * point)
    yield Outline((start, item.tip), False, FINE, Tint.NONE, Layer.TEXT)
    yield Ring(item.tip, 1.3 * point, None, Tint.DARK, Layer.TEXT)


def _arrow(item: Arrow, point: float) -> Iterator[Stroke]:
    x, y = item.at[0] + item.shift[0] * point, item.at[1] + item.shift[1] * point
    c, s = cos(radians(item.turn)), sin(radians(item.turn))
    half, head = item.length / 2 * point, 4.5 * point
    if item.most is not None:
        half = min(half, item.most / 2)

    def place(u: float, v: float) -> Point:
        return (x + c * u - s * v, y + s * u + c * v)

    yield Outline((place(-half, 0.0), place(half, 0.0)), False, Pen(0.8, INK), Tint.NONE, Layer.TEXT)
    for way in (1.0, -1.0) if item.both else (1.0,):
        tip, wing = way * half, way * (half - head)
        tri = (place(tip, 0.0), place(wing, 0.34 * head), place(wing, -0.34 * head))
        yield Outline(tri, True, None, Tint.DARK, Layer.TEXT)
