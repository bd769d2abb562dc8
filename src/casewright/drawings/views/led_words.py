"""Words that have no room where they belong: beside the sheet, with a line that leads to their place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil, hypot

from ...planner.plan import Piece
from ..kit.places import PaperBox, box_of, is_free
from ..kit.scene import Leader, Point, Words

ABOVE, BELOW, BEFORE, BEYOND = (0.0, 1.0), (0.0, -1.0), (-1.0, 0.0), (1.0, 0.0)
"""The sides of a sheet, as the way from it."""

AWAY = (4.0, 15.0, 26.0, 37.0)
"""Points from the sheet's edge to the words in each row beside it."""

ASIDE = tuple(12.0 * step for step in range(-4, 5))
"""Points that the words may stand to the side of the place that they lead to."""

SPACING = 4.0
"""Points between the small boxes that stand for a line: words are thicker than the gaps between them."""

CLEAR = 1.5
"""Points between a line and the words that it passes."""


def led_out(
    words: Words,
    tips: Sequence[Point],
    sides: Sequence[Point],
    root: Piece,
    point: float,
    taken: list[PaperBox],
) -> tuple[Leader, Words]:
    """The words on one of the sides of the sheet `root`, and the line that leads to one of the `tips`.

    Of the places where they cover nothing, the one whose line is shortest and crosses no words; the shortest
    of all where there is none such. The words and their line are then taken too.
    """
    plain = box_of(replace(words, at=(0.0, 0.0), shift=(0.0, 0.0)), point)
    ends = [tip for tip in tips if not any(_covers(box, tip, point) for box in taken)] or list(tips)
    edges = {edge: None for tip in ends for edge in _edges(tip, sides, root)}
    spots = {edge: list(_spots(edge, point, plain)) for edge in edges}
    outside = {way: [box for box in taken if _reaches(box, way, root, point)] for way in sides}
    free = {
        edge: [one for one in found if is_free(one.box, outside[edge[1]])] for edge, found in spots.items()
    }
    chosen = free if any(free.values()) else spots
    places = [
        _Place(spot, tip, _line(spot, tip, point))
        for tip in ends
        for edge in _edges(tip, sides, root)
        for spot in chosen[edge]
    ]
    places.sort(key=lambda place: place.long)
    around = [_grown(box) for box in taken]
    clear = (one for room in (around, taken) for one in places if not one.crosses(room))
    place = next(clear, places[0])
    taken.append(place.spot.box)
    taken.extend(_along(*place.line))
    return place.spot.leader(place.tip), place.spot.set(words, point)


Edge = tuple[Point, Point]
"""A point of the sheet's edge, in model inches, and the way from the sheet there."""


@dataclass(frozen=True, slots=True)
class _Spot:
    """A spot beside the sheet: the point `at` of its edge, in model inches; in points, how far off it a line
    begins, and the space of the words there."""

    at: Point
    shift: Point
    box: PaperBox

    def leader(self, tip: Point) -> Leader:
        return Leader(self.at, tip, self.shift)

    def set(self, words: Words, point: float) -> Words:
        x, y = (self.box.left + self.box.right) / 2, (self.box.low + self.box.high) / 2
        return replace(words, at=self.at, shift=(x - self.at[0] / point, y - self.at[1] / point))


@dataclass(frozen=True, slots=True)
class _Place:
    """A spot for words and the line from there to a tip, in points."""

    spot: _Spot
    tip: Point
    line: tuple[Point, Point]

    @property
    def long(self) -> float:
        (x, y), (u, v) = self.line
        return hypot(x - u, y - v)

    def crosses(self, boxes: Iterable[PaperBox]) -> bool:
        (x, y), (u, v) = self.line
        left, right, low, high = min(x, u), max(x, u), min(y, v), max(y, v)
        # Most boxes lie wholly to one side, which is soon seen.
        return any(
            box.crossed(*self.line)
            for box in boxes
            if box.left < right and box.right > left and box.low < high and box.high > low
        )


def _edges(tip: Point, sides: Sequence[Point], root: Piece) -> Iterator[Edge]:
    """The points of the sheet's edges straight beside a tip."""
    for way in sides:
        x = {-1.0: 0.0, 1.0: float(root.length)}.get(way[0], tip[0])
        y = {-1.0: 0.0, 1.0: float(root.width)}.get(way[1], tip[1])
        yield (x, y), way


def _spots(edge: Edge, point: float, plain: PaperBox) -> Iterator[_Spot]:
    """The spots off one point of the edge for words that take `plain` about their middle."""
    at, way = edge
    half = (way[0] * (plain.right + 1.0), way[1] * (plain.high + 1.0))
    for away in AWAY:
        for aside in ASIDE:
            shift = (way[0] * away + abs(way[1]) * aside, way[1] * away + abs(way[0]) * aside)
            x, y = at[0] / point + shift[0] + half[0], at[1] / point + shift[1] + half[1]
            yield _Spot(at, shift, PaperBox(x + plain.left, y + plain.low, x + plain.right, y + plain.high))


def _line(spot: _Spot, tip: Point, point: float) -> tuple[Point, Point]:
    (x, y), (right, up) = spot.at, spot.shift
    return (x / point + right, y / point + up), (tip[0] / point, tip[1] / point)


def _reaches(box: PaperBox, way: Point, root: Piece, point: float) -> bool:
    """Whether a box has part in the space beside the sheet on one side: only those few matter there."""
    if way[0]:
        return box.right > float(root.length) / point if way[0] > 0 else box.left < 0.0
    return box.high > float(root.width) / point if way[1] > 0 else box.low < 0.0


def _covers(box: PaperBox, tip: Point, point: float) -> bool:
    return box.left < tip[0] / point < box.right and box.low < tip[1] / point < box.high


def _grown(box: PaperBox) -> PaperBox:
    return PaperBox(box.left - CLEAR, box.low - CLEAR, box.right + CLEAR, box.high + CLEAR)


def _along(start: Point, end: Point) -> Iterator[PaperBox]:
    """The line as a row of small boxes, which other words keep clear of."""
    steps = ceil(hypot(end[0] - start[0], end[1] - start[1]) / SPACING)
    for step in range(steps + 1):
        share = step / steps if steps else 0.0
        x, y = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
        yield PaperBox(x - 0.5, y - 0.5, x + 0.5, y + 0.5)
