"""A wall from above: cases on the floor in solid lines, wall cases above them dashed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...casework.parts.part import Role
from ..kit.pens import BOLD, FIRM, HIDDEN, SOFT, Layer, Pen, Tint
from ..kit.places import PaperBox, box_around, box_of, placed_within
from ..kit.scene import Item, Scene, Shape, Words, rectangle
from .elevation import usual_point
from .room import StandingCase, Wall
from .wall_dimensions import depths

WALL_THICK = 3.0
FROM_FRONT = 3.0
"""Points between the front of a case and its mark."""

_LINE = Pen(0.6)
_UPRIGHT = {Role.LEFT_SIDE, Role.RIGHT_SIDE, Role.BACK, Role.DIVIDER, Role.FILLER, Role.STILE}
_IN_SIGHT = _UPRIGHT | {Role.BOTTOM, Role.TOP}


def plan_view(wall: Wall, point: float | None = None) -> Scene:
    """The wall from above, to stand below its elevation, which has the widths; the wall is hatched, the room
    lies below it. Words are set where a point on paper covers `point` inches, by default as small as walls
    usually are in print."""
    point = usual_point(wall) if point is None else point
    left, right = wall.ends
    over = 0.02 * (right - left)
    items: list[Item] = [
        Shape(
            rectangle(left - over, 0.0, right - left + 2 * over, WALL_THICK), Layer.ROOM, None, hatched=True
        ),
        Shape(((left - over, 0.0), (right + over, 0.0)), Layer.ROOM, BOLD, closed=False),
    ]
    low = [case for run in wall.low for case in wall.run_cases(run)]
    hung = [case for run in wall.hung for case in wall.run_cases(run)]
    for case in low:
        items.extend(_from_above(case))
    items.extend(Shape(_outline(case), Layer.CASES, HIDDEN, name=case.mark) for case in hung)
    taken: list[PaperBox] = []
    items.extend(_mark(case, point, taken) for case in low)
    items.extend(_marks_above(hung, point, taken))
    items.extend(depths(wall, right, point))
    return Scene(tuple(items), f"{wall.name}, plan")


def _outline(case: StandingCase) -> tuple[tuple[float, float], ...]:
    x, y = float(case.low[0]), float(case.low[1])
    return rectangle(x, y, float(case.high[0]) - x, float(case.high[1]) - y)


def _from_above(case: StandingCase) -> Iterator[Item]:
    for standing in sorted(case.parts, key=lambda part: part.high[2]):
        if standing.part.role in _IN_SIGHT:
            tint = Tint.CALM if standing.part.role in (Role.BOTTOM, Role.TOP) else Tint.EDGE
            (x, y, _), (wide, deep, _) = standing.low, standing.size
            box = rectangle(float(x), float(y), float(wide), float(deep))
            yield Shape(box, Layer.CASES, _LINE, tint, name=standing.part.mark)
    yield Shape(_outline(case), Layer.CASES, FIRM, name=case.mark)


def _mark(case: StandingCase, point: float, taken: list[PaperBox]) -> Words:
    """The mark of a case on the floor at its front, turned where the case is narrow."""
    at = ((float(case.low[0]) + float(case.high[0])) / 2, float(case.low[1]))
    ways = [
        Words(at, case.mark, 10.0, bold=True, pill=pill, backing=Tint.NONE if pill else Tint.PAPER, turn=turn)
        for pill, turn in ((True, 0.0), (False, 0.0), (False, 90.0))
    ]
    room = (float(case.high[0]) - float(case.low[0])) / point
    boxes = [box_of(words, point) for words in ways]
    chosen = next((n for n, box in enumerate(boxes) if box.right - box.left < room), len(ways) - 1)
    up = (boxes[chosen].high - boxes[chosen].low) / 2 + FROM_FRONT
    words = replace(ways[chosen], shift=(0.0, up))
    taken.append(box_of(words, point))
    return words


def _marks_above(cases: list[StandingCase], point: float, taken: list[PaperBox]) -> list[Words]:
    """The marks of the cases that hang, or none where one of them has no room: the elevation has them too."""
    marks = []
    for case in cases:
        (x, y, _), (far, back, _) = case.low, case.high
        room = box_around(((float(x), float(y)), (float(far) - float(x), float(back) - float(y))), point)
        middle = ((float(x) + float(far)) / 2, (float(y) + float(back)) / 2)
        words = Words(middle, case.mark, 8.5, bold=True, colour=SOFT, backing=Tint.CALM)
        placed = placed_within(room, words, point, taken)
        if placed is None:
            return []
        marks.append(placed)
    return marks
