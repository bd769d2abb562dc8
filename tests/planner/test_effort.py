"""Search bounded by counted work: the same plan on an idle machine and a busy one, and an honest note where
the machine was too busy to finish."""

from __future__ import annotations

import os
import random
import subprocess
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.planner.effort import CEILING_FACTOR, CEILING_SECONDS, AboutSeconds, Clock, UntilAsked
from casewright.planner.engine import (
    FirstOf,
    Instance,
    LargeObject,
    MaxIterations,
    Progress,
    SmallItem,
    solve_instance,
)
from casewright.planner.engine.work_count import PICOSECONDS, WorkCount
from casewright.planner.first_phase.fewest_sheets import StopEarly
from casewright.planner.layout import score
from casewright.planner.layout.engine_bridge import engine_model, whole_sheet_rooms
from casewright.planner.layout.integer_grid import grid_of
from casewright.planner.parameters import WORK_RATES, WorkKind
from casewright.planner.plan import Plan
from casewright.planner.problem import Goal, Item, Limits, PatternKind, Problem
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from .shop import HAND_SAW, SHEET, small_job

SECONDS = 0.25
GOALS = (Goal.SHEET_MONEY, Goal.FENCE_SETTINGS, Goal.LEFTOVER_WORTH, Goal.CUTS, Goal.TURNS)

SQUARE = replace(SHEET, name="square", length=F(60), width=F(60), price=F(47))
RACK = replace(SHEET, name="rack", length=F(40), width=F("25.5"), count=2, price=F(6), offcut=True)

Counted = tuple[Plan, dict[WorkKind, int]]


def clock(step: float, jitter: float = 0.0) -> Clock:
    """A clock that is `step` seconds later at each look, more or less."""
    draw = random.Random(1)

    def times() -> Iterator[float]:
        now = 100.0
        while True:
            yield now
            now += step * (1 + jitter * draw.random())

    at = times()
    return lambda: next(at)


CLOCKS: dict[str, Callable[[], Clock | None]] = {
    "none": lambda: None,
    "slow": lambda: clock(1e-5),
    "fast": lambda: clock(1e-4),
    "jittery": lambda: clock(1e-6, jitter=50.0),
    "still": lambda: clock(0.0),
}


def jobs() -> dict[str, Problem]:
    plain = small_job(goals=GOALS)
    items = (*plain.items, Item("long rail", F(60), F(3), 6, may_turn=True), Item("door", F(22), F(14), 5))
    many = tuple(replace(item, count=5 * item.count) for item in items)
    return {
        "at the table saw": replace(plain, items=items),
        "carried": replace(plain, items=items, hand_saw=HAND_SAW, limits=Limits(F(50), F(64))),
        "from several kinds of sheet": replace(plain, items=many, bins=(SHEET, SQUARE, RACK)),
    }


def planned(problem: Problem, ceiling: Clock | None = None, cores: int = 1) -> Counted:
    effort = AboutSeconds(SECONDS, ceiling)
    plan = solve(problem, effort, seed=5, cores=cores)
    return plan, dict(effort.work.amounts)


@pytest.mark.parametrize("name", list(jobs()))
def test_the_same_plan_and_the_same_work_whatever_the_clock_says(name: str) -> None:
    problem = jobs()[name]
    plans = [planned(problem, make()) for make in CLOCKS.values()]
    assert verify(problem, plans[0][0]) == ()
    assert all(made == plans[0] for made in plans[1:])
    assert not [finding for finding in plans[0][0].findings if finding.code == "time-ceiling"]


@pytest.mark.parametrize("cores", [1, 2])
def test_the_same_plan_in_threads_beside_each_other(cores: int) -> None:
    problem = jobs()["carried"]
    with ThreadPoolExecutor(3) as threads:
        made = list(threads.map(lambda _: planned(problem, clock(1e-5, 9.0), cores), range(3)))
    alone = planned(problem, None, cores)
    assert made == [alone] * 3


def test_who_looks_on_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Even where so few scores are remembered that the sheets of a plan reported are scored anew."""
    monkeypatch.setattr(score, "MOST_KNOWN", 1)
    problem = jobs()["carried"]
    alone = planned(problem)
    effort, seen = AboutSeconds(SECONDS), list[Plan]()
    assert (solve(problem, effort, seed=5, progress=seen.append), dict(effort.work.amounts)) == alone
    assert len(seen) > 1


PRINT = """
from tests_of_planner import jobs, planned
plan, amounts = planned(jobs()["carried"])
print(repr(plan), sorted((kind.name, amount) for kind, amount in amounts.items()))
"""


def test_the_same_plan_in_another_process_with_another_order_of_sets() -> None:
    told = [
        subprocess.run(
            [sys.executable, "-c", PRINT.replace("tests_of_planner", __name__)],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert told[0] == told[1] and "SheetPlan" in told[0]


def test_proofs_and_covers_repeat_too() -> None:
    """Forty items whose area is just within one bin less: pool, dives and covers all have their turns."""
    items = tuple(SmallItem(13 + 7 * n % 29, 11 + 5 * n % 31, 1) for n in range(40))
    instance = Instance(items, (LargeObject(61, 61),))
    made = []
    for make in (CLOCKS["none"], CLOCKS["jittery"]):
        effort = AboutSeconds(2.0, make())
        made.append((solve_instance(instance, effort, seed=1), effort.work.amounts))
    assert made[0] == made[1]
    kinds = {WorkKind.SEARCH, WorkKind.TABLE, WorkKind.JOIN, WorkKind.COLUMN, WorkKind.SIMPLEX}
    assert kinds <= set(made[0][1])


def test_the_work_asked_for_is_done_and_little_more() -> None:
    effort = AboutSeconds(SECONDS)
    solve(jobs()["at the table saw"], effort)
    assert SECONDS <= effort.work.picoseconds / PICOSECONDS < 1.5 * SECONDS


def test_both_phases_report_their_work() -> None:
    amounts = [planned(problem)[1] for problem in jobs().values()]
    assert all(amount > 0 for of_job in amounts for amount in of_job.values())
    second = {WorkKind.DRAFT, WorkKind.NEIGHBOUR, WorkKind.TAKEN, WorkKind.ROUND}
    assert second | {WorkKind.INSTANCE, WorkKind.SEARCH, WorkKind.TABLE, WorkKind.SIMPLEX} <= set().union(
        *amounts
    )


def test_a_try_of_the_second_phase_reports_what_its_search_did() -> None:
    grid = grid_of(small_job())
    model = engine_model(grid, [4, 2, 4, 4], whole_sheet_rooms(grid), PatternKind())
    work: list[WorkCount] = []
    for iterations in (50, 100):
        work.append(WorkCount())
        model.attempt(F(60), iterations, 1, lambda: False, work[-1].add)  # one sheet: it never succeeds
    one, two = (count.amounts[WorkKind.SEARCH] for count in work)
    assert 0 < 1.5 * one < two < 2.5 * one


def test_every_kind_of_work_has_a_rate_and_is_counted() -> None:
    assert set(WORK_RATES) == set(WorkKind) and all(
        isinstance(rate, int) and rate > 0 for rate in WORK_RATES.values()
    )
    count = WorkCount({WorkKind.SEARCH: 3, WorkKind.JOIN: 5})
    for kind, amount in ((WorkKind.SEARCH, 7), (WorkKind.JOIN, 11), (WorkKind.SEARCH, 2)):
        count.add(kind, amount)
    assert count.picoseconds == 3 * 9 + 5 * 11 and count.amounts[WorkKind.SEARCH] == 9


def test_a_plan_that_hits_the_ceiling_says_so() -> None:
    problem = jobs()["at the table saw"]
    plan, _ = planned(problem, clock(0.5))
    (said,) = [finding for finding in plan.findings if finding.code == "time-ceiling"]
    assert "too busy to finish" in said.text and "planning again may give another" in said.fix
    assert verify(problem, plan) == () and not plan.unplaced, "the best plan until then is a plan"


def test_the_ceiling_is_several_times_the_seconds_asked_for() -> None:
    times = iter([10.0, 10.0 + CEILING_FACTOR * 3 + CEILING_SECONDS - 0.1, 33.0, 0.0])
    effort = AboutSeconds(3.0, lambda: next(times))
    assert not effort(_progress()) and not effort.late and effort.seconds_left() == 3.0
    assert effort(_progress()) and effort.late and effort.seconds_left() == 0.0
    assert effort(_progress()), "a clock that is set back does not take the note back"
    assert FirstOf((MaxIterations(0), effort)).late and StopEarly(effort, 1.0).late


def test_work_that_is_done_is_not_late() -> None:
    effort = AboutSeconds(1.0, clock(100.0))
    effort.count(WorkKind.SEARCH, PICOSECONDS // WORK_RATES[WorkKind.SEARCH] + 1)
    assert effort(_progress()) and not effort.late


def test_several_problems_share_the_seconds() -> None:
    effort = AboutSeconds(10.0)
    first = effort.share(F(1, 4))
    assert first.seconds_left() == 2.5
    second_of_work = PICOSECONDS // WORK_RATES[WorkKind.SEARCH]
    first.count(WorkKind.SEARCH, second_of_work)
    assert first.seconds_left() == pytest.approx(1.5, abs=1e-6)
    rest = effort.share(F(1))
    assert rest.seconds_left() == pytest.approx(9.0, abs=1e-6), "what the first did not use is not lost"
    rest.count(WorkKind.SEARCH, 9 * second_of_work + 9)
    assert rest(_progress()) and effort.share(F(1))(_progress())


def _progress() -> Progress:
    return Progress(0, None, 0)


def test_a_search_ends_soon_after_somebody_asks_and_has_a_plan_that_can_be_cut() -> None:
    def after(looks: int) -> Callable[[], bool]:
        seen = iter(range(looks))
        return lambda: next(seen, None) is None

    problem = jobs()["carried"]
    whole = AboutSeconds(4.0)
    solve(problem, whole, seed=5)
    for looks in (0, 3, 40):
        effort = AboutSeconds(4.0)
        plan = solve(problem, UntilAsked(effort, after(looks)), seed=5)
        assert verify(problem, plan) == () and not plan.unplaced
        assert effort.work.picoseconds < whole.work.picoseconds / 3
