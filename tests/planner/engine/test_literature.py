"""Classic instances against their best known values, by count of work.

Classes 1-6: J. O. Berkey, P. Y. Wang: Two-dimensional finite bin-packing algorithms. Journal of the
Operational Research Society 38 (1987). Classes 7-10: S. Martello, D. Vigo: Exact solution of the
two-dimensional finite bin packing problem. Management Science 44 (1998). Best known values: guillotine
cuts in three stages, first cuts along the length, without (3nho) and with quarter turns (3nhr), as
collected by a public research solver's data folder in 2026. All of these are proved here.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from casewright.planner.engine import Instance, LargeObject, MaxIterations, SmallItem
from casewright.planner.engine import solve_instance as solve

from .checker import check

RECORDS = json.loads(Path(__file__).with_name("literature.json").read_text())


@pytest.mark.parametrize("turn", [False, True], ids=["fixed", "turning"])
@pytest.mark.parametrize("record", RECORDS, ids=lambda record: str(record["name"]))
def test_the_best_known_is_found_and_proved(record: dict[str, Any], turn: bool) -> None:
    items = tuple(SmallItem(length, width, 1, turn) for length, width in record["items"])
    instance = Instance(items, (LargeObject(*record["bin"]),))
    solution = solve(instance, MaxIterations(400_000), seed=2)
    check(instance, solution)
    best = record["best"]["3nhr" if turn else "3nho"]
    assert solution.bound.cost <= best
    assert solution.cost == best
    assert solution.optimal
