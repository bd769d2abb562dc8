"""The sheet plan of the job an endpoint is about, begun when first asked for."""

from __future__ import annotations

from fastapi import Request

from ..app.planning import Planner, Planning
from ..app.saved import Work


def planning_of(request: Request, work: Work) -> Planning:
    """The plan for the job's present text. Raises JobError while the job cannot be built."""
    planner = request.app.state.planner
    assert isinstance(planner, Planner)
    return planner.plan_for(work.revision.text)
