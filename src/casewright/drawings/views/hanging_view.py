"""Hung cases on their wall from the front, a whole row or one by itself: studs, outlines, every screw, the
level line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...bearing.borne import Borne
from ...bearing.hanging_places import CasePlace, case_places
from ...bearing.hanging_sheet import CaseTold, RowTold
from ...bearing.hung_cases import Hanging
from ..kit.lettering import width_of
from ..kit.pages import PlacedScene, fit_set
from ..kit.pens import BOLD, FIRM, HIDDEN, INK, Layer, Pen, Tint
from ..kit.places import spread
from ..kit.scene import Anchor, Disc, Item, Point, Scene, Shape, Words, rectangle

BEYOND = 3.0
"""Inches that studs and level line go on past the cases."""

BESIDE = (8.0, 22.0)
"""Points that the words take beside the wall, and above and below it."""

ONE_BESIDE = (44.0, 22.0)
"""The same beside a case by itself."""

FIGURE = 12.0
"""Points of what is read from a phone on a ladder."""

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


def hung_case_scene(hanging: Hanging, place: CasePlace, told: CaseTold, point: float) -> Scene:
    """One case of a row where a point on paper covers `point` inches, with all that is marked on it: its
    lower edge and its rows of screws above the floor at its left, the places from its left side below it."""
    left, right, low, high = (float(at) for at in (place.left, place.right, place.low, place.high))
    items: list[Item] = []
    for stud in map(float, hanging.studs):
        if left - BEYOND <= stud <= right + BEYOND:
            items.append(_behind(stud, float(hanging.wall.stud_width), (low, high), ""))
    items.extend(_case(place, point))
    line = ((left - BEYOND, low), (right + BEYOND, low))
    items.append(Shape(line, Layer.REFERENCE, BOLD, closed=False, name="level line"))
    items.extend(_levels(place, told, point))
    items.extend(_from_its_left(place, told, point))
    return Scene(tuple(items), told.mark)


def _levels(place: CasePlace, told: CaseTold, point: float) -> Iterator[Words]:
    """The lower edge, in bold, and each row of screws, at heights above the floor."""
    alike = dict.fromkeys(row.places for row in place.rows)
    ups = [row.up for places in alike for row in place.rows if row.places == places]
    rows = zip(ups, (up for screws in told.rows for up in screws.heights), strict=True)
    levels = sorted([(place.low, told.lower_edge), *rows])
    nudges = spread([float(up) / point for up, _ in levels], FIGURE + 2.0)
    for (up, words), nudge in zip(levels, nudges, strict=True):
        at = (float(place.left) - BEYOND, float(up))
        bold = up == place.low
        yield Words(at, words, FIGURE, Anchor.END, bold=bold, shift=(-4.0, nudge))


def _from_its_left(place: CasePlace, told: CaseTold, point: float) -> Iterator[Words]:
    """The places of screws, from the case's left side."""
    widest = max((width_of(words, FIGURE) for words in told.marks), default=0.0)
    nudges = spread([float(at) / point for at in place.screw_places], widest + 4.0)
    for at, words, nudge in zip(place.screw_places, told.marks, nudges, strict=True):
        yield Words(
            (float(place.left) + float(at), float(place.low) - BEYOND), words, FIGURE, shift=(nudge, -8.0)
        )


def pictures_case_by_case(borne: Borne, room: Point) -> tuple[tuple[PlacedScene, ...], ...]:
    """The cases of each row one by one, for a narrow screen."""
    rows = zip(borne.hangings, borne.hanging_sheet.rows, strict=True)
    return tuple(
        tuple(
            _fit_case(one, place, case, room)
            for place, case in zip(case_places(borne.project, one), told.cases, strict=True)
        )
        for one, told in rows
    )


def _fit_case(hanging: Hanging, place: CasePlace, told: CaseTold, room: Point) -> PlacedScene:
    wide, tall = float(place.right) - float(place.left), float(place.high) - float(place.low)
    size = (wide + 2 * BEYOND, tall + 2 * BEYOND)
    return fit_set(lambda point: hung_case_scene(hanging, place, told, point), size, room, ONE_BESIDE)


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
    yield _behind(middle, wide, ends, f"stud {words}")
    yield Words((middle, ends[0] - BEYOND), words, 8.0, shift=(0.0, -6.0))


def _behind(middle: float, wide: float, ends: Point, name: str) -> Shape:
    low, high = ends[0] - BEYOND, ends[1] + BEYOND
    return Shape(
        rectangle(middle - wide / 2, low, wide, high - low), Layer.ROOM, HIDDEN, Tint.CALM, name=name
    )


def _case(one: CasePlace, point: float) -> Iterator[Item]:
    left, low = float(one.left), float(one.low)
    wide, high = float(one.right) - left, float(one.high) - low
    yield Shape(rectangle(left, low, wide, high), Layer.CASES, FIRM, name=one.mark)
    for row in one.rows:
        for place in row.places:
            at = (left + float(place), float(row.up))
            yield Disc(at, SCREW / 2 * point, Layer.BORES, _SCREW, Tint.DARK, name="screw")
    yield Words((left + wide / 2, low + high / 2), one.mark, 11.0, bold=True, pill=True, name=one.mark)
