"""Cabinet jobs of 10 to 300 parts in three materials: sheets against the proven bound and against a
general-purpose packer, settings, and growth up to 10,000 parts."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass, replace

from casewright.planner.engine import MaxSeconds
from casewright.planner.layout.integer_grid import grid_of
from casewright.planner.layout.orientation import common_orientations, own_settings
from casewright.planner.layout.setting_bound import fewest_settings
from casewright.planner.plan import Plan, PlanStatus
from casewright.planner.problem import Goal, Problem
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from . import cabinet_jobs, general_packer
from .general_packer import Best
from .pair_bound import no_pair_fits

TITLE = "Cabinet jobs"
SECONDS = 1.0
"""Of processor time, so that what else the machine does takes nothing away."""

GOALS = (Goal.SHEET_MONEY, Goal.FENCE_SETTINGS, Goal.LEFTOVER_WORTH, Goal.CUTS, Goal.TURNS)
SIZES = (2, 3, 5, 8, 12, 20, 30)
SEEDS = 5


@dataclass(frozen=True)
class Row:
    cases: int
    parts: int
    sheets: int
    over: int  # sheets over the proven bound
    proved: bool
    settings: int
    own_sizes: int  # settings if every part were cut on its own sizes
    fewest: int  # no plan has fewer settings
    no_pair: bool  # settings are as many as own_sizes, and no pair that saves one fits so few sheets
    packed: Best | None
    seconds: float


def run(quick: bool = False) -> str:
    """The tables, as Markdown."""
    sizes, seeds = (SIZES[:3], 1) if quick else (SIZES, SEEDS)
    rows = [row for cases in sizes for seed in range(seeds) for row in _job(cases, seed)]
    return "\n".join([*_table(rows), "", *_growth((300, 1000) if quick else (100, 300, 1000, 3000, 10_000))])


def _job(cases: int, seed: int) -> Iterator[Row]:
    for material, items in cabinet_jobs.job(cases, seed).items():
        yield _row(cases, replace(cabinet_jobs.problem(material, items), goals=GOALS))


def _row(cases: int, problem: Problem) -> Row:
    begun = time.process_time()
    plan = solve(problem, MaxSeconds(SECONDS, time.process_time))
    seconds = time.process_time() - begun
    if faults := verify(problem, plan):
        raise AssertionError(f"an unsound plan: {faults[0]}")
    grid = grid_of(problem)
    figures = plan.figures
    own, fewest = len(own_settings(grid, common_orientations(grid))), fewest_settings(grid)
    return Row(
        cases,
        problem.parts,
        figures.sheets,
        figures.sheets - plan.bound_sheets,
        plan.status is PlanStatus.OPTIMAL,
        figures.settings,
        own,
        fewest,
        own == figures.settings > fewest and no_pair_fits(problem, figures.sheets),
        general_packer.best(problem),
        seconds,
    )


def _table(rows: list[Row]) -> Iterator[str]:
    yield f"{SECONDS:g} s of processor time each, one core; goals: sheets, then settings. Every plan passed"
    yield "the independent checker. The packer is the best of all its guillotine modes and orders, as long"
    yield "as they take: the fewest sheets, and of the packings with so few the first, or the one with the"
    yield "fewest settings. `own sizes` counts the settings if each part is cut on its own sizes and no other"
    yield "piece needs one; a plan has fewer only where a part is what is left of a piece. `no pair fits`:"
    yield "whichever parts could be cut from pieces of one size so that a setting is saved, the bound shows"
    yield "that they and the other parts need more sheets (or there are none such)."
    yield ""
    heads = ["cases", "plans", "parts", "sheets", "proved fewest", "over the bound, most", "packer's sheets"]
    heads += ["settings", "own sizes", "packer's settings", "its fewest", "longest, s"]
    yield f"| {' | '.join(heads)} |"
    yield f"|{'-|' * len(heads)}"
    for cases in sorted({row.cases for row in rows}):
        yield _line(str(cases), [row for row in rows if row.cases == cases])
    yield _line("all", rows)
    pairs = [(row, row.packed) for row in rows if row.packed is not None]
    more = sum(row.sheets > packed.sheets for row, packed in pairs)
    fewer = sum(row.sheets < packed.sheets for row, packed in pairs)
    proved = sum(row.over == 0 for row in rows)
    yield ""
    share = f"{proved} of {len(rows)} ({proved / len(rows):.1%})"
    yield f"Sheets at the proven bound: {share}. Against the packer"
    yield f"in {len(pairs)} plans: more sheets in {more}, fewer in {fewer}. Settings:"
    yield ""
    yield "| against | fewer | as many | of these proved fewest | of the others no pair fits | more |"
    yield "|-|-|-|-|-|-|"
    yield _against("the packer's first", [(row, packed.settings) for row, packed in pairs])
    yield _against("the packer's fewest", [(row, packed.fewest_settings) for row, packed in pairs])
    yield _against("own sizes", [(row, row.own_sizes) for row in rows])


def _against(name: str, pairs: list[tuple[Row, int]]) -> str:
    fewer = sum(row.settings < other for row, other in pairs)
    level = [row for row, other in pairs if row.settings == other]
    open_ = [row for row in level if row.settings != row.fewest]
    no_pair = sum(row.no_pair for row in open_)
    cells = [name, fewer, len(level), len(level) - len(open_), no_pair, len(pairs) - fewer - len(level)]
    return f"| {' | '.join(str(cell) for cell in cells)} |"


def _line(name: str, rows: list[Row]) -> str:
    packed = [row.packed for row in rows if row.packed is not None]
    parts = [row.parts for row in rows]
    cells = [
        name,
        len(rows),
        f"{min(parts)}-{max(parts)}",
        sum(row.sheets for row in rows),
        f"{sum(row.proved for row in rows)}/{len(rows)}",
        max(row.over for row in rows),
        sum(best.sheets for best in packed) if len(packed) == len(rows) else f"({len(packed)} plans)",
        sum(row.settings for row in rows),
        sum(row.own_sizes for row in rows),
        sum(best.settings for best in packed),
        sum(best.fewest_settings for best in packed),
        f"{max(row.seconds for row in rows):.2f}",
    ]
    return f"| {' | '.join(str(cell) for cell in cells)} |"


def _growth(sizes: tuple[int, ...]) -> Iterator[str]:
    yield "Growth: one job's case ply, the first plan and the plan after 10 s."
    yield ""
    yield "| parts | first plan, s | its gap | after 10 s: sheets | bound | gap |"
    yield "|-|-|-|-|-|-|"
    for size in sizes:
        items = cabinet_jobs.job(size // 7, 0)[cabinet_jobs.CASE]
        problem = cabinet_jobs.problem(cabinet_jobs.CASE, items)
        first: list[tuple[float, int]] = []
        begun = time.process_time()

        def note(plan: Plan, begun: float = begun, first: list[tuple[float, int]] = first) -> None:
            if not first:
                first.append((time.process_time() - begun, plan.figures.sheets))

        plan = solve(problem, MaxSeconds(10.0, time.process_time), progress=note)
        bound = plan.bound_sheets
        start, sheets = first[0]
        at_first = (sheets - bound) / sheets
        yield (
            f"| {problem.parts} | {start:.2f} | {at_first:.1%} | {plan.figures.sheets} | {bound} "
            f"| {float(plan.gap):.1%} |"
        )
