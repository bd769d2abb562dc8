"""Doors, drawers, hinges and slides on the page: added, changed, taken out, and undone."""

from __future__ import annotations

import re

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.casework.front_choices import FrontKind, Hung
from casewright.jobfile.read.toml_text import values_of
from web_bench import Client

FRONT = "runs.0.cases.0.bays.0.fronts.{}.{}"


def kinds(saved: KeptJobs, mark: str = "B1", bay: int = 0) -> list[str]:
    spec = saved.take("larder").worked.needed().cases[mark].spec
    return [front.kind.value for front in spec.bays[bay].fronts]


def fronts_asked(page: str) -> int:
    return len(re.findall(r'name="runs\.\d+\.cases\.\d+\.bays\.\d+\.fronts\.\d+\.kind"', page))


def test_fronts_are_put_on_top_changed_and_taken_from_the_top(client: Client, saved: KeptJobs) -> None:
    page = client.get("/jobs/larder/cases/B1").text
    assert "Add a front<" in page and "Remove the top front" not in page and not fronts_asked(page)
    for count in (1, 2, 3):
        answer = client.post("/jobs/larder/cases/B1/add-front", data={"bay": "0"})
        assert answer.status_code == 303 and answer.headers["location"] == "/jobs/larder/cases/B1"
        page = client.get("/jobs/larder/cases/B1").text
        assert fronts_asked(page) == count and f"Front {count}, from below" in page
    assert kinds(saved) == ["door", "drawer", "drawer"]
    newest = str(saved.take("larder").newest)
    sent = {FRONT.format(2, "height"): "6", FRONT.format(0, "hung"): "right", "based_on": newest}
    assert "Saved as revision 5" in client.post("/jobs/larder/cases/B1", data=sent, htmx=True).text
    bottom, _, top = saved.take("larder").worked.needed().job.runs[0].cases[0].bays[0].fronts
    assert bottom.hung is Hung.RIGHT and top.height == 6 and top.kind is FrontKind.DRAWER
    client.post("/jobs/larder/cases/B1/drop-front", data={"bay": "0"})
    assert kinds(saved) == ["door", "drawer"]
    client.post("/jobs/larder/undo", data={"based_on": str(saved.take("larder").newest)})
    assert kinds(saved) == ["door", "drawer", "drawer"]


def test_each_of_several_bays_has_buttons_of_its_own(client: Client, saved: KeptJobs) -> None:
    assert "Add a front to bay 2" in client.get("/jobs/larder/cases/B2").text
    client.post("/jobs/larder/cases/B2/add-front", data={"bay": "1"})
    assert (kinds(saved, "B2", 0), kinds(saved, "B2", 1)) == ([], ["door"])
    page = client.get("/jobs/larder/cases/B2").text
    assert "Bay 2, front 1, from below" in page
    assert "Remove the top front of bay 2" in page and "Remove the top front of bay 1" not in page
    assert client.post("/jobs/larder/cases/B2/add-front", data={"bay": "7"}).status_code == 404


def test_a_front_goes_to_the_bay_that_was_seen_or_to_none(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/cases/B2/drop-bay", data={"bay": "0"})
    late = {"bay": "1", "based_on": "1"}
    assert client.post("/jobs/larder/cases/B2/add-front", data=late).status_code == 303
    assert kinds(saved, "B2", 0) == ["door"]
    gone = client.post("/jobs/larder/cases/B2/add-front", data={"bay": "0", "based_on": "1"})
    assert gone.status_code == 409 and "removed this bay" in gone.text
    assert kinds(saved, "B2", 0) == ["door"]


@pytest.mark.parametrize(
    ("place", "key", "typed", "sentence"),
    [
        (0, "height", "tall", "holds no number"),
        (0, "height", "40", "nothing is left"),
        (1, "hung", "above", "left"),
        (1, "kind", "flap", "drawer"),
    ],
)
def test_a_wrong_entry_of_a_front_is_said_beside_it(
    client: Client, saved: KeptJobs, place: int, key: str, typed: str, sentence: str
) -> None:
    for _ in range(2):
        client.post("/jobs/larder/cases/B1/add-front", data={"bay": "0"})
    field = FRONT.format(place, key)
    answer = client.post("/jobs/larder/cases/B1", data={field: typed, "based_on": "3"}, htmx=True)
    assert answer.status_code == 422
    beside = re.search(rf'id="why-{re.escape(field)}"[^>]*>([^<]*)<', answer.text)
    assert beside and sentence in beside[1], answer.text
    assert saved.take("larder").revision.number == 3


def test_the_height_of_an_only_front_is_refused_beside_it(client: Client) -> None:
    client.post("/jobs/larder/cases/B1/add-front", data={"bay": "0"})
    field = FRONT.format(0, "height")
    answer = client.post("/jobs/larder/cases/B1", data={field: "12", "based_on": "2"}, htmx=True)
    beside = re.search(rf'id="why-{re.escape(field)}"[^>]*>([^<]*)<', answer.text)
    assert beside and "add another front above it" in beside[1]


def test_hinges_and_slides_are_added_chosen_and_kept_while_they_are_used(
    client: Client, saved: KeptJobs
) -> None:
    page = client.get("/jobs/larder").text
    assert "/jobs/larder/hardware" in page
    client.post("/jobs/larder/cases/B1/add-front", data={"bay": "0"})
    bare = saved.take("larder").worked.needed()
    assert "no-hinge" in {finding.code for finding in bare.findings}
    client.post("/jobs/larder/hardware/hinges/add", data={"like": "full overlay"})
    bored = saved.take("larder").worked.needed()
    assert "no-hinge" not in {finding.code for finding in bored.findings}
    client.post("/jobs/larder/hardware/hinges/add", data={"like": "half overlay"})
    client.post("/jobs/larder/hardware/slides/add", data={"like": "side mount"})
    values = values_of(saved.take("larder").revision.text)
    assert list(values["hinges"]) == ["full-overlay", "half-overlay"] and list(values["slides"]) == [
        "side-mount"
    ]
    assert values["fitted_with"] == {"hinge": "full-overlay"}
    # The second has not taken the doors off the first.
    assert saved.take("larder").worked.needed().parts == bored.parts
    page = client.get("/jobs/larder/hardware").text
    assert page.count(">half-overlay</option>") == 2 and page.count(">side-mount</option>") == 1
    assert "Remove cup hinge, half overlay (half-overlay)" in page
    own = {"runs.0.cases.0.fitted_with.hinge": "half-overlay", "based_on": "5"}
    assert "Saved as revision 6" in client.post("/jobs/larder/cases/B1", data=own, htmx=True).text
    answer = client.post("/jobs/larder/hardware/hinges/half-overlay/drop")
    assert answer.status_code == 422 and "half-overlay" in answer.text
    client.post("/jobs/larder/cases/B1", data={"runs.0.cases.0.fitted_with.hinge": "", "based_on": "6"})
    assert client.post("/jobs/larder/hardware/hinges/half-overlay/drop").status_code == 303
    assert list(values_of(saved.take("larder").revision.text)["hinges"]) == ["full-overlay"]


def test_a_figure_of_ones_own_hinge_counts_and_a_wrong_one_is_said_beside_it(
    client: Client, saved: KeptJobs
) -> None:
    client.post("/jobs/larder/hardware/hinges/add", data={"like": "full overlay"})
    field = "hinges.full-overlay.cup"
    wrong = client.post("/jobs/larder/hardware", data={field: "wide", "based_on": "2"}, htmx=True)
    beside = re.search(rf'id="why-{re.escape(field)}"[^>]*>([^<]*)<', wrong.text)
    assert wrong.status_code == 422 and beside and "holds no number" in beside[1]
    right = client.post("/jobs/larder/hardware", data={field: "26 mm", "based_on": "2"}, htmx=True)
    assert "Saved as revision 3: full-overlay: cup hole diameter 35 mm → 26 mm" in right.text
    assert saved.take("larder").worked.needed().job.hinges["full-overlay"].cup * 254 == 260


@pytest.mark.parametrize(
    ("add", "sent", "field"),
    [
        ("hardware/slides/add", {"like": "side mount"}, "slides.side-mount.like"),
        ("materials/add", {"sheet": "mdf 3/4"}, "materials.mdf-3-4.sheet"),
    ],
)
def test_emptying_the_last_entry_of_what_is_not_used_takes_it_out(
    client: Client, saved: KeptJobs, add: str, sent: dict[str, str], field: str
) -> None:
    client.post(f"/jobs/larder/{add}", data=sent)
    card, table = add.split("/")[0], field.split(".")[0]
    assert field.split(".")[1] in values_of(saved.take("larder").revision.text)[table]
    answer = client.post(f"/jobs/larder/{card}", data={field: "", "based_on": "2"}, htmx=True)
    assert answer.status_code == 200 and "Saved as revision 3" in answer.text
    assert field.split(".")[1] not in values_of(saved.take("larder").revision.text).get(table, {})


def test_the_list_of_what_a_hinge_is_like_offers_no_empty_choice(client: Client) -> None:
    client.post("/jobs/larder/hardware/hinges/add", data={"like": "full overlay"})
    page = client.get("/jobs/larder/hardware").text
    asked = re.search(r'<select[^>]* name="hinges.full-overlay.like".*?</select>', page, re.DOTALL)
    assert asked and 'value=""' not in asked[0] and asked[0].count("<option") == 3


def test_only_hinges_and_slides_are_added_there_and_only_from_the_list(
    client: Client, saved: KeptJobs
) -> None:
    answer = client.post("/jobs/larder/hardware/knobs/add", data={"like": "round"})
    assert answer.status_code in (404, 422)
    answer = client.post("/jobs/larder/hardware/slides/add", data={"like": "telescope"})
    assert answer.status_code == 422 and "telescope" in answer.text
    assert saved.take("larder").revision.number == 1
