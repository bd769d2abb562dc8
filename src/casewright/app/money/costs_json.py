"""A job's costs as JSON."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from ...lengths.quantities import json_number
from ...workshop.costs.cost_wording import cost_notes
from ..jobs.worked_job import PlannedJob


def money_json(money: Fraction | None) -> float | None:
    """An amount; null where there is no price."""
    return None if money is None else json_number(money)


def costs_json(planned: PlannedJob) -> dict[str, Any]:
    """Every line and sum."""
    costs, job = planned.costs, planned.project.job
    return {
        "plan": planned.plan_name,
        "money": job.money,
        "lines": [
            {
                "kind": line.kind.value,
                "what": line.what,
                "amount": line.amount,
                "money": money_json(line.money),
                "hours": json_number(line.hours),
                "follows": line.follows,
                "enter": line.enter if line.money is None else "",
            }
            for line in costs.lines
        ],
        "bought": money_json(costs.bought),
        "hours": json_number(costs.hours),
        "hourly": money_json(costs.hourly),
        "total": money_json(costs.total),
        "markup": money_json(costs.on_top),
        "quote": money_json(costs.quote),
        "complete": costs.is_complete,
        "notes": list(cost_notes(planned.project, costs)),
    }
