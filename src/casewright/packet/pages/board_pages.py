"""Boards on paper: each as a map with its defects and cuts, and the steps that mill them, as `steps` has
them."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from ...boards.board_plan import BoardPlan
from ...casework.project import Project
from ...drawings.kit.pages import PlacedScene, fit_set
from ...drawings.views.board_drawing import board_extent, board_scene
from ...workshop.batch_wording import BatchText
from ...workshop.boards.board_wording import board_plan_proof, board_title, feet_words, typical_words
from ...workshop.order.batches import WorkOrder
from .page_picture import Json, embed_picture

ROOM, BESIDE = (520.0, 120.0), (60.0, 70.0)
"""Points for a board across an upright page, and of that for its figures."""


def board_pages(
    project: Project,
    plans: Mapping[str, BoardPlan],
    ordered: WorkOrder,
    told: tuple[BatchText, ...],
    done: Collection[str] = (),
) -> dict[str, Json]:
    """The materials with the maps of their boards, then the batches that mill them, numbered as in the whole
    job."""
    return {
        "materials": [
            {
                "name": project.job.sheets[material].name,
                "proof": board_plan_proof(plan),
                "typical": typical_words(project, material, plan),
                "boards": [
                    {
                        "title": f"{board_title(one)}, {feet_words(one.board.feet)}",
                        "picture": embed_picture(_map_of_board(project, plan, number)),
                    }
                    for number, one in enumerate(plan.boards)
                ],
            }
            for material, plan in plans.items()
        ],
        "batches": [
            {
                "number": number,
                "title": text.title,
                "how": list(text.setting),
                "dangers": [caution.text for caution in text.cautions],
                "steps": [
                    {"piece": step.piece, "hold": step.hold, "done": step.key in done} for step in text.steps
                ],
            }
            for number, (batch, text) in enumerate(zip(ordered.batches, told, strict=True), 1)
            if batch.operations[0].kind.mills_boards
        ],
    }


def _map_of_board(project: Project, plan: BoardPlan, number: int) -> PlacedScene:
    one = plan.boards[number]
    return fit_set(lambda _: board_scene(one, project.rule), board_extent(one), ROOM, BESIDE)
