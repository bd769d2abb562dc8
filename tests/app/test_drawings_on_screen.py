"""Every drawing of the pages on the screen of two examples: no words over words, no line through words."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from casewright.app.jobs.worked_job import PlannedJob
from casewright.app.sheets.sheets_page import sheets_view
from casewright.app.views.page_pictures import pictures_of_case, pictures_of_walls, step_picture
from example_files import EXAMPLES
from packet.drawn_words import picture
from planned_once import planned_once


def of_walls(planned: PlannedJob) -> Iterator[str]:
    return (one.svg for one in pictures_of_walls(planned.worked))


def of_sheets(planned: PlannedJob) -> Iterator[str]:
    return (one.svg for material in sheets_view(planned) for one in material.pictures)


def of_cases(planned: PlannedJob) -> Iterator[str]:
    return (one.svg for mark in planned.project.cases for one in pictures_of_case(planned.project, mark))


def of_steps(planned: PlannedJob) -> Iterator[str]:
    made = (step_picture(planned, operation.key) for operation in planned.work.operations)
    return (one.decode() for one in made if one is not None)


@pytest.mark.parametrize("name", ["ferry-canteen", "pottery-studio"])
@pytest.mark.parametrize("drawings", [of_walls, of_sheets, of_cases, of_steps])
def test_words_stand_clear_on_the_screen(name: str, drawings: Callable[[PlannedJob], Iterator[str]]) -> None:
    planned = planned_once((EXAMPLES / f"{name}.toml").read_text(), 0.3)
    shown = [picture(svg) for svg in drawings(planned)]
    assert shown and all(one.words for one in shown)
    assert [clash for one in shown for clash in one.collisions()] == []
