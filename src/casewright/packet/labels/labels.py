"""Labels: one for each part, on the paper or roll in the label printer.

The measures of label paper are those printed on its packs, from memory: hold a print on plain paper
against a sheet of labels before you print on it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass

from ...casework.parts.part import Part
from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text
from ...drawings.kit.pages import Paper
from ...drawings.views.part_view import reference_edges
from ...planner.plan import Plan
from ...workshop.side_names import side_words
from ..pages.page_picture import Json
from ..typesetting import typeset
from ..work_in_short import work_in_short
from .square_code import code_svg

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

IN_THE_PACKET = {Paper.LETTER: STOCKS["letter 30"], Paper.A4: STOCKS["a4 24"]}


def labels_pdf(
    project: Project,
    plans: Mapping[str, Plan],
    stock: LabelStock,
    address: str,
    parts: Iterable[Part] | None = None,
) -> bytes:
    """Labels alone, as PDF: one for every part, or for each of `parts`, with the sheet it is cut from.

    The code on a label leads to `address` followed by the part's mark.
    """
    chosen = project if parts is None else parts
    data = {
        "page": {"wide": stock.wide, "tall": stock.tall},
        "labels": _labels(project, plans, stock, address, chosen),
    }
    return typeset("label-stock.typ", data)


def label_sheets(project: Project, plans: Mapping[str, Plan], paper: Paper, address: str) -> dict[str, Json]:
    """The packet's label pages: the grid, and every part's label in the order of the job."""
    return _labels(project, plans, IN_THE_PACKET[paper], address, project)


def _labels(
    project: Project, plans: Mapping[str, Plan], stock: LabelStock, address: str, parts: Iterable[Part]
) -> dict[str, Json]:
    sheets = {piece.item: sheet.number for plan in plans.values() for sheet, piece in plan.parts()}
    return {
        "grid": asdict(stock.grid),
        "all": [label_of(project, part, sheets.get(part.mark), address) for part in parts],
    }


def label_of(project: Project, part: Part, sheet: int | None, address: str) -> Json:
    """One label: mark, size, the sheet it comes from, what is done to it, which side is up, its edges and
    its code."""
    sizes = (dimension_text(size, project.job.mark) for size in project.dimensions(part)[:2])
    from_sheet = f", sheet {sheet}" if sheet is not None else ""
    edges = ", ".join(side_words(part, edge) for edge in reference_edges(part))
    return {
        "mark": part.mark,
        "size": " × ".join(sizes),
        "words": f"{part.role.value}, {project.job.sheets[part.material].name}{from_sheet}",
        "work": work_in_short(project, part),
        "edges": f"from {edges}" if edges else "",
        "up": f"{side_words(part, part.lie.worked)} up" if part.features else "",
        "code": code_svg(f"{address}{part.mark}").decode(),
    }
