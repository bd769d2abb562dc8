"""A plan being made is stopped from the page that waits for it: what there is so far is kept, and said."""

from __future__ import annotations

import re
from typing import Any

import pytest
from fastapi import FastAPI

from casewright.app.background.planning import Planner, Planning
from casewright.app.background.waiting import AT_ONCE, InTurn, Waiting
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.sheets import plan_search
from casewright.planner.engine import Progress, Stop
from casewright.planner.plan import Plan
from casewright.store.plan_rows import newest_plan
from casewright.web.web_app import make_app
from web_bench import Client

SHEETS = "/jobs/larder/sheets"
SOON = 60.0
"""Seconds until a test gives up; work that is stopped is over in one."""


@pytest.fixture
def endless(monkeypatch: pytest.MonkeyPatch) -> None:
    """Searches go on, once they have their plan, until their rule ends them."""
    for name in ("solve", "plan_again"):
        real = getattr(plan_search, name)

        def search(*given: Any, real: Any = real, **named: Any) -> Plan:
            plan: Plan = real(*given, **named)
            stop: Stop = next(one for one in given if hasattr(one, "seconds_left"))
            waiting = Waiting()
            while not stop(Progress(0, None, 0)):
                waiting.follow(1, 0.01)
            return plan

        monkeypatch.setattr(plan_search, name, search)


@pytest.fixture
def app(saved: KeptJobs) -> FastAPI:
    return make_app(saved, planning_seconds=10_000.0)


def planning_now(app: FastAPI, saved: KeptJobs) -> Planning:
    planner = app.state.planner
    assert isinstance(planner, Planner)
    return planner.plan_for(saved, saved.take("larder"))


def ended(planning: Planning) -> bool:
    """Whether it ends soon, waited for."""
    return planning.follow(10**6, SOON)[1]


def words(text: str) -> str:
    return " ".join(re.sub("<[^>]*>", " ", text).split())


@pytest.mark.usefixtures("endless")
@pytest.mark.parametrize("page", ["sheets", "fit", "papers"])
def test_the_page_that_waits_stops_it_and_the_best_so_far_is_kept(
    app: FastAPI, client: Client, saved: KeptJobs, page: str
) -> None:
    waiting = client.get(f"/jobs/larder/{page}").text
    assert f'action="{SHEETS}/stop"' in waiting and f'name="page_from" value="{page}"' in waiting
    planning = planning_now(app, saved)
    assert client.get("/").status_code == 200 and not planning.finished
    answer = client.post(f"{SHEETS}/stop", data={"page_from": page})
    assert answer.status_code == 303 and answer.headers["location"] == f"/jobs/larder/{page}"
    assert ended(planning)
    shown = words(client.get(SHEETS).text)
    assert "The search was stopped early, and the best so far is taken. Made plan" in shown
    assert "search was stopped before it was done; this is the best plan it had found." in shown
    row = newest_plan(saved.file, "larder")
    assert row is not None and row.name == planning.name


def test_one_that_comes_to_its_end_says_nothing_of_the_kind(saved: KeptJobs) -> None:
    app = make_app(saved, planning_seconds=0.1)
    client = Client(app)
    client.get(f"{SHEETS}/progress")
    client.post(f"{SHEETS}/stop")  # too late, which is no fault
    assert "stopped" not in words(client.get(SHEETS).text)


@pytest.mark.usefixtures("endless")
def test_a_plan_of_record_stays_as_it_was_when_nothing_better_was_found(
    app: FastAPI, client: Client, saved: KeptJobs
) -> None:
    client.get(SHEETS)
    client.post(f"{SHEETS}/stop")
    assert ended(planning_now(app, saved))
    before = newest_plan(saved.file, "larder")
    client.post(SHEETS, data={"choice": "again"})
    planning = planning_now(app, saved)
    client.post(f"{SHEETS}/stop")
    assert ended(planning) and before is not None
    assert newest_plan(saved.file, "larder") == before
    said = f"Plan {before.name} stays as it was: the search was stopped before it found a better one."
    assert said in words(client.get(SHEETS).text)


def test_a_plan_searched_to_the_end_since_no_longer_says_that_it_was_stopped(saved: KeptJobs) -> None:
    app = make_app(saved, planning_seconds=0.0)
    client = Client(app)
    planner = app.state.planner
    work = saved.take("larder")
    planning = planner.plan_for(saved, work)
    planning.stop()
    assert ended(planning)
    name = planning.name
    client.post(SHEETS, data={"choice": "again"})
    assert ended(planning_now(app, saved))
    shown = words(client.get(SHEETS).text)
    assert f"Plan {name} stays: nothing better was found." in shown
    assert "stopped" not in shown


def test_one_that_waits_for_its_turn_is_stopped_at_once() -> None:
    in_turn, busy = InTurn("test"), [Waiting() for _ in range(AT_ONCE)]

    def until_stopped(waiting: Waiting) -> None:
        while not waiting.is_stopped():
            waiting.follow(10**6, 0.01)
        waiting._end()

    for waiting in busy:
        in_turn.begin(waiting, until_stopped, waiting)
    last = Waiting()
    in_turn.begin(last, until_stopped, last)
    while "Waiting until other jobs are done" not in last.said:
        last.follow(10**6, 0.01)
    last.stop()
    assert last.follow(10**6, SOON)[1] and not any(waiting.finished for waiting in busy)
    for waiting in busy:
        waiting.stop()
        assert waiting.follow(10**6, SOON)[1]
