"""The dimension lines of a part: each from its reference edge, sorted into rows that stay clear."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.directions import Way
from ...lengths.length import Rule
from ..kit.lettering import dimension_text
from ..kit.scene import Dimension, DimensionAxis
from .part_view import FaceView, crosses, lap_at_end
from .part_words import FIRST_LANE, LANE, Names

ROW = 14.5
FIRST_COLUMN = 36.0
COLUMN = 44.0
"""Points between rows of dimensions, from the part to the first column, and between columns."""

FIGURE, WHOLE = 10.0, 11.5
"""Points of a figure, and of those of the whole part."""

ROOM = 0.7
"""The share of a row that two distances from opposite edges may take together."""


@dataclass(frozen=True, slots=True)
class EdgeDistance:
    """A distance in from a reference edge, and the feature it locates."""

    edge: Way
    distance: Fraction
    what: str = ""


def lengthwise(view: FaceView, mark: Rule, names: Names, lanes: int) -> Iterator[Dimension]:
    """Dimensions along the length, below the part and `lanes` lines of words: features first, each with its
    name, the whole length outermost."""
    length_axis = view.part.lie.length
    distances = [place for place in edge_distances(view, names) if place.edge.axis is length_axis]
    rows = _rows(distances, view.long)
    start = FIRST_LANE + 2.0 + LANE * lanes if view.part.features else 12.0
    for number, row in enumerate((*rows, None)):
        offset = -(start + ROW * number)
        if row is None:
            yield Dimension(
                DimensionAxis.ACROSS,
                0.0,
                float(view.long),
                0.0,
                0.0,
                offset - 2.0,
                dimension_text(view.long, mark),
                bold=True,
                size=WHOLE,
            )
            continue
        for place in row:
            low, high = _span(place, view.long)
            text = f"{dimension_text(place.distance, mark)}  {place.what}"
            yield Dimension(DimensionAxis.ACROSS, low, high, 0.0, 0.0, offset, text, size=FIGURE)


def crosswise(view: FaceView, mark: Rule) -> Iterator[Dimension]:
    """Dimensions across the width, right of the part: features first, the whole width outermost."""
    width_axis = view.part.lie.width
    distances = [place for place in edge_distances(view, lambda _: "") if place.edge.axis is width_axis]
    right = float(view.long)
    columns = _rows(distances, view.wide)
    for number, column in enumerate(columns):
        for place in column:
            low, high = _span(place, view.wide, flipped=not view.upright)
            yield Dimension(
                DimensionAxis.UP,
                low,
                high,
                right,
                right,
                FIRST_COLUMN + COLUMN * number,
                dimension_text(place.distance, mark),
                size=FIGURE,
            )
    whole = FIRST_COLUMN + 4.0 + COLUMN * len(columns) if view.part.features else 30.0
    yield Dimension(
        DimensionAxis.UP,
        0.0,
        float(view.wide),
        right,
        right,
        whole,
        dimension_text(view.wide, mark),
        bold=True,
        size=WHOLE,
    )


def edge_distances(view: FaceView, names: Names) -> tuple[EdgeDistance, ...]:
    """Every distance from a reference edge that locates a feature of the face, once each, nearest first.

    What lies across the part is called what `names` calls it. Where dowels stand in the end of a narrow rail
    is left to words: its drawing has no room for it."""
    found: dict[tuple[Way, Fraction], dict[str, None]] = {}

    def note(edge: Way, distance: Fraction, what: str) -> None:
        if distance:
            found.setdefault((edge, distance), {})[what] = None

    of = view.sizes.of
    for feature in view.features():
        if shoulder := lap_at_end(view, feature):
            note(feature.edges[0], shoulder, names(feature))
        for size in feature.sizes:
            if size.edge is not None and (crosses(view, feature) or not feature.bench_joint):
                name = names(feature) if crosses(view, feature) else ""
                note(size.edge, of(size.form), name or size.label)
    listed = [EdgeDistance(edge, distance, ", ".join(what)) for (edge, distance), what in found.items()]
    return tuple(sorted(listed, key=lambda place: place.distance))


def _rows(distances: list[EdgeDistance], whole: Fraction) -> list[list[EdgeDistance]]:
    """Distances in rows: one from either edge shares a row if there is room between the two."""
    rows: list[list[EdgeDistance]] = []
    for place in distances:
        for row in rows:
            other = row[0]
            apart = other.edge is not place.edge and len(row) == 1
            if apart and float(other.distance) + float(place.distance) < ROOM * float(whole):
                row.append(place)
                break
        else:
            rows.append([place])
    return rows


def _span(place: EdgeDistance, whole: Fraction, *, flipped: bool = False) -> tuple[float, float]:
    if (place.edge.sign < 0) != flipped:
        return 0.0, float(place.distance)
    return float(whole) - float(place.distance), float(whole)
