"""Changing a job's unit asks what its figures are to mean, and does that."""

from __future__ import annotations

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.jobfile.read.read_job import read_job
from casewright.lengths.length import MM, Unit
from web_bench import JOB, Client

FILLING = """\
job = "Filled"
unit = "mm"
[materials.ply]
sheet = "birch ply 18"
[made_of]
case = "ply"
back = "ply"
[[runs]]
name = "north"
opening = 1805
[[runs.cases]]
mark = "B1"
kind = "base"
width = 601.5
[[runs.cases]]
mark = "B2"
kind = "base"
width = 601.5
[[runs.cases]]
mark = "B3"
kind = "base"
width = 602
"""


def test_the_page_asks_and_lists_what_is_rounded(client: Client) -> None:
    asked = client.get("/jobs/larder/unit")
    assert asked.status_code == 200
    assert "Convert the figures" in asked.text and "Read the same figures anew" in asked.text
    assert "millimetres" in asked.text and "1587.5" in asked.text
    settings = client.get("/jobs/larder/settings").text
    assert "/jobs/larder/unit" in settings and 'name="unit"' not in settings


def test_figures_are_converted_and_comments_stay(client: Client, saved: KeptJobs) -> None:
    sent = client.post("/jobs/larder/unit", data={"how": "convert", "based_on": "1"})
    assert sent.status_code == 303
    kept = saved.take("larder")
    job = read_job(kept.revision.text)
    assert job.unit is Unit.MM and job.runs[0].cases[0].width == 24
    assert "# under the window" in kept.revision.text and "figures converted" in kept.revision.note


def test_figures_are_read_anew(client: Client, saved: KeptJobs) -> None:
    """A job whose figures were millimetres all along, but said inches."""
    text = FILLING.replace('"mm"', '"in"')
    job = saved.start(text).id
    assert client.post(f"/jobs/{job}/unit", data={"how": "anew", "based_on": "1"}).status_code == 303
    assert saved.take(job).revision.text == FILLING


def test_what_could_not_be_built_is_refused_and_nothing_is_kept(client: Client, saved: KeptJobs) -> None:
    """Cases 24 and 36 in wide, read as millimetres, have no room inside."""
    sent = client.post("/jobs/larder/unit", data={"how": "anew", "based_on": "1"})
    assert sent.status_code == 422 and "Not changed." in sent.text
    assert saved.take("larder").revision.text == JOB


def test_nothing_is_rounded_where_that_would_leave_cases_too_wide(client: Client, saved: KeptJobs) -> None:
    job = saved.start(FILLING).id
    assert "so none is rounded" in client.get(f"/jobs/{job}/unit").text
    assert client.post(f"/jobs/{job}/unit", data={"how": "convert", "based_on": "1"}).status_code == 303
    widths = [case.width for case in read_job(saved.take(job).revision.text).runs[0].cases]
    assert sum(width or 0 for width in widths) == 1805 * MM


def test_a_newer_revision_is_not_overwritten(client: Client, saved: KeptJobs) -> None:
    saved.rewrite("larder", JOB.replace("width = 24", "width = 25"), "wider", 1)
    sent = client.post("/jobs/larder/unit", data={"how": "convert", "based_on": "1"})
    assert sent.status_code == 409 and "width = 25" in saved.take("larder").revision.text


def patched(client: Client, *entries: tuple[str, object], **more: object) -> tuple[int, str]:
    listed = [{"path": path, "value": value} for path, value in entries]
    answer = client.ask("PATCH", "/api/jobs/larder", json={"entries": listed, "based_on": 1, **more})
    return answer.status_code, answer.text


def test_a_program_too_says_what_becomes_of_the_figures(client: Client, saved: KeptJobs) -> None:
    status, said = patched(client, ("unit", "mm"))
    assert status == 422 and "unit-unasked" in said and "anew" in said
    status, said = patched(client, ("unit", "mm"), ("job", "Pantry"), figures="convert")
    assert status == 422 and "unit-with-others" in said
    assert saved.take("larder").revision.number == 1
    status, _ = patched(client, ("unit", "mm"), figures="convert")
    job = read_job(saved.take("larder").revision.text)
    assert status == 200 and job.unit is Unit.MM and job.runs[0].cases[0].width == 24


def test_the_unit_it_has_already_and_none_at_all_raise_no_question(client: Client) -> None:
    assert patched(client, ("unit", "in"), ("job", "Pantry"))[0] == 200
    status, said = patched(client, ("unit", "cubit"))
    assert status == 422 and "not one of the choices" in said


def test_a_change_made_from_a_revision_the_job_never_had_is_told_as_that(client: Client) -> None:
    for forged, number in (("99", 99), ("0", 0), ("newest", 0)):
        for path in ("cases/B1", "runs/0", "materials"):
            sent = client.post(f"/jobs/larder/{path}", data={"based_on": forged, "runs.0.opening": "60"})
            assert sent.status_code == 409, path
            assert f"revision {number} of job larder, which has only revisions 1 to 1" in sent.text
            assert "Reload the page" in sent.text and "no case" not in sent.text
