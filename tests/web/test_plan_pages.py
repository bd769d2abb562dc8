"""One plan on every page: begun once, asked about when the job changes, carried on as the maker says."""

from __future__ import annotations

import re

from casewright.app.jobs.kept_jobs import KeptJobs
from web_bench import JOB, Client

SHEETS = "/jobs/larder/sheets"


def plan_on(client: Client, page: str) -> str:
    found = re.search(r"[Pp]lan (\w{6})\b", client.get(f"/jobs/larder/{page}").text)
    return found[1] if found else ""


def change(saved: KeptJobs, text: str) -> None:
    saved.rewrite("larder", text, "a change", saved.take("larder").newest)


def narrower() -> str:
    width = re.search(r'opening = "?([\d /]+)"?', JOB)
    assert width
    return JOB.replace(width[0], 'opening = "59 7/8"')


def test_every_page_names_the_one_plan(client: Client) -> None:
    client.get(f"{SHEETS}/progress")
    names = {plan_on(client, page) for page in ("sheets", "fit", "papers")}
    assert len(names) == 1 and "" not in names
    assert f'"plan": "{names.pop()}"' in client.get("/jobs/larder/papers/plan.json").text


def test_a_changed_job_asks_on_each_page_and_keeping_leaves_parts_where_they_are(
    client: Client, saved: KeptJobs
) -> None:
    client.get(f"{SHEETS}/progress")
    before = plan_on(client, "sheets")
    change(saved, narrower())
    for page in ("sheets", "fit", "papers"):
        text = client.get(f"/jobs/larder/{page}").text
        assert f"The job has changed since plan {before} was made" in text
        assert f'value="{page}"' in text
    answer = client.post(SHEETS, data={"choice": "keep", "page_from": "fit"})
    assert answer.status_code == 303 and answer.headers["location"] == "/jobs/larder/fit"
    client.get(f"{SHEETS}/progress")
    text = client.get(SHEETS).text
    after = plan_on(client, "sheets")
    assert after != before and "No part moved." in text
    assert plan_on(client, "fit") == plan_on(client, "papers") == after


def test_planning_again_is_a_choice_too_and_an_unknown_choice_is_none(
    client: Client, saved: KeptJobs
) -> None:
    client.get(f"{SHEETS}/progress")
    change(saved, narrower())
    assert client.post(SHEETS, data={"choice": "guess"}).status_code == 422
    assert (
        client.post(SHEETS, data={"choice": "again", "page_from": "//elsewhere"}).headers["location"]
        == SHEETS
    )
    client.get(f"{SHEETS}/progress")
    assert "The job has changed" not in client.get(SHEETS).text


def test_going_back_to_the_text_of_before_finds_its_plan_standing(client: Client, saved: KeptJobs) -> None:
    client.get(f"{SHEETS}/progress")
    before = plan_on(client, "sheets")
    change(saved, narrower())
    assert "has changed" in client.get(SHEETS).text
    change(saved, JOB)
    assert plan_on(client, "sheets") == before and "has changed" not in client.get(SHEETS).text


def test_work_is_not_handed_out_by_a_plan_that_no_longer_stands(client: Client, saved: KeptJobs) -> None:
    client.get(f"{SHEETS}/progress")
    change(saved, narrower())
    answer = client.post("/jobs/larder/shop/hand-out")
    assert answer.status_code == 303 and answer.headers["location"] == SHEETS
    assert client.get("/jobs/larder/shop/work").json()["batches"] == []
