"""The map of every sheet, four to a page: each part with its mark and size, offcuts to keep hatched."""

from __future__ import annotations

from collections.abc import Mapping

from ...casework.project import Project
from ...drawings.kit.pages import PlacedScene, fit_set
from ...drawings.views.sheet_drawing import sheet_scene, sheet_size
from ...planner.plan import Plan, SheetPlan
from ...workshop.cut_wording import from_one_piece
from ...workshop.sheets.sheet_marks import SheetMarks
from .page_picture import Json, embed_picture
from .trestle_pages import sheet_title

ROOM = (352.0, 222.0)
"""Points for a map: two beside each other and two below on a page that lies on its side."""


BESIDE = (38.0, 56.0)
"""Points of that beside the sheet at least, for its sizes and the arrow of the grain."""


def map_pages(
    project: Project, plans: Mapping[str, Plan], marks: Mapping[tuple[str, int], SheetMarks]
) -> list[Json]:
    """The maps, material by material, in the order of the sheets; `marks` by material and number."""
    return [
        _map_page(project, plans, material, sheet, marks[material, sheet.number])
        for material, plan in plans.items()
        for sheet in plan.sheets
    ]


def _map_page(
    project: Project, plans: Mapping[str, Plan], material: str, sheet: SheetPlan, marks: SheetMarks
) -> Json:
    title = sheet_title(project, plans, material, sheet)
    note = f"{title['note']} {from_one_piece(marks.fronts)}".strip()
    return {**title, "note": note, "picture": embed_picture(_map(project, material, sheet, marks))}


def _map(project: Project, material: str, sheet: SheetPlan, marks: SheetMarks) -> PlacedScene:
    grain = project.job.sheets[material].grain
    return fit_set(
        lambda point: sheet_scene(sheet, project.rule, marks, point, grain=grain),
        sheet_size(sheet),
        ROOM,
        BESIDE,
    )
