"""Bin packing with unrestricted guillotine cuts over the classic instances: classes 1-6 of Berkey and Wang
(1987), 7-10 of Martello and Vigo (1998). Sheets, bounds and time beside the literature's."""

from __future__ import annotations

import json
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from casewright.planner.engine import Instance, LargeObject, MaxSeconds, SmallItem, Solution
from casewright.planner.engine import solve_instance as solve

TITLE = "Guillotine bin packing, classes 1-10"
SECONDS = 10.0
MARKS = (0.2, 1.0, 10.0)
INSTANCES = Path(__file__).parents[2] / "shared" / "benchmarks" / "bin-packing-500-odd.json"
QUICK = 7
"""A quick run takes every seventh instance, one second each."""

BEST = {False: ("3nho", "oriented"), True: ("3nhr", "rotation")}
"""Fields of the best known values: three-stage guillotine, and without the guillotine rule."""


@dataclass(frozen=True, slots=True)
class Result:
    name: str
    group: int
    sheets: tuple[int, ...]  # at each mark
    bound: int
    by: str
    optimal: bool
    three_stage: int
    free: int
    seconds: float


def load(path: Path = INSTANCES) -> list[dict[str, Any]]:
    records: list[dict[str, Any]] = json.loads(path.read_text())
    return records


def instance_of(record: dict[str, Any], turn: bool) -> Instance:
    length, width = record["bin"]
    rows: list[list[int]] = record["items"]
    items = tuple(SmallItem(row[0], row[1], row[2] if len(row) > 2 else 1, turn) for row in rows)
    return Instance(items, (LargeObject(length, width),))


def solve_one(record: dict[str, Any], turn: bool, seconds: float) -> Result:
    instance = instance_of(record, turn)
    start = time.process_time()
    plans: list[tuple[float, int]] = []

    def note(solution: Solution) -> None:
        plans.append((time.process_time() - start, solution.cost))

    solution = solve(instance, MaxSeconds(seconds, time.process_time), seed=1, report=note)
    took = time.process_time() - start
    at = tuple(min((cost for when, cost in plans if when <= mark), default=plans[0][1]) for mark in MARKS)
    best: dict[str, int] = record["best"]
    staged, free = BEST[turn]
    return Result(
        str(record["name"]),
        int(str(record["class"])),
        at,
        solution.bound.cost,
        solution.bound.by,
        solution.optimal,
        best[staged],
        best[free],
        took,
    )


def table(results: list[Result], seconds: float) -> str:
    head = ["class", "instances", *(f"{mark:g} s" for mark in MARKS), "bound", "proved"]
    head += ["best 3-stage", "best non-guillotine", "mean s"]
    lines = ["| " + " | ".join(head) + " |", "|" + "---|" * len(head)]
    groups: list[tuple[str, list[Result]]] = [
        (str(group), [r for r in results if r.group == group]) for group in sorted({r.group for r in results})
    ]
    for label, rows in [*groups, ("all", results)]:
        sums = [sum(r.sheets[mark] for r in rows) for mark in range(len(MARKS))]
        cells = [label, len(rows), *sums, sum(r.bound for r in rows), sum(r.optimal for r in rows)]
        cells += [sum(r.three_stage for r in rows), sum(r.free for r in rows)]
        cells.append(f"{sum(r.seconds for r in rows) / len(rows):.2f}")
        lines.append("| " + " | ".join(str(cell) for cell in cells) + " |")
    above = [r for r in results if r.sheets[-1] > min(r.three_stage, r.free)]
    lines += ["", f"Limit {seconds:g} s of processor time an instance, one core, seed 1.", ""]
    lines += ["Above the best known value of either kind:", ""]
    lines += [
        f"- {r.name}: {r.sheets[-1]} sheets, bound {r.bound} ({r.by}); three-stage {r.three_stage},"
        f" non-guillotine {r.free}"
        + ("; proved optimal, so the guillotine rule costs a sheet" if r.optimal else "")
        for r in above
    ] or ["- none"]
    below = [r for r in results if r.sheets[-1] < r.three_stage]
    lines += ["", f"Below the best known three-stage value: {named(below)}."]
    unproved = [r for r in results if not r.optimal]
    return "\n".join([*lines, "", f"Not proved: {named(unproved)}."])


def named(results: list[Result]) -> str:
    return ", ".join(f"{r.name} ({r.sheets[-1]})" for r in results) or "none"


def run(quick: bool = False) -> str:
    """The tables without and with turning, as Markdown."""
    if not INSTANCES.exists():
        return f"The instance file {INSTANCES.name} is not at hand."
    records = load()[::QUICK] if quick else load()
    seconds = 1.0 if quick else SECONDS
    text = []
    for turn, title in ((False, "Without turning"), (True, "With quarter turns")):
        results = [solve_one(record, turn, seconds) for record in records]
        text.append(f"## {title}\n\n{table(results, seconds)}")
    return "\n\n".join(text)
