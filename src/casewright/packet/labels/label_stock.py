"""What a label printer may hold: sheets of labels and rolls.

The measures of label paper are those printed on its packs, from memory: hold a print on plain paper
against a sheet of labels before you print on it.
"""

from __future__ import annotations

from dataclasses import dataclass

INCH, MM = 72.0, 72.0 / 25.4
"""Points in each."""


@dataclass(frozen=True)
class LabelGrid:
    """How labels lie on a page, in points: margins, one label's size, the gap between columns, how
    many there are each way, the side of the QR code and the height of the mark."""

    left: float
    top: float
    wide: float
    high: float
    gap: float
    across: int
    down: int
    code: float
    mark: float


@dataclass(frozen=True)
class LabelStock:
    """What the label printer is loaded with: a page in points (on a roll, one label) and its labels."""

    wide: float
    tall: float
    grid: LabelGrid


def _roll(wide: float, tall: float) -> LabelStock:
    """A roll of single labels: the code fills the height, the words stand beside it."""
    code = min(tall - 12.0, wide * 0.36)
    mark = min(code * 0.32, wide * 0.12)
    return LabelStock(wide, tall, LabelGrid(0.0, 0.0, wide, tall, 0.0, 1, 1, code, mark))


# Common practice: 30 labels of 2 5/8 x 1 in on Letter, 24 of 70 x 37 mm on A4.
STOCKS = {
    "letter 30": LabelStock(612.0, 792.0, LabelGrid(13.5, 36.0, 189.0, 72.0, 9.0, 3, 10, 58.0, 17.0)),
    "letter 10": LabelStock(612.0, 792.0, LabelGrid(11.25, 36.0, 288.0, 144.0, 13.5, 2, 5, 110.0, 26.0)),
    "a4 24": LabelStock(595.28, 841.89, LabelGrid(0.0, 1.4, 198.4, 104.88, 0.0, 3, 8, 72.0, 22.0)),
    "a4 8": LabelStock(
        595.28,
        841.89,
        LabelGrid(4.65 * MM, 13.1 * MM, 99.1 * MM, 67.7 * MM, 2.5 * MM, 2, 4, 130.0, 27.0),
    ),
    "roll 2 1/4 x 1 1/4 in": _roll(2.25 * INCH, 1.25 * INCH),
    "roll 4 x 2 in": _roll(4 * INCH, 2 * INCH),
    "roll 62 x 29 mm": _roll(62 * MM, 29 * MM),
    "roll 100 x 50 mm": _roll(100 * MM, 50 * MM),
}
"""Sheets by paper and number of labels, rolls by the size of one label."""
