"""Changing a job through its forms: kept at once, or not at all and nothing typed is lost."""

from __future__ import annotations

import json
import re
from fractions import Fraction as F

import pytest

from casewright.app.editing.text_edits import SetEntry
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.jobfile.read.toml_text import values_of
from web_bench import JOB, Client

WIDTH = "runs.0.cases.0.width"
OPENING = "runs.0.opening"


def test_a_changed_opening_moves_what_shares_it_and_nothing_else_in_the_text(
    client: Client, saved: KeptJobs
) -> None:
    before = saved.take("larder").worked.needed()
    answer = client.post("/jobs/larder/runs/0", data={OPENING: "64", "based_on": "1"}, htmx=True)
    assert answer.status_code == 200 and "Saved as revision 2" in answer.text
    assert json.loads(answer.headers["hx-trigger"]) == {"job-at": {"job": "larder", "revision": 2}}
    work = saved.take("larder")
    after = work.worked.needed()
    assert after.sizes.of("B2.width") - before.sizes.of("B2.width") == 64 - before.sizes.of("run1.opening")
    assert after.sizes.of("B1.width") == before.sizes.of("B1.width")
    assert work.revision.text == JOB.replace('opening = "62 1/2"', "opening = 64")
    assert work.revision.note == "opening 62 1/2 → 64"


def test_the_answer_to_a_form_touches_no_field(client: Client) -> None:
    """What the maker is typing in the next field must not be replaced by the answer to the last one."""
    for typed in ("64", "wide"):
        text = client.post("/jobs/larder/runs/0", data={OPENING: typed, "based_on": "1"}, htmx=True).text
        assert not re.search(r"<(input|select|textarea)(?![^>]*type=\"hidden\")", text)


def test_a_form_sent_again_unchanged_still_says_that_it_is_kept(client: Client, saved: KeptJobs) -> None:
    """The second of two quick events used to wipe the word of the first off the card."""
    for _ in range(2):
        answer = client.post("/jobs/larder/runs/0", data={OPENING: "64", "based_on": "1"}, htmx=True)
        assert "Saved as revision 2" in answer.text
    assert len(saved.history("larder")) == 2


@pytest.mark.parametrize(
    ("path", "field", "typed", "sentence"),
    [
        ("runs/0", OPENING, "wide", "holds no number"),
        ("runs/0", OPENING, "23,5", "comma"),
        ("runs/0", OPENING, "", "is empty"),
        ("cases/B1", WIDTH, "-3", "too small"),
        ("cases/B1", "runs.0.cases.0.bays.0.adjustable", "two", "whole number"),
        ("cases/B1", "runs.0.cases.0.bays.0.fixed", "10; tall", "holds no number"),
        ("cases/B1", "runs.0.cases.0.mark", "B2", "another case"),
        ("cases/B1", "runs.0.cases.0.construction.toe_height", "40", "toe kick"),
        ("cases/B1", "runs.0.cases.0.mark", "my case", "cannot be used"),
        ("materials", "materials.ply.readings", "0.7; thick", "holds no number"),
        ("construction", "construction.dado_depth", "1/4 cm", "metric"),
    ],
)
def test_a_bad_value_is_said_beside_its_field_and_changes_nothing(
    client: Client, saved: KeptJobs, path: str, field: str, typed: str, sentence: str
) -> None:
    answer = client.post(f"/jobs/larder/{path}", data={field: typed, "based_on": "1"}, htmx=True)
    assert answer.status_code == 422
    beside = re.search(rf'id="why-{re.escape(field)}"[^>]*>([^<]*)<', answer.text)
    assert beside and sentence in beside[1]
    assert "Not saved yet" in answer.text
    assert saved.take("larder").revision.number == 1
    # The same without a script: the whole page comes back with what was typed.
    page = client.post(f"/jobs/larder/{path}", data={field: typed, "based_on": "1"})
    assert page.status_code == 422
    box = re.search(rf'name="{re.escape(field)}" value="([^"]*)"', page.text)
    assert box and box[1] == typed


def test_what_one_entry_brings_about_elsewhere_is_said_at_that_entry(client: Client) -> None:
    """The form of a run has no field of a case; its opening was changed, and that is where to look."""
    answer = client.post("/jobs/larder/runs/0", data={OPENING: "20", "based_on": "1"}, htmx=True)
    assert answer.status_code == 422
    beside = re.search(rf'id="why-{re.escape(OPENING)}"[^>]*>([^<]*)<', answer.text)
    assert beside and beside[1]


def test_a_fault_of_no_field_among_several_changed_is_said_at_the_head_in_words(client: Client) -> None:
    sent = {OPENING: "20", "runs.0.name": "back room", "based_on": "1"}
    answer = client.post("/jobs/larder/runs/0", data=sent, htmx=True)
    assert answer.status_code == 422
    head = answer.text[: answer.text.index('id="why-')]
    assert re.search(r'class="finding refuse"', head) and not re.search(r"cases\.|runs\.", head)


def test_without_a_script_a_form_leads_to_its_own_page(client: Client) -> None:
    answer = client.post("/jobs/larder/cases/B1", data={WIDTH: "27-3/8", "based_on": "1"})
    assert answer.status_code == 303 and answer.headers["location"] == "/jobs/larder/cases/B1"
    assert 'value="27-3/8"' in client.get("/jobs/larder/cases/B1").text


def test_a_case_under_a_new_mark_goes_on_under_it(client: Client) -> None:
    sent = {"runs.0.cases.0.mark": "S1", "based_on": "1"}
    answer = client.post("/jobs/larder/cases/B1", data=sent, htmx=True)
    assert answer.headers["hx-retarget"] == "#card"
    assert "/jobs/larder/cases/S1" in answer.text


def test_two_people_changing_different_entries_both_keep_theirs(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/runs/0", data={OPENING: "64", "based_on": "1"}, htmx=True)
    answer = client.post("/jobs/larder/cases/B1", data={WIDTH: "23", "based_on": "1"}, htmx=True)
    assert answer.status_code == 200
    run = values_of(saved.take("larder").revision.text)["runs"][0]
    assert (run["opening"], run["cases"][0]["width"]) == (64, 23)


def test_a_form_from_before_the_cases_were_moved_changes_the_case_it_names(
    client: Client, saved: KeptJobs
) -> None:
    client.post("/jobs/larder/cases/B1/right")
    typed = {"runs.0.cases.0.width": "22", "based_on": "1"}
    answer = client.post("/jobs/larder/cases/B1", data=typed, htmx=True)
    cases = values_of(saved.take("larder").revision.text)["runs"][0]["cases"]
    assert [case["mark"] for case in cases] == ["B2", "B1"]
    assert "width" not in cases[0]
    assert answer.status_code in (200, 409)


@pytest.mark.parametrize(
    ("path", "sent", "marks"),
    [
        ("cases/B1/copy", {}, ["B1", "B3", "B2"]),
        ("cases/B1/right", {}, ["B2", "B1"]),
        ("cases/B1/left", {}, ["B1", "B2"]),
        ("cases/B1/drop", {}, ["B2"]),
    ],
)
def test_cases_are_copied_moved_and_taken_out(
    client: Client, saved: KeptJobs, path: str, sent: dict[str, str], marks: list[str]
) -> None:
    if path.endswith("copy"):
        client.post("/jobs/larder/runs/0", data={OPENING: "90", "based_on": "1"})
    assert client.post(f"/jobs/larder/{path}", data=sent).status_code == 303
    run = saved.take("larder").worked.needed().job.runs[0]
    assert [spec.mark for spec in run.cases] == marks


def test_bays_come_and_go(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/cases/B2/add-bay")
    assert len(saved.take("larder").worked.needed().cases["B2"].spec.bays) == 3
    client.post("/jobs/larder/cases/B2/drop-bay", data={"bay": "0"})
    bays = saved.take("larder").worked.needed().cases["B2"].spec.bays
    assert [bay.adjustable for bay in bays] == [2, 0]


def test_runs_and_materials_come_and_go(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/runs", data={"name": "south", "opening": "40"})
    assert [run.name for run in saved.take("larder").worked.needed().job.runs] == ["north", "south"]
    client.post("/jobs/larder/runs/0/drop")
    assert [run.name for run in saved.take("larder").worked.needed().job.runs] == ["south"]
    assert client.post("/jobs/larder/runs/0/drop").status_code == 422
    client.post("/jobs/larder/materials/add", data={"sheet": "mdf 3/4"})
    assert "mdf-3-4" in saved.take("larder").worked.needed().job.sheets
    client.post("/jobs/larder/materials/mdf-3-4/drop")
    assert "mdf-3-4" not in saved.take("larder").worked.needed().job.sheets


def test_edging_is_added_chosen_and_kept_while_it_is_used(client: Client, saved: KeptJobs) -> None:
    bare = saved.take("larder").worked.needed()
    client.post("/jobs/larder/edging/add", data={"name": "Oak strip", "thickness": "1/4"})
    assert saved.take("larder").worked.needed().job.edging["oak-strip"].stick == 96
    page = client.get("/jobs/larder/edging").text
    assert page.count(">oak-strip</option>") == page.count(">none</option>") == 3
    sent = {"edged.shelf": "oak-strip", "based_on": "2"}
    assert "Saved as revision 3" in client.post("/jobs/larder/edging", data=sent, htmx=True).text
    edged = saved.take("larder").worked.needed()
    shelf = next(mark for mark, part in edged.parts.items() if part.role.value == "adjustable shelf")
    assert bare.dimensions(bare.parts[shelf])[1] - edged.dimensions(edged.parts[shelf])[1] == F(1, 4)
    assert "edged front to" in client.get("/jobs/larder/parts").text
    assert "edged front to" in client.get(f"/jobs/larder/parts/{shelf}").text
    # A case may be bare where the job is not.
    own = {"runs.0.cases.0.edged.shelf": "none", "based_on": "3"}
    assert "Saved as revision 4" in client.post("/jobs/larder/cases/B1", data=own, htmx=True).text
    assert {part.case for part in saved.take("larder").worked.needed() if part.edges} == {"B2"}
    answer = client.post("/jobs/larder/edging/oak-strip/drop")
    assert answer.status_code == 422 and "oak-strip" in answer.text
    client.post("/jobs/larder/edging", data={"edged.shelf": "", "based_on": "4"})
    client.post("/jobs/larder/cases/B1", data={"runs.0.cases.0.edged.shelf": "", "based_on": "5"})
    last = client.post("/jobs/larder/edging/oak-strip/drop")
    assert last.status_code == 303, last.text
    assert not saved.take("larder").worked.needed().job.edging


def test_a_thickness_that_is_none_adds_no_edging(client: Client, saved: KeptJobs) -> None:
    answer = client.post("/jobs/larder/edging/add", data={"name": "Oak strip", "thickness": "thin"})
    assert answer.status_code == 422 and "thin" in answer.text
    assert saved.take("larder").revision.number == 1


def test_a_material_in_use_is_not_taken_out(client: Client, saved: KeptJobs) -> None:
    answer = client.post("/jobs/larder/materials/ply/drop")
    assert answer.status_code == 422 and "ply" in answer.text
    assert saved.take("larder").revision.number == 1


def test_a_broken_job_may_be_mended_one_fault_at_a_time(client: Client, saved: KeptJobs) -> None:
    broken = JOB.replace('"62 1/2"', '"wide"').replace("width = 24", 'width = "narrow"')
    job = saved.start(broken).id
    first = client.post(f"/jobs/{job}/runs/0", data={OPENING: "62 1/2", "based_on": "1"}, htmx=True)
    assert "Saved as revision 2" in first.text or "narrow" in first.text
    assert values_of(saved.take(job).revision.text)["runs"][0]["opening"] == "62 1/2"
    client.post(f"/jobs/{job}/cases/B1", data={WIDTH: "24", "based_on": "2"}, htmx=True)
    assert saved.take(job).worked.project is not None


def test_the_text_is_kept_whole_or_given_back_whole(client: Client, saved: KeptJobs) -> None:
    wider = JOB.replace("24", "25")
    assert client.post("/jobs/larder/text", data={"text": wider, "based_on": "1"}).status_code == 303
    assert saved.take("larder").revision.text == wider
    wrong = wider.replace("width = 25", "width = 27 3/8")
    answer = client.post("/jobs/larder/text", data={"text": wrong, "based_on": "2"})
    assert answer.status_code == 422
    assert "width = 27 3/8" in answer.text
    line = wrong[: wrong.index("width = 27 3/8")].count("\n") + 1
    assert f"line {line}" in answer.text
    late = client.post("/jobs/larder/text", data={"text": JOB, "based_on": "1"})
    assert late.status_code == 409 and "measured on Tuesday" in late.text
    # What the other has saved is shown line by line before his lines can be replaced.
    assert re.search(r'class="new">.*width = 25', late.text) and "Save mine in place" in late.text
    assert saved.take("larder").revision.number == 2


def test_undo_goes_back_and_forth_step_by_step(client: Client, saved: KeptJobs) -> None:
    def opening() -> object:
        return values_of(saved.take("larder").revision.text)["runs"][0]["opening"]

    def press(verb: str) -> object:
        client.post(f"/jobs/larder/{verb}", data={"based_on": str(saved.take("larder").newest)})
        return opening()

    for width in (64, 65, 66):
        newest = saved.take("larder").newest
        saved.change("larder", [SetEntry(("runs", 0, "opening"), width)], f"to {width}", newest)
    page = client.get("/jobs/larder").text
    assert "Take back: to 66" in page and "Redo" not in page
    assert [press("undo") for _ in range(4)] == [65, 64, "62 1/2", "62 1/2"]
    page = client.get("/jobs/larder/sheets").text
    assert "Undo" not in page[: page.index("</header>")] and "Make again: to 64" in page
    assert [press("redo"), press("redo"), press("undo")] == [64, 65, 64]
    saved.change("larder", [SetEntry(("runs", 0, "opening"), 70)], "to 70", saved.take("larder").newest)
    assert press("redo") == 70  # what was undone before another change cannot be made again
    assert press("undo") == 64


def test_undo_takes_back_no_change_of_another_device_unseen(client: Client, saved: KeptJobs) -> None:
    saved.change("larder", [SetEntry(("runs", 0, "opening"), 64)], "mine", 1)
    saved.change("larder", [SetEntry(("runs", 0, "opening"), 65)], "another's", 2)
    late = client.post("/jobs/larder/undo", data={"based_on": "2"})
    assert late.status_code == 409 and "somebody saved a change first" in late.text
    assert saved.take("larder").newest == 3
    assert "Take back: another" in client.get("/jobs/larder").text


def test_a_job_off_the_list_is_put_back_from_there(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/put-away")
    assert not saved.list() and "Put back on the list" in client.get("/").text
    client.post("/jobs/larder/put-back")
    assert [row.id for row in saved.list()] == ["larder"] and "Put back" not in client.get("/").text


def test_going_back_is_a_revision_too(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/runs/0", data={OPENING: "64", "based_on": "1"})
    client.post("/jobs/larder/history/1/restore")
    assert [revision.number for revision in saved.history("larder")] == [3, 2, 1]
    assert saved.take("larder").revision.text == JOB
    assert "back to revision 1" in client.get("/jobs/larder/history").text
    gone_and_new = client.get("/jobs/larder/history/2").text
    assert 'class="gone"' in gone_and_new and 'class="new"' in gone_and_new


def test_one_shelf_alone_has_its_own_load(client: Client, saved: KeptJobs) -> None:
    entry = "loads_of.B1-A1.holds"
    answer = client.post("/jobs/larder/cases/B1", data={entry: "tinned food", "based_on": "1"}, htmx=True)
    assert answer.status_code == 200 and "Saved as revision 2" in answer.text
    shelves = {one.part.mark: one.load.use for one in saved.take("larder").worked.borne.shelves}
    assert shelves.pop("B1-A1") == "tinned food" and set(shelves.values()) == {"anything"}
