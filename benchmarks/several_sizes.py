"""Several sheet sizes with limited stock: Hopper's M instances. How much of the sheets' area is used."""

from __future__ import annotations

import json
import time
from pathlib import Path

from casewright.planner.engine import Instance, LargeObject, MaxSeconds, SmallItem
from casewright.planner.engine import solve_instance as solve

TITLE = "Several sheet sizes, limited stock"
SECONDS = 10.0
FOLDER = Path(__file__).parents[2] / "shared" / "benchmarks" / "several-sheet-sizes"
TO_MEET = {"M1": 98.4, "M2": 97.2, "M3": 98.0}
"""Gardeyn and Wauters (2022), table 3: mean use in per cent over the five instances."""


def instance_of(path: Path) -> Instance:
    """Prices are areas, so the cheapest plan uses least area. Items may turn, as in the source."""
    record = json.loads(path.read_text())
    items = tuple(SmallItem(row["Length"], row["Height"], row["Demand"], True) for row in record["Items"])
    bins = tuple(
        LargeObject(row["Length"], row["Height"], row["Stock"], row["Length"] * row["Height"])
        for row in record["Objects"]
    )
    return Instance(items, bins)


def run(quick: bool = False) -> str:
    """The table as Markdown."""
    if not FOLDER.exists():
        return f"The folder {FOLDER.name} is not at hand."
    seconds = 1.0 if quick else SECONDS
    lines = ["| instance | use % | area | bound | proved | s |", "|---|---|---|---|---|---|"]
    uses: dict[str, list[float]] = {}
    for path in sorted(FOLDER.glob("*.json")):
        instance = instance_of(path)
        start = time.process_time()
        solution = solve(instance, MaxSeconds(seconds, time.process_time), seed=1)
        took = time.process_time() - start
        area = sum(item.area * item.count for item in instance.items)
        use = 100 * area / solution.cost if solution.complete else 0.0
        uses.setdefault(path.stem[:2], []).append(use)
        proved = "yes" if solution.optimal else ""
        lines.append(
            f"| {path.stem} | {use:.1f} | {solution.cost} | {solution.bound.cost} | {proved} | {took:.1f} |"
        )
    lines += ["", "| set | mean use % | to meet |", "|---|---|---|"]
    for name, values in uses.items():
        lines.append(f"| {name} | {sum(values) / len(values):.2f} | {TO_MEET.get(name, '')} |")
    return "\n".join([*lines, "", f"Limit {seconds:g} s of processor time an instance, one core, seed 1."])
