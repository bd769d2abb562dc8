"""A job's plan as JSON: one form for the plan file, the packet's plan.json and `plan --json`."""

from __future__ import annotations

import json
from typing import Any

from ...boards.board_json import board_answer
from ...lengths.quantities import json_number
from ...planner.answer_json import answer
from ...record.plan_of_record import PlanOfRecord, problem_fingerprint, record_to_plain
from ..jobs.worked_job import PlannedJob
from .board_buying import boards_left_to_buy, wood_to_buy_json
from .made_already import NOTHING_MADE, MadeAlready


def plan_record_of(planned: PlannedJob) -> PlanOfRecord:
    """The job's plans as a plan of record."""
    worked = planned.worked
    return PlanOfRecord(
        planned.project.job.name,
        worked.revision,
        planned.made.seed,
        planned.made.seconds,
        {
            **{material: problem_fingerprint(problem) for material, problem in worked.problems.items()},
            **{material: problem_fingerprint(problem) for material, problem in worked.board_problems.items()},
        },
        planned.plans,
        planned.board_plans,
    )


def plan_json(planned: PlannedJob, already: MadeAlready = NOTHING_MADE) -> dict[str, Any]:
    """The plans in the form of the published answer, lengths in inches, and what to buy; beside them, under
    `exact`, the same plans with lengths as exact fractions, by which they are read back. Sheets that are
    begun already are not among those to buy."""
    made = planned.made
    return {
        **record_to_plain(plan_record_of(planned)),
        "materials": {key: answer(made.problems[key], plan) for key, plan in made.plans.items()},
        **_of_boards(planned, already),
        "buy": [
            {
                "material": one.material,
                "name": one.bin,
                "sheets": one.sheets,
                "already_here": one.here,
                "price": json_number(one.price),
                "money": json_number(one.money),
                "from_rack": dict(one.offcuts),
            }
            for one in planned.purchases_left(already.begun(made.plans))
        ],
        "edging": [
            {
                "name": one.edging.name,
                "lengths": one.sticks,
                "price": json_number(one.edging.price),
                "money": json_number(one.money),
                "fewest": one.proved,
            }
            for one in planned.worked.hardware.edging
        ],
    }


def _of_boards(planned: PlannedJob, already: MadeAlready) -> dict[str, Any]:
    """The boards of solid wood and what to buy of them; nothing in a job without."""
    if not planned.board_plans:
        return {}
    return {
        "boards": {key: board_answer(plan) for key, plan in planned.board_plans.items()},
        "buy_boards": [wood_to_buy_json(one) for one in boards_left_to_buy(planned, already)],
    }


def plan_bytes(planned: PlannedJob, already: MadeAlready = NOTHING_MADE) -> bytes:
    """The same as the bytes of a file."""
    return json.dumps(plan_json(planned, already), ensure_ascii=False, indent=1).encode()
