"""One plan on every page: begun once, asked about when the job changes, carried on as the maker says."""

from __future__ import annotations

import re

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.store.plan_rows import add_plan, newest_plan
from job_texts import ALCOVE
from loft_job import LOFT
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
    assert after != before and "cut otherwise, so print again" in text
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


def tick_sheet(client: Client, material: str) -> None:
    """Tick every cut of the material's first sheet at a bench."""
    batches = client.get("/jobs/larder/shop/work").json()["batches"]
    steps = [step["key"] for batch in batches for step in batch["steps"]]
    cuts = [key for key in steps if key.startswith(f"{material} 1 cut ")]
    event = {"id": "tick", "bench": "saw", "seq": 1, "kind": "done", "at": "", "steps": cuts}
    answer = client.post("/jobs/larder/shop/events", json={"events": [event]})
    assert cuts and answer.json()["refused"] == []


def test_a_begun_sheet_is_kept_and_said(client: Client, saved: KeptJobs) -> None:
    client.get(f"{SHEETS}/progress")
    client.post("/jobs/larder/shop/hand-out")
    tick_sheet(client, "thin")
    client.post(SHEETS, data={"choice": "again"})
    client.get(f"{SHEETS}/progress")
    assert "kept as they are, because they are begun: sheet 1." in client.get(SHEETS).text


def test_a_cut_part_of_another_size_is_said_on_the_page_until_it_is_put_right(
    client: Client, saved: KeptJobs
) -> None:
    client.get(f"{SHEETS}/progress")
    client.post("/jobs/larder/shop/hand-out")
    tick_sheet(client, "thin")
    change(saved, narrower())
    for choice in ("again", "keep"):
        client.post(SHEETS, data={"choice": choice})
        text = client.get(SHEETS).text
        assert "t is cut already" in text and "Put right page" in text and "Plan again" in text
    change(saved, JOB)
    assert "cut already" not in client.get(SHEETS).text


UNREADABLE = (
    "not JSON",
    "",
    "[" * 100_000,
    '{"layout": 99}',
    '{"layout": 1, "plan": "a", "plan": "b"}',
    '{"seconds": 1e999}',
)


@pytest.mark.parametrize("payload", UNREADABLE, ids=lambda payload: payload[:20])
def test_a_kept_plan_that_cannot_be_read_is_said_and_another_is_made_beside_it(
    client: Client, saved: KeptJobs, payload: str
) -> None:
    add_plan(saved.file, "larder", "abcdef", payload, saved.clock())
    for page in ("sheets", "papers"):
        text = client.get(f"/jobs/larder/{page}").text
        assert "plan 1 in the shop’s file" in text or "plan 1 in the shop&#39;s file" in text
    assert "Plan again on the Sheets page" in client.get(SHEETS).text
    client.post(SHEETS, data={"choice": "again"})
    client.get(f"{SHEETS}/progress")
    assert plan_on(client, "sheets") and "<svg" in client.get(SHEETS).text
    assert newest_plan(saved.file, "larder").number == 2  # type: ignore[union-attr]


def test_a_rack_piece_of_another_job_too_is_said_where_sheets_and_findings_are_shown(
    client: Client, saved: KeptJobs
) -> None:
    rack = '[[shop.rack]]\nname = "arm"\nmaterial = "ply"\nlength = 90\nwidth = "47 1/2"\n\n[[runs]]'
    change(saved, JOB.replace("[[runs]]", rack, 1))
    saved.start(saved.take("larder").revision.text.replace('"Larder"', '"Attic"'))
    for job in ("attic", "larder"):
        client.get(f"/jobs/{job}/sheets/progress")
    for path in ("/jobs/larder/sheets", "/jobs/larder/findings", "/api/jobs/larder/findings"):
        assert "of the job “Attic” count on more of it" in client.get(path).text, path


def test_what_would_save_a_sheet_is_found_and_made_with_one_tap(client: Client, saved: KeptJobs) -> None:
    """Cases so deep that only one side comes out of a sheet's width: a little less takes two."""
    deep = '[base]\ndepth = "24 1/4"\n\n[shop.carry]\nweight = 200\nlength = 120\n\n[[runs]]'
    change(saved, ALCOVE.replace("[[runs]]", deep, 1))
    client.get(f"{SHEETS}/progress")
    assert "What would save a sheet?" in client.get(SHEETS).text
    client.get("/jobs/larder/savings/progress")
    text = client.get("/jobs/larder/savings").text
    assert "deep in place of 24 1/4" in text and "fewer" in text
    before = saved.take("larder")
    answer = client.post("/jobs/larder/savings/1", data={"based_on": str(before.newest)})
    assert answer.status_code == 303 and answer.headers["location"] == SHEETS
    client.get(f"{SHEETS}/progress")
    after = saved.take("larder")
    assert after.newest == before.newest + 1 and "in place of" in after.revision.note
    assert "Buy 2 sheets" in client.get(SHEETS).text  # as was promised
    assert "has changed" not in client.get(SHEETS).text
    assert client.post("/jobs/larder/savings/99", data={"based_on": "1"}).status_code == 404


def test_the_search_for_savings_can_be_stopped(client: Client) -> None:
    client.get(f"{SHEETS}/progress")
    assert client.post("/jobs/larder/savings/stop").status_code == 303
    client.get("/jobs/larder/savings/progress")
    assert "Trying smaller" not in client.get("/jobs/larder/savings").text


def test_boards_stand_on_the_sheets_page_and_in_the_papers(client: Client, saved: KeptJobs) -> None:
    change(saved, LOFT.replace('job = "Loft"', 'job = "Larder"'))
    client.post(SHEETS, data={"choice": "again"})
    client.get(f"{SHEETS}/progress")
    text = client.get(SHEETS).text
    assert "hard maple" in text and "at hand" in text and "Board 1 (“A”)" in text
    assert "B1-RA1" in text  # its mark on the drawing
    assert "Rough boards" in client.get("/jobs/larder/papers").text
    assert '"board_feet_to_buy"' in client.get("/jobs/larder/papers/plan.json").text


def test_the_steps_of_boards_are_handed_out_to_the_benches(client: Client, saved: KeptJobs) -> None:
    change(saved, LOFT.replace('job = "Loft"', 'job = "Larder"'))
    client.post(SHEETS, data={"choice": "again"})
    client.get(f"{SHEETS}/progress")
    assert client.post("/jobs/larder/shop/hand-out").status_code == 303
    work = client.get("/jobs/larder/shop/work").text
    for words in ("Crosscut boards to rough length", "Joint a face and an edge", "Plane to thickness"):
        assert words in work
    for key in (
        "maple board 1 crosscut",
        "maple planing",
        "maple board 1 strip 1",
        "maple board 1 strip 1 rip",
    ):
        answer = client.get("/jobs/larder/shop/picture", params={"step": key})
        assert answer.status_code == (200 if "strip" in key else 204), key
    step = "maple board 1 crosscut"
    event = {"id": "one", "bench": "saw", "seq": 1, "kind": "done", "steps": [step]}
    answer = client.post("/jobs/larder/shop/events", json={"events": [event], "after": -1, "work": ""})
    assert answer.status_code == 200 and client.get("/jobs/larder/shop/state").json()["seq"] == 1
    assert client.get("/jobs/larder/shop/findings").json() == []


def test_the_page_says_what_each_and_all_to_buy_cost_as_the_paper_does(
    client: Client, saved: KeptJobs
) -> None:
    """Sheets at $82; boards by the foot at $9.50; without the boards' price the total says what it is of."""
    change(saved, LOFT)
    client.get(SHEETS)
    client.get(f"{SHEETS}/progress")
    work = saved.take("larder").worked
    planned = work.planned(0.2)
    text = client.get(SHEETS).text
    (sheets,), (wood,) = planned.purchases, planned.board_purchases
    assert f"{sheets.sheets} sheets at $82.00, ${82 * sheets.sheets}.00" in text
    total = 82 * sheets.sheets + float(wood.money)
    assert f"Sheets and boards to buy. Total: ${total:,.2f}".removesuffix(".00") in text
    change(saved, LOFT.replace("price = 9.5\n", ""))
    client.get(SHEETS)
    client.get(f"{SHEETS}/progress")
    assert f"Total of what has a price: ${82 * sheets.sheets}." in client.get(SHEETS).text
