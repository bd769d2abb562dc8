"""A wall from the front: floor, ceiling, cases without doors, shelves and chains of dimensions."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...casework.extents import Stretch, heights_of, stretches_of
from ...casework.parts.part import Role
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, FINE, FIRM, HIDDEN, SOFT, Layer, Pen, Tint
from ..kit.scene import Dimension, DimensionAxis, Item, Scene, Shape, Words, rectangle
from .room import Standing, StandingCase, Wall

_TINTS = {
    Role.BACK: Tint.THIN,
    Role.FILLER: Tint.CALM,
    Role.TOE_KICK: Tint.SHADE,
    Role.PLINTH_FRONT: Tint.SHADE,
    Role.PLINTH_BACK: Tint.SHADE,
    Role.PLINTH_END: Tint.SHADE,
}
_HIDDEN_ROLES = {Role.MOUNTING_STRIP, Role.BACK_STRETCHER}
_LINE = Pen(0.6)
FLOOR_BELOW = 1.6


def elevation(wall: Wall) -> Scene:
    """The wall as it looks before doors are hung."""
    items: list[Item] = []
    cases = wall.cases
    left, right, top = frame_of(wall, cases)
    items.extend(_room(left, right, top, _ceiling(wall)))
    for case in cases:
        items.extend(_case(case))
    for case in cases:
        x = (float(case.low[0]) + float(case.high[0])) / 2
        y = (float(case.low[2]) + float(case.high[2])) / 2
        items.append(Words((x, y), case.mark, 13.0, bold=True, pill=True, name=case.mark))
    items.extend(_widths(wall, cases))
    items.extend(_heights(wall, cases, left, right))
    return Scene(tuple(items), f"{wall.name}, elevation")


def _ceiling(wall: Wall) -> Fraction | None:
    return next((run.run.ceiling for run in wall.runs if run.run.ceiling is not None), None)


def frame_of(wall: Wall, cases: tuple[StandingCase, ...]) -> tuple[float, float, float]:
    """The left and right end of what is drawn, and the top of the highest case."""
    openings = [stretches_of(wall.project, run)[0] for run in wall.runs]
    left, right = min(one.low for one in openings), max(one.high for one in openings)
    return float(left), float(right), float(max(case.high[2] for case in cases))


def _room(left: float, right: float, top: float, ceiling: Fraction | None) -> Iterator[Item]:
    over = 0.02 * (right - left)
    floor = rectangle(left - over, -FLOOR_BELOW, right - left + 2 * over, FLOOR_BELOW)
    yield Shape(floor, Layer.ROOM, None, hatched=True)
    yield Shape(((left - over, 0.0), (right + over, 0.0)), Layer.ROOM, BOLD, closed=False)
    high = float(ceiling) if ceiling is not None else top
    for x in (left, right):
        yield Shape(((x, 0.0), (x, high)), Layer.ROOM, FINE, closed=False)
    if ceiling is not None:
        above = rectangle(left - over, high, right - left + 2 * over, FLOOR_BELOW)
        yield Shape(above, Layer.ROOM, None, hatched=True)
        yield Shape(((left - over, high), (right + over, high)), Layer.ROOM, BOLD, closed=False)


def _case(case: StandingCase) -> Iterator[Item]:
    """The case's parts from back to front, so that near ones cover far ones."""
    for standing in sorted(case.parts, key=lambda part: part.low[1], reverse=True):
        role = standing.part.role
        if role in _HIDDEN_ROLES:
            continue
        yield _seen(standing, role)
    x, z = float(case.low[0]), float(case.low[2])
    wide, high = float(case.high[0]) - x, float(case.high[2]) - z
    yield Shape(rectangle(x, z, wide, high), Layer.CASES, FIRM, name=case.mark)


def _seen(standing: Standing, role: Role) -> Shape:
    box = rectangle(
        float(standing.low[0]), float(standing.low[2]), float(standing.size[0]), float(standing.size[2])
    )
    if role is Role.ADJUSTABLE_SHELF:
        return Shape(box, Layer.CASES, HIDDEN, Tint.FACE, name=standing.part.mark)
    return Shape(box, Layer.CASES, _LINE, _TINTS.get(role, Tint.EDGE), name=standing.part.mark)


def _widths(wall: Wall, cases: tuple[StandingCase, ...]) -> Iterator[Item]:
    """A chain of widths for each run: under the floor for those on it, above for those that hang."""
    top = float(_ceiling(wall) or max(case.high[2] for case in cases)) + FLOOR_BELOW
    for runs, base, way in ((wall.low, -FLOOR_BELOW, -1.0), (wall.hung, top, 1.0)):
        offset = 14.0
        for run in runs:
            opening, *stretches = stretches_of(wall.project, run)
            for stretch in stretches if len(stretches) > 1 else ():
                yield stretch_dimension(wall, stretch, base, way * offset, chained=True)
            if len(stretches) > 1:
                offset += 16.0
            yield stretch_dimension(wall, opening, base, way * offset, bold=True)
            offset += 20.0


def stretch_dimension(
    wall: Wall,
    stretch: Stretch,
    base: float,
    offset: float,
    *,
    bold: bool = False,
    chained: bool = False,
) -> Dimension:
    """A stretch of a run as a dimension: the figure is the size it names."""
    text = dimension_text(wall.project.sizes.of(stretch.size), wall.project.rule)
    size = 11.0 if bold else 9.5
    low, high = float(stretch.low), float(stretch.high)
    return Dimension(
        DimensionAxis.ACROSS,
        low,
        high,
        base,
        base,
        offset,
        text,
        bold,
        size,
        chained=chained,
        name=stretch.size.name,
    )


def _heights(wall: Wall, cases: tuple[StandingCase, ...], left: float, right: float) -> Iterator[Item]:
    """Left, the heights of a case on the floor; right, the heights of everything above."""
    mark = wall.project.rule
    low = [case for case in cases if not case.low[2] or case.low[2] < 12]
    if low:
        for stretch in heights_of(wall.project, wall.project.cases[low[0].mark]):
            text = dimension_text(wall.project.sizes.of(stretch.size), mark)
            ends = (float(stretch.low), float(stretch.high))
            yield Dimension(DimensionAxis.UP, *ends, left, left, -26.0, text, size=9.5, chained=True)
    stops = sorted({level for case in cases for level in (case.low[2], case.high[2])} | {Fraction(0)})
    stops = [stop for stop in stops if stop == 0 or stop > 12]
    for number, stop in enumerate(stops[1:]):
        text = dimension_text(stop, mark)
        offset = 22.0 + 36.0 * number
        name = _height_name(wall, stop)
        yield Dimension(DimensionAxis.UP, 0.0, float(stop), right, right, offset, text, size=9.5, name=name)
    ceiling = _ceiling(wall)
    if ceiling is not None:
        offset = 22.0 + 36.0 * (len(stops) - 1)
        text = dimension_text(ceiling, mark)
        yield Dimension(
            DimensionAxis.UP, 0.0, float(ceiling), right, right, offset, text, bold=True, size=10.5
        )
        at = (right, float(ceiling) + FLOOR_BELOW)
        yield Words(at, "ceiling", 7.5, colour=SOFT, shift=(offset, 7.0))


def _height_name(wall: Wall, level: Fraction) -> str:
    """The size that a level above the floor is: a standing case's height, or a run's lift."""
    for run in wall.runs:
        if run.run.lift == level:
            return run.lift.name
    for case in wall.cases:
        if not case.low[2] and case.high[2] == level:
            return wall.project.cases[case.mark].height.name
    return ""
