"""Which labels are to be printed again once a way of putting right is chosen."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from ...boards.board_plan import BoardPlan
from ...casework.project import Project
from ...packet.work_in_short import work_in_short
from ...planner.plan import Plan
from ...repair.ways.way import Mend, Option
from ..jobs.worked_job import PlannedJob


def labels_again(before: PlannedJob, after: PlannedJob, turned: Collection[str]) -> tuple[str, ...]:
    """The marks of the parts whose label no longer says what is true, in the order of the job: another size,
    material or work, or another place in the sheets or boards, so that another piece of wood bears the mark.
    On one that is `turned` the label says the wrong edges, whatever else it says."""
    was = {part.mark: _says(before.project, part.mark) for part in before.project}
    lay, lies = (_places(one.plans) | _on_boards(one.board_plans) for one in (before, after))
    return tuple(
        part.mark
        for part in after.project
        if part.mark in turned
        or was.get(part.mark) != _says(after.project, part.mark)
        or lay.get(part.mark) != lies.get(part.mark)
    )


def turned_for_good(option: Option) -> tuple[str, ...]:
    """The parts that a way turns and that keep their mark."""
    return tuple(one.mark for one in option.actions if isinstance(one, Mend) and one.turn)


def _says(project: Project, mark: str) -> tuple[object, ...]:
    part = project.parts[mark]
    return (part.material, project.dimensions(part)[:2], work_in_short(project, part))


def _places(plans: Mapping[str, Plan]) -> dict[str | None, tuple[object, ...]]:
    return {
        piece.item: (material, sheet.number, piece.x, piece.y)
        for material, plan in plans.items()
        for sheet, piece in plan.parts()
    }


def _on_boards(plans: Mapping[str, BoardPlan]) -> dict[str | None, tuple[object, ...]]:
    """A part that is glued up lies where its first strip does."""
    places: dict[str | None, tuple[object, ...]] = {}
    for material, plan in plans.items():
        for board, length, strip in plan.strips():
            for part in strip.wanted:
                at = (material, board.number, length.x, strip.y, part.x)
                places.setdefault(part.of_part, at)
    return places
