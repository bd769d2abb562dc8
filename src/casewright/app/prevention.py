"""Prevention: sizes easily confused, a check at the saw, and parts that leftovers could replace."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from ..casework.project import Project
from ..errors import JobError, LengthError
from ..findings import Finding
from ..lengths.did_you_mean import did_you_mean
from ..lengths.length import parse_length
from ..lengths.quantities import json_number
from ..planner.plan import Plan, sheets_of_parts
from ..repair.prevention.cut_dimension import CutDimension
from ..repair.prevention.saw_check import check_at_saw
from ..repair.prevention.spare_cover import Cover, cover, insure
from .jobs.worked_job import PlannedJob, WorkedJob

SEEDS = range(1, 9)
WORK = 400

MOST_NAMED = 4
"""Pairs or parts that a line of text names; all of them are in its JSON."""


@dataclass(frozen=True)
class AlikeLine:
    """Two sets of parts that could be confused, printed; one set where its parts are easily turned wrong."""

    first: tuple[str, ...]
    second: tuple[str, ...]
    dimension: str
    sizes: tuple[str, str]
    why: str
    advice: str

    def head(self) -> str:
        """What it is about, before the advice."""
        if self.dimension in ("grain", "hand"):
            pairs = [f"{a} and {b}" for a, b in zip(self.first, self.second, strict=False)] or self.first
            more = f" and {len(pairs) - MOST_NAMED} more" if len(pairs) > MOST_NAMED else ""
            return f"{', '.join(pairs[:MOST_NAMED])}{more} ({self.sizes[0]} × {self.sizes[1]}), {self.why}:"
        return f"{self.dimension} {self.sizes[0]} and {self.sizes[1]}, {self.why}:"

    def plain(self) -> dict[str, Any]:
        """The line as JSON."""
        return asdict(self)


def alike_lines(worked: WorkedJob) -> tuple[AlikeLine, ...]:
    """Every pair of sizes that a glance could confuse, the nearest first; then what is easily turned."""
    project = worked.needed()
    sizes = tuple(
        AlikeLine(
            alike.first,
            alike.second,
            alike.dimension.value,
            (project.printed(alike.sizes[0]), project.printed(alike.sizes[1])),
            alike.likeness.value,
            alike.advice,
        )
        for alike in worked.look_alikes
    )
    turned = tuple(
        AlikeLine(
            one.first,
            one.second,
            one.how.name.lower(),
            (project.printed(one.sizes[0]), project.printed(one.sizes[1])),
            one.how.value,
            one.advice,
        )
        for one in worked.easily_turned
    )
    return sizes + turned


def guard(project: Project, mark: str, dimension: str, said: str) -> Finding:
    """A measured fence setting against the plan; right within half a mark of the shop's rule.

    Raises JobError for a part the job does not have or a text that is no length.
    """
    if mark not in project.parts:
        text = "the job has no part with this mark."
        raise JobError((Finding("no-such-part", mark, text, did_you_mean(mark, project.parts)),))
    try:
        read = parse_length(said, project.job.unit)
    except LengthError as fault:
        text = f"{str(fault).rstrip('.')}."
        place = CutDimension(dimension).of(project.parts[mark]).name
        raise JobError((Finding("length", place, text, "Type it again."),)) from None
    return check_at_saw(project, mark, CutDimension(dimension), read)


def source_sheet(planned: PlannedJob, mark: str) -> str:
    """The sheet that a part is cut from: its number and name."""
    sheet = sheets_of_parts(planned.plans).get(mark)
    if sheet is None:
        return "no sheet"
    material, number = sheet
    return f"sheet {number} of {planned.project.job.sheets[material].name}"


@dataclass(frozen=True)
class Slack:
    """Which parts a planned leftover could replace: `covered` with the leftover, `bare` those none could.

    `better` is set where other plans of the same money were tried: what share they cover, and what
    share the plan at hand does.
    """

    covered: tuple[tuple[str, str], ...]
    bare: tuple[str, ...]
    share: float
    better: float | None = None

    def plain(self) -> dict[str, Any]:
        """The answer as JSON."""
        return asdict(self)


def slack(project: Project, plans: Mapping[str, Plan]) -> Slack:
    """What the plan's own leftovers would cover."""
    return _told(cover(project, plans))


def insure_plans(project: Project, plans: Mapping[str, Plan]) -> tuple[Slack, Mapping[str, Plan]]:
    """Plans that spend no more on sheets and whose leftovers cover as much as could be found."""
    found = insure(project, plans, SEEDS, WORK)
    before = _told(found.before)
    return Slack(before.covered, before.bare, before.share, json_number(found.after.share)), found.plans


def _told(found: Cover) -> Slack:
    covered = tuple((mark, source) for mark, source in found.sources.items() if source)
    bare = tuple(mark for mark, source in found.sources.items() if not source)
    return Slack(covered, bare, json_number(found.share))
