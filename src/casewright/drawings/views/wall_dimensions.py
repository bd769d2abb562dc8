"""The figures of a wall: chains of widths, heights above the floor, depths in front of the wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from ...casework.extents import Stretch, heights_of, stretches_of
from ..kit.lettering import dimension_text, width_of
from ..kit.places import spread
from ..kit.scene import Dimension, DimensionAxis, FigurePlace
from .room import Wall

FIGURE, TOTAL = 10.0, 11.5
"""Points of a figure, and of the one for a whole opening."""

ROW, WHOLE = 14.0, 20.0
"""Points from one row of figures to the next, and from an opening's row to the chain of the next run."""

LEVELS, FEET = 22.0, -22.0
"""Points from the ends of a wall to the lines of heights: all above the floor, and how a case stands."""

LOW = 12
"""Inches above the floor below which a case stands on it, and no level is figured at the right."""

NARROW = 12.0
"""Points of a stretch that cannot hold even a turned figure: at either end of a chain it goes outside."""


def widths(wall: Wall, *, hung: bool, base: float, point: float) -> Iterator[Dimension]:
    """A chain of widths and the opening for each run on the floor, or for each that is `hung`: downwards from
    `base`, or upwards."""
    way, offset = (1.0, ROW) if hung else (-1.0, ROW)
    for run in wall.hung if hung else wall.low:
        opening, *stretches = stretches_of(wall.project, run)
        if len(stretches) > 1:
            links = _chain(wall, stretches, base, way * offset, point)
            yield from links
            turned = [width_of(one.text, FIGURE) for one in links if one.figure is FigurePlace.TURNED]
            offset += max((wide + ROW for wide in turned), default=ROW + 2.0)
        yield _across(wall, opening, base, way * offset, FigurePlace.ON_LINE, bold=True)
        offset += WHOLE


def _chain(
    wall: Wall, stretches: Sequence[Stretch], base: float, offset: float, point: float
) -> list[Dimension]:
    """The stretches on one line. A figure too wide for its stretch is turned; that of a filler or gap at an
    end of the chain stands outside."""
    ends = {0: FigurePlace.BEFORE, len(stretches) - 1: FigurePlace.BEYOND}
    links = []
    for number, stretch in enumerate(stretches):
        link = _across(wall, stretch, base, offset, FigurePlace.CHAINED)
        space = (link.high - link.low) / point
        if space < width_of(link.text, FIGURE) + 7.0:
            outside = number in ends and space < NARROW
            place = ends[number] if outside else FigurePlace.TURNED
            link = _across(wall, stretch, base, offset, place)
        links.append(link)
    turned = [number for number, link in enumerate(links) if link.figure is FigurePlace.TURNED]
    middles = [(links[number].low + links[number].high) / 2 / point for number in turned]
    for number, nudge in zip(turned, spread(middles, FIGURE), strict=True):
        links[number] = replace(links[number], nudge=nudge)
    return links


def _across(
    wall: Wall, stretch: Stretch, base: float, offset: float, place: FigurePlace, *, bold: bool = False
) -> Dimension:
    """A stretch of a run as a dimension: the figure is the size it names."""
    return Dimension(
        DimensionAxis.ACROSS,
        float(stretch.low),
        float(stretch.high),
        base,
        base,
        offset,
        dimension_text(wall.project.sizes.of(stretch.size), wall.project.rule),
        bold,
        TOTAL if bold else FIGURE,
        place,
        name=stretch.size.name,
    )


def heights(wall: Wall, left: float, right: float, point: float) -> Iterator[Dimension]:
    """Left, how the first case on the floor stands; right, every level above the floor on one line."""
    low = [case for case in wall.cases if case.low[2] < LOW]
    for stretch in heights_of(wall.project, wall.project.cases[low[0].mark]) if low else ():
        text = dimension_text(wall.project.sizes.of(stretch.size), wall.project.rule)
        ends = (float(stretch.low), float(stretch.high))
        yield Dimension(
            DimensionAxis.UP, *ends, left, left, FEET, text, size=FIGURE, figure=FigurePlace.CHAINED
        )
    yield from _from_one_line(
        [(level, _level_name(wall, level)) for level in _levels(wall)], wall, right, point, up=True
    )


def depths(wall: Wall, right: float, point: float) -> Iterator[Dimension]:
    """How far the cases stand out from the wall, on one line."""
    project = wall.project
    found = {project.sizes.of(project.cases[case.mark].depth) for case in wall.cases}
    yield from _from_one_line([(depth, "") for depth in sorted(found)], wall, right, point, up=False)


def _levels(wall: Wall) -> list[Fraction]:
    """The heights above the floor that are figured: tops, the undersides of what hangs, the ceiling last."""
    ends = {level for case in wall.cases for level in (case.low[2], case.high[2]) if level > LOW}
    ends |= {top.high[2] for top in wall.worktops}
    return sorted(ends | ({wall.ceiling} if wall.ceiling is not None else set()))


def _from_one_line(
    sizes: Sequence[tuple[Fraction, str]], wall: Wall, right: float, point: float, *, up: bool
) -> Iterator[Dimension]:
    """Sizes with their names, measured from the floor up or from the wall out, each figure at its end of one
    line for all: beside each other they would take the width that the wall itself needs."""
    nudges = spread([float(size) / point for size, _ in sizes], FIGURE)
    for (size, name), nudge in zip(sizes, nudges, strict=True):
        yield Dimension(
            DimensionAxis.UP,
            0.0 if up else -float(size),
            float(size) if up else 0.0,
            right,
            right,
            LEVELS,
            dimension_text(size, wall.project.rule),
            up and size == wall.ceiling,
            FIGURE,
            FigurePlace.AT_HIGH if up else FigurePlace.AT_LOW,
            nudge if up else -nudge,
            name,
        )


def _level_name(wall: Wall, level: Fraction) -> str:
    """The size that a level above the floor is: a standing case's height, or a run's lift."""
    for run in wall.runs:
        if run.run.lift == level:
            return run.lift.name
    for case in wall.cases:
        if not case.low[2] and case.high[2] == level:
            return wall.project.cases[case.mark].height.name
    return ""
