"""Notional seconds of counted work against seconds of processor time: the examples, cabinet jobs and classic
instances, each asked for about one second and about four."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction as F
from pathlib import Path
from statistics import median

from casewright.app.jobs.worked_job import open_job
from casewright.planner.effort import AboutSeconds
from casewright.planner.engine import solve_instance
from casewright.planner.engine.work_count import PICOSECONDS
from casewright.planner.parameters import WORK_RATES, WorkKind
from casewright.planner.problem import Limits, Problem, Saw, SawKind
from casewright.planner.solve import solve
from casewright.workshop.sheets.cut_problems import cut_problems

from . import cabinet_jobs, literature

TITLE = "Counted work against processor time"
EXAMPLES = Path(__file__).parents[1] / "examples"
SECONDS = (1.0, 4.0)
CASES = (2, 3, 5, 8, 12, 20, 30)
EVERY = 12
"""Every twelfth classic instance."""

TOO_SHORT = 0.05
"""Runs that end sooner, mostly by a proof, say nothing about the rates."""

HAND = Saw("track saw", SawKind.HAND_SAW, F(3, 32), clean_up=F(1, 4))

Search = Callable[[AboutSeconds], object]


@dataclass(frozen=True, slots=True)
class Measured:
    name: str
    asked: float
    notional: float
    seconds: float
    shares: dict[WorkKind, float]  # of the notional seconds

    @property
    def ratio(self) -> float:
        """Processor seconds to a notional one."""
        return self.seconds / self.notional


def run(quick: bool = False) -> str:
    """The tables, as Markdown."""
    searches = list(_searches())
    if quick:
        searches = searches[::7]
    rows = [
        _measured(name, asked, search) for asked in SECONDS[: 1 if quick else 2] for name, search in searches
    ]
    return "\n".join(_table([row for row in rows if row.seconds >= TOO_SHORT]))


def _searches() -> Iterator[tuple[str, Search]]:
    for path in sorted(EXAMPLES.glob("*.toml")):
        project = open_job(path.read_text(encoding="utf-8")).project
        assert project is not None, path
        for key, problem in cut_problems(project).items():
            yield f"{path.stem}, {key}", _job(problem)
    for cases in CASES:
        for material, items in cabinet_jobs.job(cases, 1).items():
            problem = cabinet_jobs.problem(material, items)
            yield f"{cases} cases, {material.name}", _job(problem)
            if cases in (3, 12):
                carried = replace(problem, hand_saw=HAND, limits=Limits(F(50)))
                yield f"{cases} cases, {material.name}, carried", _job(carried)
            if cases <= 5:
                yield f"{cases} cases, {material.name}, rack", _job(_with_rack(problem))
    if literature.INSTANCES.exists():
        for record in literature.load()[3::EVERY]:
            for turn in (False, True):
                yield f"{record['name']}{', turning' if turn else ''}", _classic(record, turn)


def _with_rack(problem: Problem) -> Problem:
    """The same with three pieces left over from other jobs."""
    (sheet,) = problem.bins
    pieces = ((F(60), F(30), F("20.5")), (F(48), F(24), F(12)), (F(40), F(36), F("9.75")))
    rack = tuple(
        replace(sheet, name=f"piece {n}", length=x, width=y, count=1, price=price, offcut=True)
        for n, (x, y, price) in enumerate(pieces, 1)
    )
    return replace(problem, bins=(sheet, *rack))


def _job(problem: Problem) -> Search:
    return lambda effort: solve(problem, effort)


def _classic(record: dict[str, object], turn: bool) -> Search:
    return lambda effort: solve_instance(literature.instance_of(record, turn), effort, seed=1)


def _measured(name: str, asked: float, search: Search) -> Measured:
    effort = AboutSeconds(asked)
    begun = time.process_time()
    search(effort)
    seconds = time.process_time() - begun
    work = effort.work
    shares = {kind: WORK_RATES[kind] * amount / work.picoseconds for kind, amount in work.amounts.items()}
    return Measured(name, asked, work.picoseconds / PICOSECONDS, seconds, shares)


def _table(rows: list[Measured]) -> Iterator[str]:
    yield "Processor seconds to a notional second. Runs that end sooner than"
    yield f"{TOO_SHORT:g} s of processor time, mostly by a proof, are left out."
    yield ""
    yield "| asked, s | runs | least | median | most | within 1.5 | within 2.5 |"
    yield "|-|-|-|-|-|-|-|"
    for asked in SECONDS:
        if ratios := [row.ratio for row in rows if row.asked == asked]:
            within = [sum(1 / factor <= ratio <= factor for ratio in ratios) for factor in (1.5, 2.5)]
            yield (
                f"| {asked:g} | {len(ratios)} | {min(ratios):.2f} | {median(ratios):.2f} | {max(ratios):.2f} "
                f"| {within[0]} | {within[1]} |"
            )
    yield ""
    whole = sum(row.notional for row in rows)
    shares = {
        kind: sum(row.notional * row.shares.get(kind, 0.0) for row in rows) / whole for kind in WorkKind
    }
    yield "Shares of the notional seconds: "
    yield ", ".join(f"{kind.name.lower()} {share:.1%}" for kind, share in shares.items()) + "."
    yield ""
    yield "| search | asked, s | notional s | processor s | ratio |"
    yield "|-|-|-|-|-|"
    for row in rows:
        yield f"| {row.name} | {row.asked:g} | {row.notional:.2f} | {row.seconds:.2f} | {row.ratio:.2f} |"
