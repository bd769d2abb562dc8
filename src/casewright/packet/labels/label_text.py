"""The lines of a label: never smaller than can be read; where there is no room for all, less is said."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import accumulate

from ...drawings.kit.draughting import SMALLEST
from ...drawings.kit.lettering import width_of
from .label_stock import LabelGrid

INSET = (7.0, 4.0)
"""Points between a label's edge and its words, at the sides and at top and bottom."""

GUTTER = 6.0
"""Points between the code and the words."""

BAR = 11.0
"""Points that the sign of a reference edge takes at the start of its line."""

SIZE_SHARE, SMALL_SHARE, OFFCUT_SHARE = 0.6, 0.39, 0.7
"""Lettering of length and width, of the small lines and of an offcut's size, as shares of the mark."""

PITCH, HEAD_PITCH = 1.06, 0.97
"""Heights of lines as shares of their lettering: mark and size have no letters that go below the line."""


@dataclass(frozen=True, kw_only=True)
class LabelText:
    """What a label says. `sheet` and `step` are where the part is cut, by the plan of that name; `work` is
    done to it later, with the side `up` on top; `edging` is what goes on its edges, and `edges` are measured
    from. What does not apply is empty."""

    mark: str
    size: str
    role: str = ""
    sheet: str = ""
    step: str = ""
    plan: str = ""
    up: str = ""
    work: str = ""
    edging: str = ""
    edges: str = ""
    code: str = ""


SAID_LESS = ("edging", "role", "work", "plan", "step", "sheet", "edges", "up")
"""What is left out first where a label has no room for all: the list of parts tells the edging, the mark
the role, the part's card its work, the packet the plan, the list of cuts its step and sheet."""


@dataclass(frozen=True)
class LabelLine:
    """A line as it is set: its size in points, a `lead` in bold before the rest, and whether the sign of a
    reference edge begins it, or the space of one."""

    text: str
    size: float
    bold: bool = False
    quiet: bool = False
    lead: str = ""
    bar: str = ""

    @property
    def high(self) -> float:
        """Points that it takes of the label's height."""
        return self.size * (HEAD_PITCH if self.bold else PITCH)


def label_lines(text: LabelText, grid: LabelGrid) -> tuple[LabelLine, ...]:
    """The lines for a label of this size: the small ones smaller, down to the smallest print, before less is
    said."""
    wide = grid.wide - 2 * INSET[0] - (grid.code + GUTTER if text.code else 0.0)
    high = grid.high - 2 * INSET[1]
    lines: tuple[LabelLine, ...] = ()
    usual = max(SMALLEST, grid.mark * SMALL_SHARE)
    for less in _saying_less(text):
        for small in (usual, (usual + SMALLEST) / 2, SMALLEST):
            lines = tuple(_lines(less, grid, wide, small))
            if sum(line.high for line in lines) <= high:
                return lines
    return lines


def _saying_less(text: LabelText) -> Iterator[LabelText]:
    yield text
    for name in SAID_LESS:
        text = replace(text, **{name: ""})
        yield text


def _lines(text: LabelText, grid: LabelGrid, wide: float, small: float) -> Iterator[LabelLine]:
    """The mark in one line, made smaller to fit, and so the size if it can be; all else in as many as it
    needs."""
    large = grid.mark * (1.0 if text.code else OFFCUT_SHARE)
    yield LabelLine(text.mark, _fitted(text.mark, large, wide), bold=True)
    size = _fitted(text.size, grid.mark * SIZE_SHARE, wide)
    for line in _wrapped(text.size, size, wide, bold=True):
        yield LabelLine(line, size, bold=True)
    place = ", ".join(part for part in (text.role, text.sheet, text.step) if part)
    cut = f"{place} ({text.plan})" if place and text.plan else place
    for line in _wrapped(cut, small, wide):
        yield LabelLine(line, small, quiet=True)
    work = " · ".join(part for part in (text.up, text.work) if part)
    for number, line in enumerate(_wrapped(work, small, wide, bold=True)):
        lead = text.up if number == 0 and line.startswith(text.up) else ""
        yield LabelLine(line.removeprefix(lead), small, lead=lead)
    for line in _wrapped(text.edging, small, wide):
        yield LabelLine(line, small, quiet=True)
    for number, line in enumerate(_wrapped(text.edges, small, wide - BAR)):
        yield LabelLine(line, small, bar="space" if number else "bar")


def _fitted(text: str, most: float, wide: float) -> float:
    return max(SMALLEST, min(most, (wide - 1.0) / width_of(text, 1.0, bold=True)))


def _wrapped(text: str, size: float, wide: float, *, bold: bool = False) -> Iterator[str]:
    """The text in lines of at most `wide` points, broken between words, and within one that is wider."""
    line = ""
    for word in (part for whole in text.split(" ") for part in _parted(whole, size, wide, bold=bold)):
        longer = f"{line} {word}" if line else word
        if line and width_of(longer, size, bold=bold) > wide - 1.0:
            yield line
            longer = word
        line = longer
    if line:
        yield line


def _parted(word: str, size: float, wide: float, *, bold: bool) -> Iterator[str]:
    """A word, in parts where it alone is wider than a line."""
    while len(word) > 1 and width_of(word, size, bold=bold) > wide - 1.0:
        widths = accumulate(width_of(sign, size, bold=bold) for sign in word)
        end = max(1, sum(reach <= wide - 1.0 for reach in widths))
        yield word[:end]
        word = word[end:]
    yield word
