"""Labels alone, for the paper or roll in the label printer.

Measures of label paper are those printed on its packs, from memory: hold a print on plain paper
against a sheet of labels before printing on it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, dataclass

from ...casework.parts.part import Part
from ...casework.project import Project
from ..typesetting import typeset
from .labels import Grid, label_of

INCH, MM = 72.0, 72.0 / 25.4


@dataclass(frozen=True)
class Stock:
    """What the printer holds: a page (one label, for a roll) in points, and the labels on it."""

    wide: float
    tall: float
    grid: Grid


def _roll(wide: float, tall: float) -> Stock:
    """A roll of single labels: the code fills the height, the words stand beside it."""
    code = min(tall - 12.0, wide * 0.36)
    return Stock(wide, tall, Grid(0.0, 0.0, wide, tall, 0.0, 1, 1, code, min(code * 0.32, wide * 0.12)))


STOCKS = {
    "letter 30": Stock(612.0, 792.0, Grid(13.5, 36.0, 189.0, 72.0, 9.0, 3, 10, 58.0, 17.0)),
    "letter 10": Stock(612.0, 792.0, Grid(11.25, 36.0, 288.0, 144.0, 13.5, 2, 5, 110.0, 26.0)),
    "a4 24": Stock(595.28, 841.89, Grid(0.0, 1.4, 198.4, 104.88, 0.0, 3, 8, 72.0, 22.0)),
    "a4 8": Stock(
        595.28,
        841.89,
        Grid(4.65 * MM, 13.1 * MM, 99.1 * MM, 67.7 * MM, 2.5 * MM, 2, 4, 130.0, 27.0),
    ),
    "roll 2 1/4 x 1 1/4 in": _roll(2.25 * INCH, 1.25 * INCH),
    "roll 4 x 2 in": _roll(4 * INCH, 2 * INCH),
    "roll 62 x 29 mm": _roll(62 * MM, 29 * MM),
    "roll 100 x 50 mm": _roll(100 * MM, 50 * MM),
}
"""Sheets by paper and number of labels, rolls by the size of one label."""


def labels_pdf(project: Project, stock: Stock, address: str, parts: Iterable[Part] | None = None) -> bytes:
    """A label for every part (or for `parts`); its code leads to `address` followed by the mark."""
    chosen = project if parts is None else parts
    data = {
        "page": {"wide": stock.wide, "tall": stock.tall},
        "labels": {
            "grid": asdict(stock.grid),
            "all": [label_of(project, part, address) for part in chosen],
        },
    }
    return typeset("label-stock.typ", data)
