"""The line a part is cut to at full size: whole, or on sheets of paper that are taped together.

Seen from the part's face, its lower end below: the wall is at the side that it closes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...bearing.scribe_sheets import PROOF, ScribeSheet
from ...bearing.scribed_parts import ScribedPart, WallEnd
from ...lengths.length import Unit
from ...strength.scribe import ScribePoint
from ..kit.pens import BOLD, FINE, HAIR, HEAVY, HIDDEN, Layer
from ..kit.scene import Item, Point, Scene, Shape, Words

CROSS = 0.25
"""Inches that the arms of a mark to tape by reach."""

ASIDE = 0.5
"""Inches between the part and the bar that proves the scale."""


def scribe_scene(part: ScribedPart) -> Scene:
    """The whole line, with the part's outline as it is cut before."""
    items = _lines(part, part.line.points, 0.0, (0.0, float(part.length)))
    return Scene((*items, *_ends(part, (0.0, float(part.length)), 0.0)), f"{part.part.mark}, cut line")


def scribe_sheet_scene(part: ScribedPart, sheet: ScribeSheet, unit: Unit) -> Scene:
    """One sheet of it, with the marks that it shares with its neighbours and a bar that proves the scale."""
    straight = float(sheet.straight)
    ends = (float(sheet.low), float(sheet.high))
    items = [*_lines(part, sheet.line, straight, ends), *_ends(part, ends, straight)]
    across = (0.0, float(part.width) - straight)
    for join in sheet.joins:
        for x in across:
            items.extend(_cross(_side(part, x), float(join)))
    long, words = PROOF[unit]
    x, low = _side(part, -ASIDE), ends[0] + ASIDE
    items.extend(_bar(x, low, low + float(long), words))
    return Scene(tuple(items), f"{part.part.mark}, sheet {sheet.number} of {sheet.count}")


def _side(part: ScribedPart, from_case: float) -> float:
    """Where a place so far from the edge at the case lies: to the right or, towards a wall at the left, to
    the left."""
    return -from_case if part.end is WallEnd.LEFT else from_case


def _lines(part: ScribedPart, line: Sequence[ScribePoint], straight: float, ends: Point) -> Iterator[Item]:
    points = tuple((_side(part, float(at.width) - straight), float(at.along)) for at in line)
    yield Shape(points, Layer.OUTLINE, BOLD, closed=False, name="cut")
    blank = _side(part, float(part.width) - straight)
    yield Shape(((blank, ends[0]), (blank, ends[1])), Layer.BLANK, HIDDEN, closed=False, name="blank")
    edge = HEAVY if straight == 0 else FINE
    yield Shape(((0.0, ends[0]), (0.0, ends[1])), Layer.REFERENCE, edge, closed=False, name="straight")
    middle = (ends[0] + ends[1]) / 2
    yield Words(
        (_side(part, 0.0), middle),
        "straight edge, at the case" if straight == 0 else "line parallel to it",
        9.0,
        turn=90.0,
        shift=(10.0 if part.end is WallEnd.RIGHT else -10.0, 0.0),
    )


def _ends(part: ScribedPart, ends: Point, straight: float) -> Iterator[Item]:
    """The ends of the part, where they are within."""
    blank = _side(part, float(part.width) - straight)
    for at, words in ((0.0, "lower end"), (float(part.length), "upper end")):
        if ends[0] <= at <= ends[1]:
            yield Shape(((0.0, at), (blank, at)), Layer.OUTLINE, FINE, closed=False, name=words)
            yield Words((blank / 2, at), words, 9.0, shift=(0.0, 8.0 if at == 0.0 else -8.0))


def _cross(x: float, y: float) -> Iterator[Item]:
    for line in (((x - CROSS, y), (x + CROSS, y)), ((x, y - CROSS), (x, y + CROSS))):
        yield Shape(line, Layer.TEXT, HAIR, closed=False, name="tape mark")


def _bar(x: float, low: float, high: float, words: str) -> Iterator[Item]:
    """A bar to be held against a rule."""
    yield Shape(((x, low), (x, high)), Layer.DIMENSIONS, BOLD, closed=False, name="proof")
    for y in (low, high):
        yield Shape(((x - CROSS / 2, y), (x + CROSS / 2, y)), Layer.DIMENSIONS, BOLD, closed=False)
    yield Words((x, (low + high) / 2), words, 10.0, turn=90.0, bold=True, shift=(-9.0, 0.0))
