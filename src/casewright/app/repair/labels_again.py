"""Which labels are to be printed again once a way of putting right is chosen."""

from __future__ import annotations

from collections.abc import Mapping

from ...casework.project import Project
from ...packet.work_in_short import work_in_short
from ...planner.plan import Plan
from ..jobs.worked_job import PlannedJob


def labels_again(before: PlannedJob, after: PlannedJob) -> tuple[str, ...]:
    """The marks of the parts whose label no longer says what is true, in the order of the job: another size,
    material or work, or another place in the sheets, so that another piece of wood bears the mark."""
    was = {part.mark: _says(before.project, part.mark) for part in before.project}
    lay, lies = _places(before.plans), _places(after.plans)
    return tuple(
        part.mark
        for part in after.project
        if was.get(part.mark) != _says(after.project, part.mark) or lay.get(part.mark) != lies.get(part.mark)
    )


def _says(project: Project, mark: str) -> tuple[object, ...]:
    part = project.parts[mark]
    return (part.material, project.dimensions(part)[:2], work_in_short(project, part))


def _places(plans: Mapping[str, Plan]) -> dict[str | None, tuple[object, ...]]:
    return {
        piece.item: (material, sheet.number, piece.x, piece.y)
        for material, plan in plans.items()
        for sheet, piece in plan.parts()
    }
