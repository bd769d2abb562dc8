"""Drawings as pictures for a page: SVG whose shapes and figures carry the names they stand for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ...casework.parts.part import Role
from ...casework.project import Project
from ...drawings.kit.pages import PlacedScene, fit_to_room
from ...drawings.kit.svg import svg
from ...drawings.views.elevation import fit_elevation
from ...drawings.views.exploded import exploded_view
from ...drawings.views.part_drawing import part_scenes
from ...drawings.views.room import walls
from ...drawings.views.step_drawing import step_scene
from ..jobs.worked_job import KEPT_WARM, PlannedJob, WorkedJob

WALL = (820.0, 420.0)
CASE = (420.0, 380.0)
PART = (420.0, 300.0)


@dataclass(frozen=True)
class Picture:
    """A drawing as SVG text, to stand in a page."""

    title: str
    svg: str


@lru_cache(maxsize=KEPT_WARM)
def pictures_of_walls(worked: WorkedJob) -> tuple[Picture, ...]:
    """Every wall of the job, from the front; none while there is nothing to draw."""
    project = worked.project
    if project is None:
        return ()
    return tuple(
        Picture(wall.name, _backs_as_cases(project, inline_svg(fit_elevation(wall, WALL))))
        for wall in walls(project)
    )


def pictures_of_part(project: Project, mark: str) -> tuple[Picture, ...]:
    """A part to work from: its worked face, and the other one if that is cut too."""
    first, *more = part_scenes(project, project.parts[mark])
    return (Picture(mark, inline_svg(fit_to_room(first, *PART, *more))),)


def pictures_of_case(project: Project, mark: str) -> tuple[Picture, ...]:
    """A case taken apart, every part with its mark."""
    return (Picture(mark, inline_svg(fit_to_room(exploded_view(project, mark), *CASE))),)


def step_picture(planned: PlannedJob, step: str) -> bytes | None:
    """How the piece of a step lies at its machine; None where there is no picture, or no such step."""
    operation = planned.work.by_key.get(step)
    scene = step_scene(planned.project, operation) if operation else None
    return None if scene is None else svg(fit_to_room(scene, *PART))


def _backs_as_cases(project: Project, text: str) -> str:
    """Who taps into the room of a case means the case, not the back that is seen through it."""
    for part in project:
        if part.role is Role.BACK:
            text = text.replace(f'data-name="{part.mark}"', f'data-name="{part.case}"')
    return text


def inline_svg(placed: PlacedScene) -> str:
    """The drawing without the head that only a file of its own needs."""
    text = svg(placed).decode("utf-8")
    return text[text.index("<svg") :]
