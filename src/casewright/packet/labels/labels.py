"""Labels: one for each part in the order of cutting, on the paper or roll in the label printer; in the packet
for the offcuts to keep too."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import asdict, replace

from ...casework.fronts_in_one_piece import fronts_in_one_piece
from ...casework.parts.part import Part
from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text
from ...drawings.kit.pages import Paper
from ...drawings.views.part_view import reference_edges
from ...planner.plan import Plan
from ...workshop.side_names import side_words
from ..cut_places import CutPlace
from ..pages.page_picture import Json
from ..typesetting import typeset
from ..work_in_short import work_in_short
from .label_stock import STOCKS, LabelGrid, LabelStock
from .label_text import BAR, GUTTER, INSET, LabelText, label_lines
from .square_code import code_svg

USUAL_STOCK = {Paper.LETTER: "letter 30", Paper.A4: "a4 24"}
"""The name of the labels on a sheet of each paper."""


def labels_pdf(
    project: Project,
    plan: str,
    places: Mapping[str, CutPlace],
    stock: LabelStock,
    address: str,
    parts: Iterable[Part] | None = None,
) -> bytes:
    """Labels alone, as PDF: one for every part, or for each of `parts`, with where it is cut. Where the stock
    has no room for all of it at the smallest print, a label says less.

    `plan` is the name of the plan that `places` come from. The code on a label leads to `address` followed
    by the part's mark.
    """
    chosen = project if parts is None else parts
    data = {
        "page": {"wide": stock.wide, "tall": stock.tall},
        "labels": _set(_part_labels(project, plan, places, address, chosen), stock.grid),
    }
    return typeset("label-stock.typ", data)


def label_sheets(
    project: Project,
    plan: str,
    places: Mapping[str, CutPlace],
    paper: Paper,
    address: str,
    plans: Mapping[str, Plan],
) -> dict[str, Json]:
    """The packet's label pages: the grid, every part's label, then those of the offcuts that `plans` keep:
    the largest, as many as the last page has room for. The others are chalked."""
    grid = STOCKS[USUAL_STOCK[paper]].grid
    labels = _part_labels(project, plan, places, address, project)
    room = -len(labels) % (grid.across * grid.down)
    return _set([*labels, *_offcut_labels(project, plan, plans)[:room]], grid)


def _set(labels: Iterable[LabelText], grid: LabelGrid) -> dict[str, Json]:
    """Labels in the form the template takes: the lines of each, and its code."""
    return {
        "grid": asdict(grid),
        "inset": list(INSET),
        "gutter": GUTTER,
        "bar": BAR,
        "all": [
            {
                "code": label.code,
                "lines": [{**asdict(line), "high": line.high} for line in label_lines(label, grid)],
            }
            for label in labels
        ],
    }


def _offcut_labels(project: Project, plan: str, plans: Mapping[str, Plan]) -> list[LabelText]:
    """A label for each offcut that the planner found worth keeping, the largest first: its size, what it is
    of, its sheet."""
    kept = [
        (piece, material, sheet.number)
        for material, planned in plans.items()
        for sheet in planned.sheets
        for piece in sheet.offcuts
    ]
    return [
        LabelText(
            mark=" × ".join(dimension_text(size, project.rule) for size in (piece.length, piece.width)),
            size=project.job.sheets[material].name,
            sheet=f"offcut of {material} {number}",
            plan=plan,
            work="worth keeping",
        )
        for piece, material, number in sorted(kept, key=lambda one: one[0].area, reverse=True)
    ]


def _part_labels(
    project: Project, plan: str, places: Mapping[str, CutPlace], address: str, parts: Iterable[Part]
) -> list[LabelText]:
    turn = {mark: number for number, mark in enumerate(places)}
    hang = _numbers_of_fronts(project)
    labels = [
        label_of(project, part, places.get(part.mark), plan, address)
        for part in sorted(parts, key=lambda part: turn.get(part.mark, len(turn)))
    ]
    return [
        replace(label, role=f"{label.role}, {hang[label.mark]}") if label.mark in hang else label
        for label in labels
    ]


def _numbers_of_fronts(project: Project) -> dict[str, str]:
    """Which one each front is of those that its grain runs on over, by its mark."""
    return {
        mark: f"{number} of {len(bank.marks)} from the {'left' if bank.side_by_side else 'top'}"
        for bank in fronts_in_one_piece(project)
        for number, mark in enumerate(bank.marks, 1)
    }


def label_of(project: Project, part: Part, place: CutPlace | None, plan: str, address: str) -> LabelText:
    """What one label says: mark, size, where it is cut and by which plan, what is done to it, which side is
    up, its edges, and its code, which leads to `address` followed by the mark."""
    sizes = (dimension_text(size, project.rule) for size in project.dimensions(part)[:2])
    edges = ", ".join(side_words(part, edge) for edge in reference_edges(part))
    return LabelText(
        mark=part.mark,
        size=" × ".join(sizes),
        role=part.role.value,
        sheet=place.sheet if place else project.job.sheets[part.material].name,
        step=f"step {place.step}" if place else "",
        plan=plan if place else "",
        up=f"{side_words(part, part.lie.worked)} up" if part.features else "",
        work=work_in_short(project, part),
        edging=", ".join(dict.fromkeys(project.job.edging[edge.edging].name for edge in part.edges)),
        edges=f"from {edges}" if edges else "",
        code=code_svg(f"{address}{part.mark}").decode(),
    )
