"""The plan of record: the one set of sheet plans that a job is cut by, with a name of its own.

It is kept once made, and every paper, page and command reads it. A later search would lay parts out
otherwise, and then a page printed twice would contradict itself.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from hashlib import sha256
from typing import Any

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from ..boards.board_plan import BoardPlan
from ..boards.board_problem import BoardProblem
from ..errors import RecordError
from ..findings import Finding
from ..planner.plan import Plan
from ..planner.problem import Problem
from .board_rows import boards_to_plain
from .handed_out import Issued, issued_from_plain, issued_to_plain

LAYOUT = 4
"""The form of what `record_to_plain` writes; a greater number is from a newer casewright. It is 4 where a
part of boards was cut again, 3 where parts are glued up from strips, 2 with boards otherwise, and without
them, and before they were kept, 1."""

NAME_LENGTH = 6

ANEW = "Move it away and plan anew, or use a copy that was not changed."


@dataclass(frozen=True, eq=False)
class PlanOfRecord:
    """Sheet plans by material, with what they were made for and how, and `boards`, the plans of solid wood
    bought as boards; a plan from before those were kept has none.

    `job` and `revision` name the job's text as it was then, `problems` are the fingerprints of what was to
    be cut from each material, and `seconds` about how long the search was to take.
    """

    job: str
    revision: str
    seed: int
    seconds: float
    problems: Mapping[str, str]
    plans: Mapping[str, Plan]
    boards: Mapping[str, BoardPlan] = field(default_factory=dict)

    @cached_property
    def name(self) -> str:
        """The plan's short name."""
        return plan_name(self.plans, self.boards)


def plan_name(plans: Mapping[str, Plan], boards: Mapping[str, BoardPlan]) -> str:
    """A short name for exactly these plans: the same cuts have the same name, whoever made them."""
    return _name_of(_exact(plans), boards_to_plain(boards))


def problem_fingerprint(problem: Problem | BoardProblem) -> str:
    """A short name for exactly this problem: parts, sheets or boards, rack, saws, limits, goals and what
    comes of one piece. A problem in which nothing does has the name it had before there was such a thing."""
    together = repr(problem.one_piece) if isinstance(problem, Problem) and problem.one_piece else ""
    return sha256(f"{problem!r}{together}".encode()).hexdigest()[:16]


def record_to_plain(record: PlanOfRecord) -> dict[str, Any]:
    """As JSON can hold it, lengths as exact fractions of an inch."""
    exact, boards = _exact(record.plans), boards_to_plain(record.boards)
    plain = {
        "layout": _layout(record.boards),
        "plan": _name_of(exact, boards),
        "job": record.job,
        "revision": record.revision,
        "seed": record.seed,
        "seconds": record.seconds,
        "problems": dict(record.problems),
        "exact": exact,
        **({"exact_boards": boards} if boards else {}),
    }
    return {**plain, "check": _check(plain)}


class _Header(BaseModel):
    """What stands before the plans. Other entries, such as the plans in readable form, are left alone."""

    model_config = ConfigDict(extra="ignore", strict=True)

    layout: int
    plan: str
    job: str
    revision: str
    seed: int
    seconds: float = Field(strict=False, ge=0, allow_inf_nan=False)
    problems: dict[str, str]
    exact: dict[str, Any]
    exact_boards: dict[str, Any] = Field(default_factory=dict)  # older plans have none
    check: str | None = None  # older plans have none


def record_from_plain(plain: Any, where: str) -> PlanOfRecord:
    """What `record_to_plain` wrote. `where` names the file in what is said of it.

    Raises RecordError for anything else: no plan at all, one of a newer casewright, one changed by hand.
    """
    layout = plain.get("layout") if isinstance(plain, dict) else None
    if isinstance(layout, int) and layout > LAYOUT:
        raise _refused(where, "was made by a newer version of casewright.", "Update casewright.")
    try:
        header = _Header.model_validate(plain)
        read = issued_from_plain({"revision": 0, "plans": header.exact, "boards": header.exact_boards})
    except (ValidationError, RecordError) as fault:
        text = "holds no sheet plan that casewright can read."
        raise _refused(where, text, ANEW) from fault
    made = (header.job, header.revision, header.seed, header.seconds, header.problems)
    record = PlanOfRecord(*made, read.plans, read.boards)
    if record.name != header.plan or header.check not in (None, _check(plain)):
        text = f"was changed by hand: it is not plan {header.plan} as it was made."
        raise _refused(where, text, ANEW)
    return record


def _layout(boards: Mapping[str, BoardPlan]) -> int:
    """The least form that holds these boards, so that an older casewright reads what it can."""
    every = [strip for plan in boards.values() for _, _, strip in plan.strips()]
    if any(strip.later or strip.wanted != strip.parts for strip in every):
        return LAYOUT
    if any(plan.glued for plan in boards.values()):
        return 3
    return 2 if boards else 1


def _exact(plans: Mapping[str, Plan]) -> dict[str, Any]:
    exact: dict[str, Any] = issued_to_plain(Issued(0, plans))["plans"]
    return exact


def _name_of(exact: Mapping[str, Any], boards: Mapping[str, Any]) -> str:
    """Named after its sheets and boards alone: what is proved of a plan, or said of it, does not change a
    cut."""
    sheets = {material: plan["sheets"] for material, plan in sorted(exact.items())}
    sheets |= {f"{material} boards": plan["boards"] for material, plan in sorted(boards.items())}
    return sha256(json.dumps(sheets).encode()).hexdigest()[:NAME_LENGTH]


def _check(plain: Mapping[str, Any]) -> str:
    """A sum over all that is read back, by which a number changed by hand is noticed: the name tells only
    sheets apart, so that a money or a proof could be changed under it."""
    read = {name: plain[name] for name in _Header.model_fields if name != "check" and name in plain}
    return sha256(json.dumps(read, sort_keys=True).encode()).hexdigest()[:16]


def _refused(where: str, text: str, fix: str) -> RecordError:
    return RecordError((Finding("plan-unreadable", where, text, fix),))
