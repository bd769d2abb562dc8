"""The map of every sheet, four to a page: each part with its mark and size, offcuts numbered."""

from __future__ import annotations

from collections.abc import Mapping

from ...casework.project import Project
from ...drawings.kit.pages import fit_to_room
from ...drawings.views.sheet_drawing import sheet_scene
from ...planner.plan import Plan
from ...workshop.order.batches import WorkOrder
from ...workshop.sheets.sheet_marks import sheet_marks
from .page_picture import Json, embed_picture
from .trestle_pages import sheet_title

ROOM = (352.0, 222.0)
"""Points for a map: two beside each other and two below on a page that lies on its side."""


def map_pages(project: Project, plans: Mapping[str, Plan], ordered: WorkOrder) -> list[Json]:
    """The maps, material by material, in the order of the sheets."""
    found = sheet_marks(plans, ordered.operations)
    return [
        {
            **sheet_title(project, plans, material, sheet),
            "picture": embed_picture(
                fit_to_room(
                    sheet_scene(
                        sheet,
                        project.rule,
                        found[material, sheet.number],
                        grain=project.job.sheets[material].grain,
                        printed=ROOM[0] - 40.0,
                    ),
                    *ROOM,
                )
            ),
        }
        for material, plan in plans.items()
        for sheet in plan.sheets
    ]
