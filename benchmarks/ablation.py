"""What each search parameter buys: all of them halved and doubled, one at a time, over a few fixed instances.

Work is counted, not timed, so plans repeat; only the seconds depend on the machine. Small instances on one
seed show which numbers matter at all, and in which direction; a difference of one sheet or two settings may
be chance.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, replace
from fractions import Fraction as F
from typing import Any

from casewright.planner.engine import MaxIterations, solve_instance
from casewright.planner.parameters import DEFAULT_PARAMETERS, PricingEffort, SearchParameters
from casewright.planner.problem import Bin, Goal, Limits, Problem, Saw, SawKind, Trim
from casewright.planner.solve import solve

from . import cabinet_jobs, literature

TITLE = "Search parameters, halved and doubled"
SOLVED = (
    ("Class_05.2bp_60_3", True),
    ("Class_05.2bp_100_3", True),
    ("Class_08.2bp_60_7", True),
    ("Class_10.2bp_60_9", False),
)
HARD = (("Class_03.2bp_40_9", False), ("Class_10.2bp_40_9", True), ("Class_04.2bp_60_3", False))
"""Literature instances, and whether items may be turned: those solved to proof, so that the work until then
can be compared (these alone in a quick run), and those that stay open for long."""

ENGINE_WORK, QUICK_ENGINE_WORK = 400_000, 60_000
JOB_WORK, QUICK_JOB_WORK = 60_000, 20_000
CLOCKED = frozenset(
    {"cover_time_share", "joins_per_second", "additions_per_second", "nodes_per_second"}
    | {"later_time_share", "later_seconds", "alone_time_share"}
)
"""These act only where seconds are asked for."""

FIRST_OF_THE_JOB = "sheet_kinds_alone"
"""Fields from here on steer the planner around the engine, those before it the engine itself."""

Number = int | float | PricingEffort | tuple[PricingEffort, ...]


@dataclass(frozen=True)
class Outcome:
    """Totals over the instances. `work` (iterations) is of the engine alone, `settings` and `leftover`
    (money) of jobs."""

    sheets: int
    bound: int
    work: int
    settings: int
    leftover: float
    seconds: float
    plans: tuple[object, ...]

    def against(self, usual: Outcome) -> str:
        """The change in words: what is better or worse than with the usual parameters."""
        changes = (
            ("sheets", self.sheets - usual.sheets),
            ("bound", self.bound - usual.bound),
            ("settings", self.settings - usual.settings),
            ("leftover", round(self.leftover - usual.leftover)),
        )
        told = [f"{name} {change:+d}" for name, change in changes if change]
        if self.work != usual.work:
            told.append(f"work {100 * (self.work / usual.work - 1):+.0f} %")
        same = "same" if self.plans == usual.plans else "other plans, as good"
        text = ", ".join(told) or same
        ratio = self.seconds / max(usual.seconds, 0.01)
        return text if 0.8 < ratio < 1.25 else f"{text}; time x{ratio:.1f}"


def run(quick: bool = False) -> str:
    """The table as Markdown."""
    if not literature.INSTANCES.exists():
        return f"The file {literature.INSTANCES.name} is not at hand."
    engine = _engine(_instances(quick), QUICK_ENGINE_WORK if quick else ENGINE_WORK)
    job = _jobs(QUICK_JOB_WORK if quick else JOB_WORK)
    return "\n".join([*_rows(engine, job), "", *_notes(quick)])


def _rows(
    engine: Callable[[SearchParameters], Outcome], job: Callable[[SearchParameters], Outcome]
) -> Iterator[str]:
    yield "| parameter | value | halved | doubled |"
    yield "|---|---|---|---|"
    measure = engine
    usual = engine(DEFAULT_PARAMETERS)
    for field in fields(SearchParameters):
        if field.name == FIRST_OF_THE_JOB:
            measure, usual = job, job(DEFAULT_PARAMETERS)
        value: Number = getattr(DEFAULT_PARAMETERS, field.name)
        if field.name in CLOCKED:
            yield f"| {field.name} | {_shown(value)} | acts where seconds are asked for | |"
            continue
        cells = [measure(_with(field.name, _scaled(value, factor))).against(usual) for factor in (0.5, 2.0)]
        yield f"| {field.name} | {_shown(value)} | {cells[0]} | {cells[1]} |"


def _notes(quick: bool) -> Iterator[str]:
    engine, job = (QUICK_ENGINE_WORK, QUICK_JOB_WORK) if quick else (ENGINE_WORK, JOB_WORK)
    names = ", ".join(f"{name}{' with turning' if turn else ''}" for name, turn in _instances(quick))
    yield f"Rows before `{FIRST_OF_THE_JOB}`: the engine alone on {names}; {engine:,} iterations, seed 1."
    yield f"From there on: three cabinet jobs of our own, {job:,} iterations, seed 1."
    yield "Work is the engine's iterations until all is proved or they are used up. Less work, fewer sheets"
    yield "and settings, more bound and leftover are better. Shares double to at most 1."


def _with(name: str, value: Number) -> SearchParameters:
    changed: dict[str, Any] = {name: value}
    return replace(DEFAULT_PARAMETERS, **changed)


def _scaled(value: Number, factor: float) -> Number:
    if isinstance(value, tuple):
        return tuple(_effort(one, factor) for one in value)
    if isinstance(value, PricingEffort):
        return _effort(value, factor)
    if isinstance(value, int):
        return max(1, int(value * factor))
    return min(1.0, value * factor) if value <= 1 else value * factor


def _effort(effort: PricingEffort, factor: float) -> PricingEffort:
    changed: dict[str, Any] = {
        name: int(getattr(effort, name) * factor)
        for name in ("built", "joins", "level", "columns", "counting")
    }
    return replace(effort, **changed)


def _shown(value: Number) -> str:
    if isinstance(value, tuple):
        return f"{len(value)} efforts"
    return f"{value.joins:,} joins" if isinstance(value, PricingEffort) else f"{value:,}"


def _instances(quick: bool) -> tuple[tuple[str, bool], ...]:
    return SOLVED if quick else SOLVED + HARD


def _engine(names: tuple[tuple[str, bool], ...], work: int) -> Callable[[SearchParameters], Outcome]:
    records = {record["name"]: record for record in literature.load()}
    instances = [literature.instance_of(records[name], turn) for name, turn in names]

    def measure(parameters: SearchParameters) -> Outcome:
        begun = time.process_time()
        found = [solve_instance(one, MaxIterations(work), 1, parameters=parameters) for one in instances]
        took = time.process_time() - begun
        return Outcome(
            sum(solution.cost for solution in found),
            sum(solution.bound.cost for solution in found),
            sum(solution.iterations for solution in found),
            0,
            0.0,
            took,
            tuple(solution.patterns for solution in found),
        )

    return measure


def _jobs(work: int) -> Callable[[SearchParameters], Outcome]:
    problems = list(_problems())

    def measure(parameters: SearchParameters) -> Outcome:
        begun = time.process_time()
        found = [solve(one, MaxIterations(work), 1, parameters=parameters) for one in problems]
        took = time.process_time() - begun
        figures = [plan.figures for plan in found]
        return Outcome(
            sum(one.sheets for one in figures),
            sum(plan.bound_sheets for plan in found),
            0,
            sum(one.settings for one in figures),
            float(sum(one.leftover_worth for one in figures)),
            took,
            tuple(plan.sheets for plan in found),
        )

    return measure


def _problems() -> Iterator[Problem]:
    """Settings first; leftovers first with sheets too heavy to carry; and two sizes of sheet to choose
    from."""
    settings_first = (Goal.SHEET_MONEY, Goal.FENCE_SETTINGS, Goal.LEFTOVER_WORTH, Goal.CUTS, Goal.TURNS)
    case = cabinet_jobs.CASE
    first, second = (
        cabinet_jobs.problem(case, cabinet_jobs.job(cases, seed)[case]) for cases, seed in ((5, 1), (3, 1))
    )
    yield replace(first, goals=settings_first)
    hand = Saw("track saw", SawKind.HAND_SAW, F(3, 32), clean_up=F(1, 4))
    yield replace(second, hand_saw=hand, limits=Limits(F(50)))
    small = Bin("5 by 5", F(60), F(60), None, F(62), Trim.all_round(F(1, 4)))
    yield replace(second, bins=(*second.bins, small), goals=settings_first)
