"""A row of hung cases on its wall from the front: studs, outlines, every screw, the level line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...bearing.borne import Borne
from ...bearing.hanging_places import CasePlace, case_places
from ...bearing.hanging_sheet import RowTold
from ...bearing.hung_cases import Hanging
from ..kit.pages import PlacedScene, fit_set
from ..kit.pens import BOLD, FIRM, HIDDEN, INK, Layer, Pen, Tint
from ..kit.scene import Anchor, Disc, Item, Point, Scene, Shape, Words, rectangle

BEYOND = 3.0
"""Inches that studs and level line go on past the cases."""

BESIDE = (8.0, 22.0)
"""Points that the words take beside the wall, and above and below it."""

SCREW = 3.0
"""Points across the dot of a screw, which is set off its neighbour above."""

_SCREW = Pen(1.0, INK)


def hanging_scene(hanging: Hanging, places: Sequence[CasePlace], told: RowTold, point: float) -> Scene:
    """The row where a point on paper covers `point` inches."""
    left, right = float(places[0].left), float(places[-1].right)
    low = min(float(one.low) for one in places)
    high = max(float(one.high) for one in places)
    items: list[Item] = []
    for stud, words in zip(hanging.studs, told.studs, strict=True):
        items.extend(_stud(float(stud), float(hanging.wall.stud_width), (low, high), words))
    for one in places:
        items.extend(_case(one, point))
    line = ((left - BEYOND, low), (right + BEYOND, low))
    items.append(Shape(line, Layer.REFERENCE, BOLD, closed=False, name="level line"))
    items.append(Words((left, low - BEYOND), told.level, 9.0, Anchor.START, bold=True, shift=(0.0, -19.0)))
    return Scene(tuple(items), told.title)


def hanging_pictures(borne: Borne, room: Point) -> tuple[PlacedScene, ...]:
    """Every row of hung cases of a job, each as large as a room in points allows, in the order of the hanging
    page."""
    rows = zip(borne.hangings, borne.hanging_sheet.rows, strict=True)
    return tuple(fit_hanging(one, case_places(borne.project, one), told, room) for one, told in rows)


def fit_hanging(hanging: Hanging, places: Sequence[CasePlace], told: RowTold, room: Point) -> PlacedScene:
    """The row as large as a room in points allows."""
    wide = float(places[-1].right) - float(places[0].left) + 2 * BEYOND
    tall = max(float(one.high) for one in places) - min(float(one.low) for one in places) + 2 * BEYOND
    return fit_set(lambda point: hanging_scene(hanging, places, told, point), (wide, tall), room, BESIDE)


def _stud(middle: float, wide: float, ends: Point, words: str) -> Iterator[Item]:
    """A stud with its distance from the wall's left end below it."""
    low, high = ends[0] - BEYOND, ends[1] + BEYOND
    box = rectangle(middle - wide / 2, low, wide, high - low)
    yield Shape(box, Layer.ROOM, HIDDEN, Tint.CALM, name=f"stud {words}")
    yield Words((middle, low), words, 8.0, shift=(0.0, -6.0))


def _case(one: CasePlace, point: float) -> Iterator[Item]:
    left, low = float(one.left), float(one.low)
    wide, high = float(one.right) - left, float(one.high) - low
    yield Shape(rectangle(left, low, wide, high), Layer.CASES, FIRM, name=one.mark)
    for row in one.rows:
        for place in row.places:
            at = (left + float(place), float(row.up))
            yield Disc(at, SCREW / 2 * point, Layer.BORES, _SCREW, Tint.DARK, name="screw")
    yield Words((left + wide / 2, low + high / 2), one.mark, 11.0, bold=True, pill=True, name=one.mark)
