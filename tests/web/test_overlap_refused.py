"""A job whose parts overlap is neither planned nor handed out on the page, in the words of the command."""

from __future__ import annotations

import html

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.app.sheets.kept_plans import StoreShelf
from casewright.app.sheets.plan_keeping import Choice, SearchEffort, plan_on_record
from casewright.app.shop.shop_floor import read_record
from web_bench import Client

OVERLAP = """\
job = "Overlap"
unit = "in"
construction = { back = "applied", strips = 1 }
[materials.ply]
sheet = "hardwood ply 3/4"
[made_of]
case = "ply"
back = "ply"
[[runs]]
name = "north"
opening = 36
[[runs.cases]]
mark = "B1"
kind = "base"
width = 36
height = 40
depth = 12
bays = [{ fixed = [31] }]
"""
SAID = "B1-F11 and B1-M1 overlap by"


def test_it_is_neither_planned_nor_handed_out(client: Client, saved: KeptJobs) -> None:
    worked = open_job(OVERLAP)
    assert SAID in " ".join(one.text for one in worked.all_findings)  # what `check` says
    assert not [one for one in worked.findings if SAID in one.text]  # and only the solids know
    job = saved.start(OVERLAP).id
    client.get(f"/jobs/{job}/sheets")
    client.get(f"/jobs/{job}/sheets/progress")
    assert SAID in html.unescape(client.get(f"/jobs/{job}/sheets").text)
    refused = client.post(f"/jobs/{job}/shop/hand-out")
    assert refused.status_code == 422 and SAID in html.unescape(refused.text)
    assert read_record(saved.file, job).floor is None


def test_a_plan_that_was_kept_before_is_not_handed_out_either(client: Client, saved: KeptJobs) -> None:
    job = saved.start(OVERLAP).id
    plan_on_record(open_job(OVERLAP), StoreShelf(saved, job), Choice.ASK, SearchEffort(0.2))
    refused = client.post(f"/jobs/{job}/shop/hand-out")
    assert refused.status_code == 422 and SAID in html.unescape(refused.text)
    assert read_record(saved.file, job).floor is None


def test_what_fits_no_sheet_is_kept_by_the_form_and_said_at_once(client: Client, saved: KeptJobs) -> None:
    """As docs/web.md has it: the cure, either_way, stands in another form."""
    sent = client.post("/jobs/larder/cases/B1", data={"based_on": "1", "runs.0.cases.0.depth": "5 ft"})
    assert sent.status_code == 303 and saved.take("larder").revision.number == 2
    assert "either_way" in html.unescape(client.get("/jobs/larder").text)
