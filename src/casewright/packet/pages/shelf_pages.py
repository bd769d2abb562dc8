"""What the shelves bear, for whoever loads them: each with its sag, and the figure it is held against."""

from __future__ import annotations

from ...bearing.shelf_sheet import ShelfSheet
from .page_picture import Json


def shelf_pages(sheet: ShelfSheet) -> dict[str, Json]:
    """The shelves by the figure they are held against; no figures where a job has no shelves to judge."""
    return {
        "figures": [
            {
                "figure": figure,
                "rows": [
                    {
                        "marks": list(one.marks),
                        "what": f"{one.what}, {one.section}",
                        "span": one.span,
                        "load": one.load,
                        "at_once": one.at_once,
                        "after_years": one.after_years,
                        "allowed": one.allowed,
                        "verdict": one.verdict,
                        "fix": one.fix,
                    }
                    for one in shelves
                ],
            }
            for figure, shelves in sheet.by_figure
        ],
        "doubts": [f"{doubt.text} {doubt.fix}" for doubt in sheet.doubts],
        "assumptions": list(sheet.assumptions),
    }
