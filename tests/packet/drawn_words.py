"""The words and lines of a drawing as a page shows it, read back from its SVG: which of them collide."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree as ET

from casewright.drawings.kit.lettering import CAP_HEIGHT, width_of

SVG = "{http://www.w3.org/2000/svg}"
LEAST = 0.6
"""Points by which two boxes of ink must overlap before an eye takes them to touch."""

Spot = tuple[float, float]


@dataclass(frozen=True)
class Ink:
    """The space that ink takes on paper, in points, y downwards."""

    left: float
    top: float
    right: float
    low: float

    def over(self, other: Ink) -> bool:
        """Whether the two overlap, by more than `LEAST` either way."""
        across = min(self.right, other.right) - max(self.left, other.left)
        return across > LEAST and min(self.low, other.low) - max(self.top, other.top) > LEAST

    def holds(self, other: Ink) -> bool:
        """Whether the other lies inside, give or take `LEAST`."""
        return (
            self.left <= other.left + LEAST
            and self.top <= other.top + LEAST
            and self.right >= other.right - LEAST
            and self.low >= other.low - LEAST
        )


@dataclass(frozen=True)
class SetWord:
    """A line of text where it stands: its ink, its size in points, its place in the order of drawing."""

    text: str
    ink: Ink
    size: float
    order: int


@dataclass(frozen=True)
class DrawnLine:
    """A straight stretch of a line, however fine, from one end to the other."""

    start: Spot
    end: Spot
    order: int


@dataclass(frozen=True)
class Picture:
    """What a drawing's SVG holds. `backings` are areas filled with one tint, by the order of drawing."""

    title: str
    words: tuple[SetWord, ...]
    lines: tuple[DrawnLine, ...]
    backings: tuple[tuple[Ink, int], ...]

    def collisions(self) -> list[str]:
        """Words that overlap words, and lines that run through words without anything between them."""
        found = [
            f"{self.title}: “{one.text}” over “{other.text}”"
            for place, one in enumerate(self.words)
            for other in self.words[place + 1 :]
            if one.ink.over(other.ink)
        ]
        for word in self.words:
            hits = [line for line in self.lines if _through(line, word.ink)]
            if any(not self._hidden(line, word) for line in hits):
                found.append(f"{self.title}: a line through “{word.text}”")
        return found

    def _hidden(self, line: DrawnLine, word: SetWord) -> bool:
        """Whether something that is filled lies between the line and the word, behind all of the word."""
        return any(line.order < order < word.order and ink.holds(word.ink) for ink, order in self.backings)


def _through(line: DrawnLine, ink: Ink) -> bool:
    """Whether the line runs through the ink, not only along its border."""
    (x, y), (u, v) = line.start, line.end
    low, high = 0.0, 1.0
    for start, way, near, far in (
        (x, u - x, ink.left + LEAST, ink.right - LEAST),
        (y, v - y, ink.top + LEAST, ink.low - LEAST),
    ):
        if abs(way) < 1e-9:
            if not near < start < far:
                return False
            continue
        ends = sorted(((near - start) / way, (far - start) / way))
        low, high = max(low, ends[0]), min(high, ends[1])
    return low < high


def pictures(data: Any) -> Iterator[Picture]:
    """Every drawing within the data of the packet's pages."""
    if isinstance(data, dict):
        if isinstance(data.get("svg"), str):
            yield picture(data["svg"])
        else:
            for value in data.values():
                yield from pictures(value)
    elif isinstance(data, list):
        for value in data:
            yield from pictures(value)


def picture(svg: str) -> Picture:
    """A drawing read from its SVG."""
    root = ET.fromstring(svg)
    words: list[SetWord] = []
    lines: list[DrawnLine] = []
    backings: list[tuple[Ink, int]] = []
    for order, shape in enumerate(root):
        if shape.tag == f"{SVG}text":
            words.append(_word(shape, order))
        elif shape.tag == f"{SVG}circle":
            lines.extend(_round(shape, order))
        elif shape.tag in (f"{SVG}polygon", f"{SVG}polyline"):
            corners = [_spot(pair) for pair in str(shape.get("points")).split()]
            if shape.tag == f"{SVG}polygon":
                if shape.get("fill") != "none":
                    backings.append((_around(corners), order))
                corners.append(corners[0])
            if shape.get("stroke"):
                lines.extend(DrawnLine(a, b, order) for a, b in pairwise(corners))
    return Picture(root.findtext(f"{SVG}title") or "", tuple(words), tuple(lines), tuple(backings))


def _spot(pair: str) -> Spot:
    x, y = pair.split(",")
    return float(x), float(y)


def _around(corners: list[Spot]) -> Ink:
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Ink(min(xs), min(ys), max(xs), max(ys))


def _round(shape: ET.Element, order: int) -> Iterator[DrawnLine]:
    """A hole or a dot as the two lines of its cross: what runs through those runs through it."""
    x, y, r = (float(str(shape.get(name))) for name in ("cx", "cy", "r"))
    yield DrawnLine((x - r, y), (x + r, y), order)
    yield DrawnLine((x, y - r), (x, y + r), order)


def _word(shape: ET.Element, order: int) -> SetWord:
    x, y, size = (float(str(shape.get(name))) for name in ("x", "y", "font-size"))
    text, bold = shape.text or "", shape.get("font-weight") == "700"
    wide = width_of(text, size, bold=bold)
    back = {"start": 0.0, "middle": wide / 2, "end": wide}[str(shape.get("text-anchor"))]
    tall = CAP_HEIGHT * size
    if shape.get("transform", "").startswith("rotate(-90 "):
        ink = Ink(x - tall, y + back - wide, x, y + back)
    else:
        assert shape.get("transform") is None, "words stand level, or read upwards"
        ink = Ink(x - back, y - tall, x - back + wide, y)
    return SetWord(text, ink, size, order)
