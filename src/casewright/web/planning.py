"""The sheet plan of the job an endpoint is about: the benches' own, or one begun when first asked for."""

from __future__ import annotations

from fastapi import Request

from ..app.planning import Planner, Planning
from ..app.repair_shop import heard_of
from ..app.saved import Saved, Work


def planning_of(request: Request, saved: Saved, work: Work) -> Planning:
    """The plan for the job's present text. Raises JobError while the job cannot be built.

    Where the benches work from this text, it is the plan they were handed.
    """
    floor = heard_of(saved, work.id).floor
    if floor and saved.take(work.id, floor.issued.revision).revision.text == work.revision.text:
        return Planning(finished=True, plan=floor.plan, handed_out=True)
    planner = request.app.state.planner
    assert isinstance(planner, Planner)
    return planner.plan_for(work.revision.text)
