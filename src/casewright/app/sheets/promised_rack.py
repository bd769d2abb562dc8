"""Rack pieces that two jobs of one shop count on: each job's file lists the rack for itself."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from ...errors import RecordError
from ...findings import Finding, Weight
from ...record.plan_of_record import PlanOfRecord
from ...record.shop_state import Status
from ..jobs.kept_jobs import KeptJobs, OpenedRevision
from ..shop.shop_floor import read_record
from .kept_plans import StoreShelf

RackPiece = tuple[str, Fraction, Fraction]
"""A piece on the rack as a plan knows it: its name, length and width."""

FINISHED = (Status.CUT, Status.ASSEMBLED, Status.GIVEN_UP)


def promised_twice(saved: KeptJobs, work: OpenedRevision) -> tuple[Finding, ...]:
    """A finding for each rack piece that the plan of this job uses and that of another one too, more of them
    than the rack has. Jobs that are put away, and those whose parts are all cut, no longer count."""
    job, record = work.worked.job, _plan_of(saved, work.id)
    if job is None or record is None:
        return ()
    used = _pieces(record)
    stock = {(one.name, one.length, one.width): one.count for one in job.shop.rack}
    mine = {piece: count for piece, count in stock.items() if used[piece]}
    return tuple(_clashes(saved, work, used, mine)) if mine else ()


def _clashes(
    saved: KeptJobs, work: OpenedRevision, used: Counter[RackPiece], stock: dict[RackPiece, int]
) -> Iterator[Finding]:
    for row in saved.list():
        if row.id == work.id:
            continue
        other = _plan_of(saved, row.id)
        theirs = _pieces(other) if other else Counter()
        twice = [one for one, count in stock.items() if theirs[one] and used[one] + theirs[one] > count]
        if other is None or not twice or _is_finished(saved, row.id):
            continue
        for piece in twice:
            name, has = piece[0], stock[piece]
            both = f"this plan and plan {other.name} of the job “{row.name}”"
            text = f"{both} count on more of it than the rack has, {has}."
            fix = (
                "Take it off the rack in one of the two jobs and plan that one again, or remove the other "
                "job from the list if nothing more is cut for it."
            )
            yield Finding("rack-promised", f"rack “{name}”", text, fix, Weight.WARN)


def _plan_of(saved: KeptJobs, job: str) -> PlanOfRecord | None:
    """A job's plan; None too for one that cannot be read, which is said on that job's own page."""
    try:
        return StoreShelf(saved, job).read()
    except RecordError:
        return None


def _pieces(record: PlanOfRecord) -> Counter[RackPiece]:
    sheets = (sheet for plan in record.plans.values() for sheet in plan.sheets)
    return Counter((sheet.bin, sheet.root.length, sheet.root.width) for sheet in sheets)


def _is_finished(saved: KeptJobs, job: str) -> bool:
    state = read_record(saved.file, job).state
    return state is not None and all(part.status in FINISHED for part in state.parts.values())
