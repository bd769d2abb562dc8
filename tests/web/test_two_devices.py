"""Forms open on two devices: nothing saved is put back to older figures, nothing typed is lost unsaid."""

from __future__ import annotations

import re
from typing import Any

import httpx
import pytest

from casewright.app.editing.text_edits import SetEntry, as_path
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.jobfile.read.toml_text import values_of
from casewright.store import job_rows
from web_bench import Client

FIELD = re.compile(r'<(?:input|textarea)[^>]* name="([^"]+)"(?: value="([^"]*)")?')
PICKED = re.compile(r'<select[^>]* name="([^"]+)".*?</select>', re.DOTALL)
WIDTH = "runs.0.cases.0.width"


def opened(client: Client, path: str) -> dict[str, str]:
    """The whole form of a page, as a browser would send it back."""
    html = client.get(path).text
    form = html[html.index('id="form"') : html.index("</form>", html.index('id="form"'))]
    sent = dict(FIELD.findall(form))
    for picked in PICKED.finditer(form):
        chosen = re.search(r"<option selected>([^<]*)<|<option>([^<]*)</option> selected", picked[0])
        sent[picked[1]] = chosen[1] if chosen else ""
    return sent


def case(saved: KeptJobs, mark: str) -> dict[str, Any]:
    cases = values_of(saved.take("larder").revision.text)["runs"][0]["cases"]
    return next(one for one in cases if one["mark"] == mark)


def send(client: Client, path: str, form: dict[str, str], **typed: str) -> httpx.Response:
    return client.post(
        path, data={**form, **{name.replace("__", "."): value for name, value in typed.items()}}, htmx=True
    )


def test_a_whole_form_from_before_puts_no_older_figure_back(client: Client, saved: KeptJobs) -> None:
    mine = opened(client, "/jobs/larder/cases/B1")
    assert mine[WIDTH] == "24"
    other = client.post("/jobs/larder/cases/B1", data={WIDTH: "26", "based_on": "1"}, htmx=True)
    assert other.status_code == 200
    answer = send(client, "/jobs/larder/cases/B1", mine, runs__0__cases__0__depth="22")
    assert answer.status_code == 200
    assert (case(saved, "B1")["width"], case(saved, "B1")["depth"]) == (26, 22)
    # The page learns the other's figure, to show it where nobody has typed.
    assert re.search(rf'id="why-{re.escape(WIDTH)}"[^>]* data-sent="24" data-now="26"', answer.text)
    assert (
        saved.take("larder").revision.note == "depth 24 → 22" or "depth" in saved.take("larder").revision.note
    )


def test_an_entry_that_two_changed_is_asked_about_and_either_answer_holds(
    client: Client, saved: KeptJobs
) -> None:
    mine = opened(client, "/jobs/larder/cases/B1")
    client.post("/jobs/larder/cases/B1", data={WIDTH: "26", "based_on": "1"}, htmx=True)
    asked = send(client, "/jobs/larder/cases/B1", mine, runs__0__cases__0__width="25")
    assert asked.status_code == 422 and case(saved, "B1")["width"] == 26
    assert "Another device changed this from 24 to 26" in asked.text and "here it says 25" in asked.text
    assert ">Keep 25</button>" in asked.text and ">Take 26</button>" in asked.text
    # Sent again without an answer it is asked again, whatever else was changed in between.
    again = send(
        client, "/jobs/larder/cases/B1", mine, runs__0__cases__0__width="25", runs__0__cases__0__depth="22"
    )
    assert again.status_code == 422 and "depth" not in case(saved, "B1")
    taken = send(
        client, "/jobs/larder/cases/B1", mine, runs__0__cases__0__width="25", **{f"take:{WIDTH}": "yes"}
    )
    assert taken.status_code == 200 and case(saved, "B1")["width"] == 26
    assert 'data-sent="25" data-now="26"' in taken.text
    kept = send(
        client, "/jobs/larder/cases/B1", mine, runs__0__cases__0__width="25", **{f"theirs:{WIDTH}": "26"}
    )
    assert kept.status_code == 200 and case(saved, "B1")["width"] == 25


def test_an_answer_to_an_older_question_does_not_settle_a_newer_one(client: Client, saved: KeptJobs) -> None:
    mine = opened(client, "/jobs/larder/cases/B1")
    client.post("/jobs/larder/cases/B1", data={WIDTH: "26", "based_on": "1"}, htmx=True)
    client.post("/jobs/larder/cases/B1", data={WIDTH: "27", "based_on": "2"}, htmx=True)
    answer = send(
        client, "/jobs/larder/cases/B1", mine, runs__0__cases__0__width="25", **{f"theirs:{WIDTH}": "26"}
    )
    assert answer.status_code == 422 and "from 24 to 27" in answer.text
    assert case(saved, "B1")["width"] == 27


def test_the_same_value_typed_twice_in_other_words_is_no_quarrel(client: Client, saved: KeptJobs) -> None:
    width = "runs.0.cases.1.width"
    for typed in ("2 share", "2 shares"):
        answer = client.post("/jobs/larder/cases/B2", data={width: typed, "based_on": "1"}, htmx=True)
        assert answer.status_code == 200, answer.text
    assert len(saved.history("larder")) == 2


@pytest.mark.parametrize("verb", ["copy", "left", "right"])
def test_a_change_finds_its_case_wherever_others_have_moved_it(
    client: Client, saved: KeptJobs, verb: str
) -> None:
    mine = opened(client, "/jobs/larder/cases/B2")
    client.post("/jobs/larder/cases/B1/copy" if verb == "copy" else f"/jobs/larder/cases/B2/{verb}")
    answer = send(client, "/jobs/larder/cases/B2", mine, runs__0__cases__1__depth="21")
    assert answer.status_code == 200
    assert case(saved, "B2")["depth"] == 21
    others = [
        one
        for one in values_of(saved.take("larder").revision.text)["runs"][0]["cases"]
        if one["mark"] != "B2"
    ]
    assert all("depth" not in one for one in others)
    if verb != "right":  # the fields have other names now: the card is made anew
        assert answer.headers["hx-retarget"] == "#card"


def test_a_change_finds_its_case_under_the_mark_another_gave_it(client: Client, saved: KeptJobs) -> None:
    mine = opened(client, "/jobs/larder/cases/B1")
    client.post("/jobs/larder/cases/B1", data={"runs.0.cases.0.mark": "S1", "based_on": "1"}, htmx=True)
    client.post("/jobs/larder/cases/B2", data={"runs.0.cases.1.mark": "B1", "based_on": "2"}, htmx=True)
    answer = send(client, "/jobs/larder/cases/B1", mine, runs__0__cases__0__depth="21")
    assert answer.status_code == 200
    assert case(saved, "S1")["depth"] == 21 and "depth" not in case(saved, "B1")


def test_what_was_typed_for_a_case_that_is_gone_is_said(client: Client, saved: KeptJobs) -> None:
    mine = opened(client, "/jobs/larder/cases/B1")
    client.post("/jobs/larder/cases/B1/drop")
    answer = send(client, "/jobs/larder/cases/B1", mine, runs__0__cases__0__depth="21")
    assert answer.status_code == 409 and "Another device removed case B1" in answer.text
    assert len(saved.history("larder")) == 2


def test_what_was_typed_for_a_bay_that_is_gone_is_said(client: Client, saved: KeptJobs) -> None:
    mine = opened(client, "/jobs/larder/cases/B2")
    client.post("/jobs/larder/cases/B2/drop-bay", data={"bay": "0"})
    gone = "runs.0.cases.1.bays.0.adjustable"
    answer = send(client, "/jobs/larder/cases/B2", {**mine, gone: "4"})
    assert answer.status_code == 422
    assert "nother device removed this entry" in answer.text and "“4” was typed for it" in answer.text
    # Of the bay that is left everything stays as it is.
    assert case(saved, "B2")["bays"] == [{"adjustable": 2}]


def test_a_program_that_has_not_seen_a_change_is_told_which(client: Client) -> None:
    def patch(value: int, based_on: int) -> httpx.Response:
        entries = [{"path": "runs.0.opening", "value": value}]
        return client.ask("PATCH", "/api/jobs/larder", json={"entries": entries, "based_on": based_on})

    assert patch(64, 1).status_code == 200
    late = patch(65, 1)
    assert late.status_code == 409 and "a change of runs.north.opening first" in late.json()["error"]["text"]
    assert patch(65, 2).status_code == 200


def test_what_another_has_changed_is_not_taken_out_unseen(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/cases/B1", data={WIDTH: "26", "based_on": "1"}, htmx=True)
    client.post("/jobs/larder/materials", data={"materials.thin.price": "40", "based_on": "2"}, htmx=True)
    for path in ("cases/B1/drop", "runs/0/drop", "materials/thin/drop"):
        late = client.post(f"/jobs/larder/{path}", data={"based_on": "1"})
        assert late.status_code in (409, 422) and saved.take("larder").newest == 3, path
    assert client.post("/jobs/larder/cases/B1/drop", data={"based_on": "2"}).status_code == 303


def test_a_case_is_copied_under_the_mark_it_has_now(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/cases/B1", data={"runs.0.cases.0.mark": "S1", "based_on": "1"}, htmx=True)
    client.post("/jobs/larder/cases/B1/copy", data={"based_on": "1"})
    cases = values_of(saved.take("larder").revision.text)["runs"][0]["cases"]
    assert [one["mark"] for one in cases] == ["S1", "S2", "B2"]


def test_a_bay_is_taken_out_that_was_meant_and_no_neighbour(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/cases/B2/drop-bay", data={"bay": "0", "based_on": "1"})
    assert case(saved, "B2")["bays"] == [{"adjustable": 2}]
    late = client.post("/jobs/larder/cases/B2/drop-bay", data={"bay": "0", "based_on": "1"})
    assert late.status_code == 409
    client.post("/jobs/larder/cases/B2/add-bay", data={"based_on": "1"})
    client.post("/jobs/larder/cases/B2/drop-bay", data={"bay": "1", "based_on": "1"})
    assert case(saved, "B2")["bays"] == [{}]


def test_what_comes_back_in_its_field_is_asked_about_if_the_job_says_otherwise_by_now(
    client: Client, saved: KeptJobs
) -> None:
    """Typed over 24, not saved, and 26 by another device since: a page made anew shows 26, but he saw 24."""
    client.post("/jobs/larder/cases/B1", data={WIDTH: "26", "based_on": "1"}, htmx=True)
    mine = {**opened(client, "/jobs/larder/cases/B1"), WIDTH: "25", f"seen:{WIDTH}": "24"}
    asked = client.post("/jobs/larder/cases/B1", data=mine, htmx=True)
    assert asked.status_code == 422 and "from 24 to 26" in asked.text
    assert case(saved, "B1")["width"] == 26


def test_two_forms_sent_at_the_same_moment_are_taken_one_after_the_other(
    client: Client, saved: KeptJobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The other's revision is written between this form's reading of the job and its writing."""
    write = job_rows.add_revision
    others = iter([WIDTH])

    def late(file, job, based_on, *rest):  # type: ignore[no-untyped-def]
        for name in others:
            saved.change(job, [SetEntry(as_path(name), 26)], "the other", based_on)
        return write(file, job, based_on, *rest)

    mine = opened(client, "/jobs/larder/cases/B1")
    monkeypatch.setattr(job_rows, "add_revision", late)
    asked = send(client, "/jobs/larder/cases/B1", mine, runs__0__cases__0__width="25")
    assert asked.status_code == 422 and ">Keep 25</button>" in asked.text
    assert case(saved, "B1")["width"] == 26
