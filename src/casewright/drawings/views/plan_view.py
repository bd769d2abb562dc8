"""A wall from above: cases on the floor in solid lines, wall cases above them dashed."""

from __future__ import annotations

from collections.abc import Iterator

from ...casework.extents import stretches_of
from ...casework.parts.part import Role
from ..kit.lettering import dimension_text
from ..kit.pens import BOLD, FIRM, HIDDEN, SOFT, Layer, Pen, Tint
from ..kit.scene import Dimension, DimensionAxis, Item, Scene, Shape, Words, rectangle
from .elevation import frame_of, stretch_dimension
from .room import StandingCase, Wall

WALL_THICK = 3.0
_LINE = Pen(0.6)
_UPRIGHT = {Role.LEFT_SIDE, Role.RIGHT_SIDE, Role.BACK, Role.DIVIDER, Role.FILLER, Role.STILE}
_IN_SIGHT = _UPRIGHT | {Role.BOTTOM, Role.TOP}


def plan_view(wall: Wall) -> Scene:
    """The wall from above; the wall itself is hatched, the room lies below it."""
    cases = wall.cases
    left, right, _ = frame_of(wall, cases)
    over = 0.02 * (right - left)
    items: list[Item] = [
        Shape(
            rectangle(left - over, 0.0, right - left + 2 * over, WALL_THICK), Layer.ROOM, None, hatched=True
        ),
        Shape(((left - over, 0.0), (right + over, 0.0)), Layer.ROOM, BOLD, closed=False),
    ]
    for run in (*wall.low, *wall.hung):
        for case in wall.run_cases(run):
            items.extend(_from_above(case, hung=bool(run.run.lift)))
    items.extend(_dimensions(wall, cases, left, right))
    return Scene(tuple(items), f"{wall.name}, plan")


def _from_above(case: StandingCase, *, hung: bool) -> Iterator[Item]:
    x, y = float(case.low[0]), float(case.low[1])
    wide, deep = float(case.high[0]) - x, float(case.high[1]) - y
    outline = rectangle(x, y, wide, deep)
    if hung:
        yield Shape(outline, Layer.CASES, HIDDEN, name=case.mark)
        yield Words(
            (x + wide / 2, y), case.mark, 8.5, bold=True, colour=SOFT, backing=Tint.CALM, shift=(0.0, 7.0)
        )
        return
    for standing in sorted(case.parts, key=lambda part: part.high[2]):
        if standing.part.role in _IN_SIGHT:
            tint = Tint.CALM if standing.part.role in (Role.BOTTOM, Role.TOP) else Tint.EDGE
            box = rectangle(
                float(standing.low[0]),
                float(standing.low[1]),
                float(standing.size[0]),
                float(standing.size[1]),
            )
            yield Shape(box, Layer.CASES, _LINE, tint, name=standing.part.mark)
    yield Shape(outline, Layer.CASES, FIRM, name=case.mark)
    yield Words((x + wide / 2, y), case.mark, 11.0, bold=True, pill=True, shift=(0.0, 14.0))


def _dimensions(wall: Wall, cases: tuple[StandingCase, ...], left: float, right: float) -> Iterator[Item]:
    """Widths in front of the cases on the floor, and the depths of all cases."""
    front = float(min(case.low[1] for case in cases))
    for run in wall.low:
        opening, *stretches = stretches_of(wall.project, run)
        for stretch in stretches if len(stretches) > 1 else ():
            yield stretch_dimension(wall, stretch, front, -14.0, chained=True)
        yield stretch_dimension(wall, opening, front, -30.0, bold=True)
    depths = {wall.project.sizes.of(wall.project.cases[case.mark].depth) for case in cases}
    for number, depth in enumerate(sorted(depths)):
        yield Dimension(
            DimensionAxis.UP,
            -float(depth),
            0.0,
            right,
            right,
            22.0 + 36.0 * number,
            dimension_text(depth, wall.project.rule),
            size=9.5,
        )
    yield Words((left, 0.0), wall.name, 7.5, colour=SOFT, shift=(-26.0, 4.0))
