"""The parameters handed in reach every part of the planner, and each steers something."""

from __future__ import annotations

from dataclasses import fields, replace
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import pytest

import casewright.planner as package
from casewright.planner.engine import Instance, LargeObject, MaxIterations, SmallItem, solve_instance
from casewright.planner.parameters import DEFAULT_PARAMETERS, PricingEffort, SearchParameters
from casewright.planner.problem import Goal, Item
from casewright.planner.solve import solve

from .shop import small_job

FORTY = tuple(SmallItem(13 + 7 * n % 29, 11 + 5 * n % 31, 1) for n in range(40))


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> dict[str, list[SearchParameters]]:
    """Of each parameter, the sets it was read from, in order."""
    names = {field.name for field in fields(SearchParameters)}
    found: dict[str, list[SearchParameters]] = {}

    def spy(parameters: SearchParameters, name: str) -> Any:
        if name in names:
            found.setdefault(name, []).append(parameters)
        return object.__getattribute__(parameters, name)

    monkeypatch.setattr(SearchParameters, "__getattribute__", spy)
    return found


def test_no_part_of_the_planner_falls_back_to_the_usual_parameters(
    read: dict[str, list[SearchParameters]],
) -> None:
    mine = replace(DEFAULT_PARAMETERS, stuck_after=2, pool_gathering=2, give_up_after=5)
    read.clear()
    goals = (Goal.SHEET_MONEY, Goal.FENCE_SETTINGS)
    items = (Item("side", F(30), F(23), 6), Item("shelf", F(28), F(11), 9), Item("rail", F(28), F(3), 5))
    solve(small_job(items=items, goals=goals), MaxIterations(3000), parameters=mine)
    # The area is just within one bin less: pool, dives and covers all have their turns.
    solve_instance(Instance(FORTY, (LargeObject(61, 61),)), MaxIterations(200_000), 1, parameters=mine)
    assert {"pool_columns", "dive_sure", "table_work", "try_iterations", "reshape_depth"} <= set(read)
    fallen = sorted(name for name, sets in read.items() if any(one is not mine for one in sets))
    assert not fallen


def test_shorter_stretches_look_at_the_stop_more_often() -> None:
    instance = Instance(FORTY, (LargeObject(61, 61),))  # no plan is proved so soon
    usual = solve_instance(instance, MaxIterations(40), 1)
    short = replace(DEFAULT_PARAMETERS, stretch_work=1)
    assert 40 <= solve_instance(instance, MaxIterations(40), 1, parameters=short).iterations < 100
    assert usual.iterations > 1000


def test_every_parameter_is_read_somewhere() -> None:
    folder = Path(package.__file__).parent
    code = "\n".join(path.read_text() for path in folder.rglob("*.py") if path.name != "parameters.py")
    own = (folder / "parameters.py").read_text()
    for field in fields(SearchParameters):
        assert f".{field.name}" in code or f"self.{field.name}" in own, field.name


def test_an_effort_within_a_time_is_never_more_than_the_whole() -> None:
    effort = PricingEffort(built=10, joins=10**9, level=10, counting=10**12)
    assert DEFAULT_PARAMETERS.within(effort, None) == effort
    short = DEFAULT_PARAMETERS.within(effort, 0.5)
    assert short.joins == 4_000_000 and short.counting == 500_000_000
    assert DEFAULT_PARAMETERS.within(replace(effort, joins=7, counting=8), 0.5) == replace(
        effort, joins=7, counting=8
    )
    assert effort.shared(4).joins == 250_000_000
