"""The boards of a job as pictures and figures, for the page that has its sheets."""

from __future__ import annotations

from functools import lru_cache

from ...boards.board_plan import CutBoard
from ...drawings.kit.pages import PlacedScene, fit_set
from ...drawings.views.board_drawing import board_extent, board_scene
from ...lengths.length import Rule
from ...workshop.boards.board_wording import board_plan_proof, board_title, feet_words, typical_words
from ...workshop.boards.buying_wording import what_to_buy
from ..jobs.worked_job import PlannedJob
from ..views.page_pictures import inline_svg
from .board_buying import boards_left_to_buy
from .made_already import NOTHING_MADE, MadeAlready
from .sheets_page import BESIDE, SheetPicture, SheetsView

BOARD = (620.0, 130.0)
"""Points for a board: it is ten times as long as wide, and stands upright on a phone."""


@lru_cache(maxsize=8)
def boards_view(planned: PlannedJob, already: MadeAlready = NOTHING_MADE) -> tuple[SheetsView, ...]:
    """Every material that is bought as boards, as the page shows a material's sheets; boards that are begun
    `already` are not to be bought."""
    project = planned.project
    shown = []
    for wood in boards_left_to_buy(planned, already):
        plan = planned.board_plans[wood.material]
        pictures = []
        for one in plan.boards:
            placed = _placed(one, project.rule)
            title = f"{board_title(one)}, {feet_words(one.board.feet)}"
            pictures.append(SheetPicture(title, inline_svg(placed), placed.wide / placed.tall))
        told = (board_plan_proof(plan), typical_words(project, wood.material, plan))
        shown.append(SheetsView(wood.name, what_to_buy(project, wood), *told, tuple(pictures)))
    return tuple(shown)


def _placed(one: CutBoard, rule: Rule) -> PlacedScene:
    return fit_set(lambda _: board_scene(one, rule), board_extent(one), BOARD, BESIDE)
