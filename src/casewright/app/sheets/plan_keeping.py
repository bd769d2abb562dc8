"""The plan of record of a job: read where it is kept, made where there is none, never replaced unasked.

Commands, pages and papers get their `PlannedJob` here, so that all of them speak of one plan.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from functools import lru_cache
from pathlib import Path
from typing import Any, Protocol

from ...boards.board_plan import BoardPlan
from ...errors import CasewrightError, JobError, RecordError
from ...findings import Finding
from ...planner.plan import Plan, PlanStatus
from ...planner.plan_wording import STOPPED_EARLY
from ...planner.problem_faults import misfits
from ...record.plan_of_record import PlanOfRecord, record_from_plain, record_to_plain
from ..choices import SECONDS
from ..jobs.job_plan import Asked, Report, nobody_asks
from ..jobs.worked_job import PlannedJob, WorkedJob
from ..papers.write_whole import write_whole
from .begun_work import NOTHING_BEGUN_YET, BegunWork, named_as_begun
from .boards_for_now import boards_again, boards_for_now
from .made_already import NOTHING_MADE, MadeAlready, made_already
from .plan_changes import plans_for_now, refuse_plan_of_another
from .plan_file import plan_json, plan_record_of
from .plan_news import moved_words, to_buy


class KeptPlanUnreadable(RecordError):
    """The plan that is kept cannot be read; another may be kept beside it, and it stays as it is."""


class PlanThere(CasewrightError):
    """A first plan was not kept, as another was kept while it was looked for."""


BETTER = "better"
"""The entry of a plan file with a plan that was found for the same job since."""

LARGEST_FILE = 64 * 2**20
"""Bytes of a plan file at most; the plan of 200 cases takes 3 million."""


class Choice(Enum):
    """What to do where the job has changed since its plan was made."""

    ASK = "ask"
    AGAIN = "again"  # search, starting from the plan there is
    KEEP = "keep"  # carry the plan over: what can stay stays, nothing is searched


@dataclass(frozen=True)
class SearchEffort:
    """How hard to look for a plan: about so many seconds, from this seed, on so many cores, and no longer
    once `stopped` says so."""

    seconds: float = SECONDS
    seed: int = 0
    cores: int = 1
    stopped: Asked = nobody_asks


class PlanShelf(Protocol):
    """Where a job's plan of record is kept. `name` is what a maker calls the place."""

    @property
    def name(self) -> str: ...

    def read(self) -> PlanOfRecord | None:
        """The plan kept there, None while there is none. Raises RecordError where it cannot be read."""

    def begun(self, record: PlanOfRecord | None) -> BegunWork:
        """What is begun in the shop, where this plan is kept."""

    def numbered(self, planned: PlannedJob) -> PlannedJob:
        """The job with numbers for its sheets under which the shop has cut no other sheet."""

    def better_start(self, record: PlanOfRecord | None) -> Mapping[str, Plan]:
        """Plans found since for the job that this plan was made for: planning again begins from them."""

    def keep(self, planned: PlannedJob, *, first: bool) -> None:
        """Keep a plan in place of the one before; the `first` only where there is still none. Raises
        PlanThere where another came first, CasewrightError where it cannot be kept."""


@dataclass(frozen=True)
class FileShelf:
    """A plan file, usually beside the job file. No shop's record lies beside it, so the maker names the
    sheets that are begun, such as `maple 2`."""

    path: Path
    begun_sheets: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        return str(self.path)

    @classmethod
    def beside(cls, job_file: str, begun_sheets: tuple[str, ...] = ()) -> FileShelf:
        """The plan file of a job file: `studio.plan.json` beside `studio.toml`."""
        return cls(Path(job_file).with_suffix(".plan.json"), begun_sheets)

    def read(self) -> PlanOfRecord | None:
        plain = self._plain()
        return None if plain is None else record_from_plain(plain, self.name)

    def _plain(self) -> Any:
        """What the file holds; None where there is none."""
        try:
            if not self.path.exists():
                return None
            if self.path.stat().st_size > LARGEST_FILE:
                raise ValueError("it is far too large")
            return json.loads(self.path.read_text(encoding="utf-8"), object_pairs_hook=_each_once)
        except OSError as fault:
            raise _unreadable(self.name, f"cannot be read: {fault.strerror}.") from None
        except (ValueError, RecursionError):
            raise _unreadable(self.name, "holds no sheet plan that casewright can read.") from None

    def better_start(self, record: PlanOfRecord | None) -> Mapping[str, Plan]:
        plain = self._plain() if record else None
        if record is None or plain is None or BETTER not in plain:
            return {}
        better = record_from_plain(plain[BETTER], self.name)
        return better.plans if better.problems == record.problems else {}

    def keep_start(self, planned: PlannedJob, better: PlannedJob) -> None:
        """Keep a better plan beside the plan of record, which stands until somebody plans again."""
        better_plan = {BETTER: record_to_plain(plan_record_of(better))}
        self._write(
            {**plan_json(planned, self.made()), **better_plan, **self.made().in_plans(planned.plans).entry()}
        )

    def begun(self, record: PlanOfRecord | None) -> BegunWork:
        plans = record.plans if record else {}
        there = self.made().in_plans(plans)
        boards = record.boards if record else {}
        return named_as_begun(plans, boards, (*there.sheets, *self.begun_sheets), there.parts)

    def made(self) -> MadeAlready:
        return made_already(self._plain())

    def keep_after_repair(self, planned: PlannedJob, made: MadeAlready) -> None:
        """Keep a plan in place of any other, with what is cut already."""
        self._write({**plan_json(planned, made), **made.entry()})

    def _write(self, plain: Mapping[str, Any]) -> None:
        write_whole(self.name, _as_bytes(plain), over=True)

    def numbered(self, planned: PlannedJob) -> PlannedJob:
        return planned

    def keep(self, planned: PlannedJob, *, first: bool) -> None:
        fix = "name another place with --plan FILE"
        try:
            made = NOTHING_MADE if first else self.made().in_plans(planned.plans)
            plain = {**plan_json(planned, made), **made.entry()}
            write_whole(self.name, _as_bytes(plain), over=not first, fix=fix)
        except CasewrightError:
            if first and self.path.exists():
                raise PlanThere(f"{self.name} was made by another command meanwhile") from None
            raise


@dataclass(frozen=True)
class NoShelf:
    """No place at all: a job that comes from standard input keeps no plan."""

    name: str = "standard input"

    def made(self) -> MadeAlready:
        return NOTHING_MADE

    def read(self) -> None:
        return None

    def begun(self, record: PlanOfRecord | None) -> BegunWork:
        return NOTHING_BEGUN_YET

    def numbered(self, planned: PlannedJob) -> PlannedJob:
        return planned

    def better_start(self, record: PlanOfRecord | None) -> Mapping[str, Plan]:
        return {}

    def keep(self, planned: PlannedJob, *, first: bool) -> None:
        raise CasewrightError("the job came from standard input, not from a file")


@dataclass(frozen=True)
class RecordedPlan:
    """A job with its plan of record. `news` says what was made, kept or moved on the way; empty where the
    plan stood as it was."""

    planned: PlannedJob
    news: tuple[str, ...] = ()


class PlanOutdated(JobError):
    """The job has changed since its plan of record was made; `changes` say how, `record` is that plan."""

    def __init__(self, record: PlanOfRecord, changes: tuple[str, ...]) -> None:
        fix = "Plan again, starting from this plan, with --again; or carry its places over with --keep."
        super().__init__((outdated(record.name, changes, fix),))
        self.record = record
        self.changes = changes


def outdated(name: str, changes: tuple[str, ...], fix: str) -> Finding:
    """The plan of that name no longer meets the job, and somebody has to say what to do."""
    text = f"the job has changed since this plan was made: {' '.join(changes)}"
    return Finding("plan-outdated", f"plan {name}", text, fix)


@dataclass(frozen=True)
class PlanStanding:
    """What lies on the shelf: the plan of record, None while there is none, its plans for the job as it is
    now, and what of the job they do not meet; and what is begun in the shop."""

    record: PlanOfRecord | None
    plans: Mapping[str, Plan] = field(default_factory=dict)
    changes: tuple[str, ...] = ()
    begun: BegunWork = NOTHING_BEGUN_YET
    boards: Mapping[str, BoardPlan] = field(default_factory=dict)

    def planned(self, worked: WorkedJob) -> PlannedJob | None:
        """The job with its plan; None where there is none that stands."""
        if self.record is None or self.changes:
            return None
        return worked.with_plan(self.plans, self.record.seconds, self.record.seed, self.boards)


def standing(worked: WorkedJob, shelf: PlanShelf) -> PlanStanding:
    """Whether the job has a plan of record that stands.

    Raises JobError while no parts can be made of the job, RecordError for a plan that cannot be read or is
    another job's, and where a part that is cut has another size now.
    """
    project = worked.needed()
    record = shelf.read()
    begun = shelf.begun(record)
    begun.refuse_changes_of_made_parts(project)
    if record is None:
        return PlanStanding(None, begun=begun)
    refuse_plan_of_another(project, record, shelf.name)
    return _standing(worked, record, begun)


@lru_cache(maxsize=16)
def _standing(worked: WorkedJob, record: PlanOfRecord, begun: BegunWork) -> PlanStanding:
    """The same for one record, which every page of the job asks for."""
    plans, changes = plans_for_now(worked.needed(), worked.problems, record, begun)
    boards, of_boards = boards_for_now(worked.needed(), worked.board_problems, record)
    return PlanStanding(record, plans, (*changes, *of_boards), begun, boards)


def plan_on_record(
    worked: WorkedJob,
    shelf: PlanShelf,
    choice: Choice = Choice.ASK,
    effort: SearchEffort = SearchEffort(),
    progress: Report | None = None,
    start: Mapping[str, Plan] | None = None,
) -> RecordedPlan:
    """The job with its plan of record; one is made and kept where there is none.

    A plan that is made begins from the plan of record, or from `start` for the materials that are in it: no
    worse than those, so that what they promised is kept.

    Raises PlanOutdated where the job has changed since and `choice` does not say what to do, JobError while
    no parts can be made of the job, or where the search was stopped before every part had a place,
    RecordError for a file that is no plan of this job, which is never replaced, PlanError when sheets, saws
    and rack make no sense together.
    """
    try:
        found = standing(worked, shelf)
    except KeptPlanUnreadable:
        if choice is Choice.ASK:
            raise
        found = PlanStanding(None, begun=shelf.begun(None))
    planned, record = found.planned(worked), found.record
    if planned is not None and record is not None and choice is not Choice.AGAIN:
        # A plan from before boards were kept gets those that it has been cut by.
        kept_since = planned.board_plans.keys() <= record.boards.keys()
        return RecordedPlan(planned) if kept_since else _kept(shelf, planned, found)
    if record is not None and choice is Choice.ASK:
        raise PlanOutdated(record, found.changes)
    if record is not None and choice is Choice.KEEP:
        return _kept(
            shelf, worked.with_plan(_carried(worked, record, found.plans), boards=found.boards), found
        )
    begun = {material: found.begun.of(worked.needed(), material) for material in worked.problems}
    before = dict(record.plans) if record else {}
    # A plan found elsewhere knows nothing of the sheets that are begun since.
    found_since = {**shelf.better_start(record), **(start or {})}
    before |= {material: plan for material, plan in found_since.items() if not begun[material].sheets}
    made = worked.planned(effort.seconds, effort.seed, effort.cores, progress, before, begun, effort.stopped)
    boards = boards_again(worked, found.boards, found.begun.boards)
    made = worked.with_plan(made.plans, made.made.seconds, made.made.seed, boards)
    if _is_stopped(made.plans) and _left_out(made):
        raise JobError((_nothing_yet(record),))
    try:
        return _kept(shelf, made, found)
    except PlanThere:  # two commands at once: both go by the plan that was kept
        return plan_on_record(worked, shelf, Choice.ASK, effort, progress, start)


def _carried(worked: WorkedJob, record: PlanOfRecord, now: Mapping[str, Plan]) -> dict[str, Plan]:
    """The plans for the job as it is `now`, of its own materials. Raises JobError where not all parts can
    keep or get a place."""
    plans = {key: now[key] for key in worked.problems if key in now}
    lost = [key for key in worked.problems if key not in plans]
    lost += [key for key, plan in plans.items() if plan.status is PlanStatus.IMPOSSIBLE]
    if lost:
        sheets = worked.needed().job.sheets
        text = f"it cannot be carried over: not every part of {sheets[lost[0]].name} has room."
        raise JobError((Finding("plan-not-kept", f"plan {record.name}", text, "Plan again with --again."),))
    return plans


def _kept(shelf: PlanShelf, found: PlannedJob, then: PlanStanding) -> RecordedPlan:
    planned, before = shelf.numbered(found), then.record
    project = planned.project
    begun = {material: then.begun.of(project, material) for material in planned.made.plans}
    moved = tuple(then.begun.kept_text(planned.project))
    if before is None:
        made = f"Made plan {planned.plan_name} ({to_buy(planned)})"
    elif planned.plan_name == before.name and plan_record_of(planned).problems == before.problems:
        return _stays(shelf, planned, then, moved)
    else:
        made = f"Plan {planned.plan_name} follows plan {before.name}"
        moved = (*moved, *moved_words(before, planned, begun))
    if _is_stopped(planned.plans):
        made = f"The search was stopped early, and the best so far is taken. {made}"
    try:
        shelf.keep(planned, first=before is None)
    except PlanThere:
        raise
    except CasewrightError as fault:
        return RecordedPlan(planned, (f"{made}. It is not kept: {str(fault).rstrip('.')}.", *moved))
    return RecordedPlan(planned, (f"{made}, kept in {shelf.name}.", *moved))


def _stays(shelf: PlanShelf, planned: PlannedJob, then: PlanStanding, moved: tuple[str, ...]) -> RecordedPlan:
    """The plan of record where the same cuts were found again."""
    record = then.record
    assert record is not None
    stays = f"Plan {record.name} stays"
    if _is_stopped(planned.plans):
        said = f"{stays} as it was: the search was stopped before it found a better one."
        return RecordedPlan(then.planned(planned.worked) or planned, (said, *moved))
    if _is_stopped(record.plans):  # this search came to its end, so the plan says so no longer
        shelf.keep(planned, first=False)
    return RecordedPlan(planned, (f"{stays}: nothing better was found.", *moved))


def _is_stopped(plans: Mapping[str, Plan]) -> bool:
    """Whether the search for one of the plans was ended on request."""
    return any(finding.code == STOPPED_EARLY for plan in plans.values() for finding in plan.findings)


def _left_out(made: PlannedJob) -> bool:
    """Whether parts have no place that do fit on their sheets."""
    unfit = {one.item.name for problem in made.made.problems.values() for one in misfits(problem)}
    return any(one.item not in unfit for plan in made.made.plans.values() for one in plan.unplaced)


def _nothing_yet(record: PlanOfRecord | None) -> Finding:
    stays = f"plan {record.name} stays as it was" if record else "there is no plan yet"
    text = f"the search was stopped before every part had a place on a sheet, so {stays}."
    return Finding("stopped-unplaced", "sheets", text, "Plan again, and let it go on for longer.")


def _as_bytes(plain: Mapping[str, Any]) -> bytes:
    return json.dumps(plain, ensure_ascii=False, indent=1).encode()


def _each_once(entries: list[tuple[str, object]]) -> dict[str, object]:
    """An object of the file. Of two entries of one name nobody could say which is meant."""
    read = dict(entries)
    if len(read) < len(entries):
        raise ValueError("an entry is there twice")
    return read


def _unreadable(where: str, text: str) -> RecordError:
    return RecordError((Finding("plan-unreadable", where, text, "Move it away, then plan."),))
