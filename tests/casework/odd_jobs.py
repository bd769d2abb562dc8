"""What is said of small jobs that are other than usual in one respect."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casewright.casework.checks.case_checks import check_after
from casewright.casework.job import Bay, Construction, Job, TopKind
from casewright.casework.project import draw_up
from casewright.findings import Finding
from finding_rows import Provoke, told
from samples import job, spec

STEP = F(1, 32)


def of(make: Callable[[], Job]) -> Provoke:
    """Everything said of a job, whether it can be built or not."""

    def findings() -> tuple[Finding, ...]:
        made = make()
        return told(lambda: draw_up(made)) or draw_up(made).findings

    return findings


def built(**made: Any) -> Provoke:
    """A base case put together otherwise than usual."""
    return of(lambda: job(spec(construction=Construction(**made)), construction=Construction(**made)))


def shaped(opening: F | None = F(36), **said: Any) -> Provoke:
    """A case whose own fields are other than usual."""
    return of(lambda: job(spec(**said), opening=opening, construction=said.get("construction")))


def changed(**fields: Any) -> Provoke:
    return of(lambda: replace(job(), **fields))


def in_run(height: F = F(69, 2), **fields: Any) -> Provoke:
    """One case in a run that is other than usual."""

    def make() -> Job:
        plain = job(spec(height=height))
        return replace(plain, runs=(replace(plain.runs[0], **fields),))

    return of(make)


def moved(name: str, value: F, top: TopKind = TopKind.STRETCHERS) -> Provoke:
    """What the parts say once a size of a sound job, by its name in the ledger, is something else."""

    def findings() -> tuple[Finding, ...]:
        made = Construction(top=top)
        project = draw_up(job(spec(construction=made), construction=made))
        sizes = project.sizes.given({name: value})
        return check_after(project.job, project.cases.values(), sizes)

    return findings


def shared(first: F, second: F) -> Provoke:
    """Two bays of these widths; the case is 34 9/16 wide inside, 33 27/32 but for the divider."""
    return shaped(bays=(Bay(width=first), Bay(width=second)))
