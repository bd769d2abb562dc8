"""Where words find room on paper: the space they take, and the first of several places that is free."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import product

from .lettering import CAP_HEIGHT, width_of
from .scene import Anchor, Point, Words

APART = 1.2
"""Points between the ink of two words, at least."""


@dataclass(frozen=True, slots=True)
class PaperBox:
    """A rectangle on paper, in points, y upwards."""

    left: float
    low: float
    right: float
    high: float

    def over(self, other: PaperBox) -> bool:
        """Whether less than `APART` lies between the two."""
        across = min(self.right, other.right) - max(self.left, other.left)
        return across > -APART and min(self.high, other.high) - max(self.low, other.low) > -APART

    def holds(self, other: PaperBox) -> bool:
        """Whether the other lies inside."""
        across = self.left <= other.left and other.right <= self.right
        return across and self.low <= other.low and other.high <= self.high

    def crossed(self, start: Point, end: Point) -> bool:
        """Whether a straight line, in points, runs through it."""
        near, far = 0.0, 1.0
        sides = ((self.left, self.right), (self.low, self.high))
        for at, to, (low, high) in zip(start, end, sides, strict=True):
            if abs(to - at) < 1e-9:
                if not low < at < high:
                    return False
                continue
            first, last = sorted(((low - at) / (to - at), (high - at) / (to - at)))
            near, far = max(near, first), min(far, last)
        return near < far


def box_of(words: Words, point: float) -> PaperBox:
    """The space that words take with their frame, where a point on paper covers `point` model inches."""
    wide, half = width_of(words.text, words.size, bold=words.bold), CAP_HEIGHT * words.size / 2
    back = {Anchor.START: 0.0, Anchor.MIDDLE: wide / 2, Anchor.END: wide}[words.anchor]
    frame = (0.77 * words.size, 0.62 * words.size - half + 0.35) if words.pill else (0.0, 0.0)
    ends = (-back - frame[0], wide - back + frame[0])
    x, y = words.at[0] / point + words.shift[0], words.at[1] / point + words.shift[1]
    tall = half + frame[1]
    if words.turn:
        return PaperBox(x - tall, y + ends[0], x + tall, y + ends[1])
    return PaperBox(x + ends[0], y - tall, x + ends[1], y + tall)


def box_around(place: tuple[Point, Point], point: float) -> PaperBox:
    """The space of a rectangle given by its low corner and its size, both in model inches."""
    (x, y), (long, wide) = place
    return PaperBox(x / point, y / point, (x + long) / point, (y + wide) / point)


def is_free(box: PaperBox, taken: Sequence[PaperBox]) -> bool:
    """Whether nothing that is taken lies on it or too near it."""
    return not any(box.over(other) for other in taken)


SHARES = tuple(share / 12 for share in range(-12, 13))
"""Places tried across a room, as shares of the way from its middle to where words touch its side."""

_SHIFTS = sorted(product(SHARES, SHARES), key=lambda pair: abs(pair[0]) + abs(pair[1]))


def places_within(room: PaperBox, taken_by: PaperBox) -> Iterable[Point]:
    """Shifts of something in the middle of a room that keep it inside, least first; none if too large."""
    slack = (
        (room.right - room.left - taken_by.right + taken_by.left) / 2,
        (room.high - room.low - taken_by.high + taken_by.low) / 2,
    )
    if min(slack) < 0.0:
        return ()
    return [(across * slack[0], up * slack[1]) for across, up in _SHIFTS]


def placed_within(room: PaperBox, words: Words, point: float, taken: list[PaperBox]) -> Words | None:
    """Words from the middle of a room at the nearest place in it that is free, which is then taken too."""
    box = box_of(words, point)
    for right, up in places_within(room, box):
        moved = PaperBox(box.left + right, box.low + up, box.right + right, box.high + up)
        if is_free(moved, taken):
            taken.append(moved)
            return replace(words, shift=(words.shift[0] + right, words.shift[1] + up))
    return None


def widened(room: PaperBox, least: PaperBox) -> PaperBox:
    """The room about its middle, made at least as wide and as high as `least`."""
    across = max(0.0, (least.right - least.left - room.right + room.left) / 2)
    up = max(0.0, (least.high - least.low - room.high + room.low) / 2)
    return PaperBox(room.left - across, room.low - up, room.right + across, room.high + up)


def spread(places: Sequence[float], apart: float) -> list[float]:
    """How far each of several places in ascending order must move so that no two are nearer than `apart`.

    Those too near each other are spread about their common middle, so that none moves far.
    """
    groups: list[list[float]] = []
    for place in places:
        groups.append([place])
        while len(groups) > 1 and _low_end(groups[-1], apart) < _high_end(groups[-2], apart):
            groups[-2:] = [groups[-2] + groups[-1]]
    moved = [_low_end(group, apart) + (n + 0.5) * apart for group in groups for n in range(len(group))]
    return [new - old for new, old in zip(moved, places, strict=True)]


def _low_end(group: Sequence[float], apart: float) -> float:
    return sum(group) / len(group) - len(group) * apart / 2


def _high_end(group: Sequence[float], apart: float) -> float:
    return sum(group) / len(group) + len(group) * apart / 2
