"""From a spoiled part to a chosen way and back, asked as a page without a script asks."""

from __future__ import annotations

import html
import re
from fractions import Fraction

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.repair.repair_record import record_of
from casewright.app.shop.receiving import receive
from casewright.lengths.length import Unit
from casewright.record.handed_out import Issued, issued_to_plain
from casewright.repair.recorded_facts import cuts_to_free
from web_bench import Client

REPAIR = "/jobs/larder/repair"


def text_of(client: Client, path: str = "") -> str:
    answer = client.get(f"{REPAIR}{path}")
    assert answer.status_code == 200, answer.text
    return html.unescape(re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.text)))


def spoil(client: Client, **said: str) -> None:
    answer = client.post(f"{REPAIR}/spoiled", data=said)
    assert answer.status_code == 303 and answer.headers["location"] == REPAIR


def place_of(client: Client, number: int = 1) -> str:
    found = re.search(r'name="place" value="(\d+)"', client.get(f"{REPAIR}/ways/{number}").text)
    assert found is not None
    return found[1]


def test_the_form_names_every_part_before_anything_is_amiss(client: Client) -> None:
    page = client.get(REPAIR).text
    assert len(re.findall(r"<h1[ >]", page)) == 1
    assert {"B1-L", "B1-B", "B2-K"} <= set(re.findall(r"B\d-[A-Z]+\d*", page))


def test_a_spoiled_part_is_put_right_and_the_choice_taken_back(client: Client, saved: KeptJobs) -> None:
    before = client.get("/jobs/larder/text").text
    spoil(client, mark="B1-B", length="21 1/2", how="read the rule wrong")
    way = text_of(client, "/ways/1")
    assert "B1-B" in way and "Cost: " in way
    assert "<svg" in client.get(f"{REPAIR}/ways/1").text
    chosen = client.post(f"{REPAIR}/ways/1/choose", data={"place": place_of(client)})
    assert chosen.status_code == 303
    after = text_of(client)
    assert "B1-B is spoiled" not in after and "undo" in after.lower()
    shop = client.get("/jobs/larder/shop").text
    assert "To put right, as chosen" in shop and "B1-B" in shop
    assert client.post(f"{REPAIR}/undo").status_code == 303
    assert "To put right, as chosen" not in client.get("/jobs/larder/shop").text
    assert "B1-B is spoiled" in text_of(client)
    assert client.get("/jobs/larder/text").text.count("[[runs.cases]]") == before.count("[[runs.cases]]")


def test_a_part_that_is_good_after_all_leaves_nothing_to_put_right(client: Client) -> None:
    spoil(client, mark="B1-SF", length="20")
    assert "It is good after all" in text_of(client)
    assert client.post(f"{REPAIR}/good/B1-SF").status_code == 303
    assert "It is good after all" not in text_of(client)


def test_nothing_is_chosen_when_more_has_happened_since(client: Client) -> None:
    spoil(client, mark="B1-B", length="21 1/2")
    place = place_of(client)
    spoil(client, mark="B2-SF", length="20")
    refused = client.post(f"{REPAIR}/ways/1/choose", data={"place": place})
    assert refused.status_code == 409
    assert "Something was recorded since you loaded this page" in html.unescape(refused.text)
    assert "B1-B is spoiled" in text_of(client)


def test_a_size_that_looks_like_a_slip_is_asked_about_before_it_is_written_down(client: Client) -> None:
    """The part is 34 1/2 in long, 24 in wide or so: 345 is ten times that."""
    said = {"mark": "B1-L", "length": "345", "width": "20"}
    asked = client.post(f"{REPAIR}/spoiled", data=said)
    assert asked.status_code == 422
    page = html.unescape(asked.text)
    assert re.search(r'id="now-length"[^>]*aria-describedby="why-length"[^>]*aria-invalid="true"', page)
    assert re.search(r'id="why-length">[^<]*ten times that. Did you mean 34 1/2\?', page)
    assert not re.search(r'id="now-width"[^>]*aria-invalid', page)
    assert '<button name="use_length" value="34 1/2">' in page
    assert '<button name="sure" value="length 345">' in page
    assert "B1-L is spoiled" not in text_of(client)
    spoil(client, **said, use_length="33 1/2")  # the answer takes the place of what was typed
    assert "B1-L is spoiled" in text_of(client)


def test_a_size_the_maker_is_sure_of_is_not_asked_about_again(client: Client) -> None:
    said = {"mark": "B1-L", "length": "3.45", "width": "20"}
    assert "Did you mean" in html.unescape(client.post(f"{REPAIR}/spoiled", data=said).text)
    # Sure of another figure is not sure of this one.
    assert client.post(f"{REPAIR}/spoiled", data={**said, "sure": "length 345"}).status_code == 422
    spoil(client, **said, sure="length 3.45")


def test_what_is_left_of_a_spoiled_part_may_be_of_any_size(client: Client) -> None:
    spoil(client, mark="B1-L", length="11", width="9")  # less than half, and no slip explains it


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ({"mark": "B9-L", "length": "20"}, "B9-L"),
        ({"mark": "B1-L", "length": "a bit short"}, "a bit short"),
        ({"mark": "", "length": "20"}, "part"),
    ],
    ids=["no such part", "no length", "no part"],
)
def test_bad_input_is_said_and_what_was_typed_stays(client: Client, said: dict[str, str], why: str) -> None:
    answer = client.post(f"{REPAIR}/spoiled", data=said)
    assert answer.status_code == 422
    page = html.unescape(answer.text)
    assert why in page and f'value="{said["length"]}"' in page
    if why == "a bit short":  # a refusal stands at the field that caused it
        assert re.search(r'id="now-length"[^>]*aria-invalid="true"', page)
        assert re.search(r'id="why-length">[^<]*a bit short', page)
    assert "It is good after all" not in text_of(client)


def test_a_way_that_is_not_there_is_no_page(client: Client) -> None:
    spoil(client, mark="B1-B", length="21 1/2")
    answer = client.get(f"{REPAIR}/ways/99")
    assert answer.status_code == 404
    assert "There is no way 99" in html.unescape(answer.text)


def test_sheets_and_papers_are_those_the_benches_work_by(client: Client, saved: KeptJobs) -> None:
    """They were planned from the job's text, whatever had been handed out or chosen since."""
    spoil(client, mark="B1-B", length="21 1/2")
    assert client.post(f"{REPAIR}/ways/1/choose", data={"place": place_of(client)}).status_code == 303
    floor = record_of(saved, "larder").floor
    assert floor is not None
    assert "which the benches work by" in client.get("/jobs/larder/sheets").text
    assert "which the benches work by" in client.get("/jobs/larder/papers").text
    made = client.get("/jobs/larder/papers/plan.json").json()
    assert made["exact"] == issued_to_plain(Issued(0, floor.plans))["plans"]
    assert client.get("/jobs/larder/papers/packet.pdf").content.startswith(b"%PDF-")
    assert "B1-B" in client.get("/jobs/larder/papers/parts.csv").text
    text = client.get("/jobs/larder/papers/job.toml").text
    saved.rewrite("larder", text.replace("62 1/2", "63"), "wider", saved.take("larder").newest)
    client.get("/jobs/larder/sheets/progress")
    assert "as handed out" not in client.get("/jobs/larder/sheets").text


def test_what_is_wrong_and_where_is_said_in_the_form(client: Client, saved: KeptJobs) -> None:
    page = html.unescape(client.get(f"{REPAIR}?mark=B1-L&how=slipped&length=33").text)
    assert 'value="slipped"' in page and 'value="33"' in page  # choosing a part loses nothing
    assert '<option value="dado-bottom:wrong end">from the wrong end</option>' in page
    assert 'data-tap="feature" data-value="dado-bottom"' in page
    said = {
        "mark": "B1-L",
        "cut": ["groove-back"],
        "wrong": ["", "dado-F11:wrong end", ""],
        "where": ["front edge", ""],
        "long": ["2", ""],
        "deep": ["1/4", ""],
    }
    assert client.post(f"{REPAIR}/spoiled", data=said).status_code == 303
    state = record_of(saved, "larder").state
    assert state is not None
    assert [(one.fault, one.feature, one.side) for one in state.parts["B1-L"].harms] == [
        ("end", "dado-F11", ""),
        ("damage", "", "front"),
    ]
    assert {"B1-L dado-F11", "B1-L groove-back pass 1"} <= state.done
    assert "B1-L dado-bottom" not in state.done
    assert "(dado-F11 from the wrong end; damaged at its front edge, 2 × 1/4)" in text_of(client)
    assert client.post(f"{REPAIR}/good/B1-L").status_code == 303
    after = record_of(saved, "larder").state
    assert after is not None and not after.done and not after.parts["B1-L"].harms


def test_by_how_much_and_from_which_sheet_is_kept_as_typed_and_recorded(
    client: Client, saved: KeptJobs
) -> None:
    said = {
        "mark": "B1-L",
        "of": ["dado-bottom", "dado-F11", "groove-back"],
        "wrong": ["", "dado-F11:too near", "groove-back:too deep", "made of:thin"],
        "by": ["1/8", " 1/16", "1/32"],
    }
    answer = client.post(f"{REPAIR}/spoiled", data=said)
    page = html.unescape(answer.text)
    assert answer.status_code == 422
    assert re.search(r'id="why-feature-dado-bottom">[^<]*not said how dado-bottom is wrong', page)
    assert all(f'name="by" value="{by}"' in page for by in ("1/8", "1/16", "1/32"))
    assert client.post(f"{REPAIR}/spoiled", data={**said, "by": ["", "1/16", "1/32"]}).status_code == 303
    state = record_of(saved, "larder").state
    assert state is not None
    assert [(one.fault, one.feature, one.by, one.material) for one in state.parts["B1-L"].harms] == [
        ("place", "dado-F11", Fraction(-1, 16), ""),
        ("deep", "groove-back", Fraction(1, 32), ""),
        ("material", "", 0, "thin"),
    ]
    told = 'dado-F11 out of place, 1/16" too near the lower end; groove-back too deep by 1/32"; cut from '
    assert told in text_of(client)


@pytest.mark.parametrize(
    ("said", "field", "why"),
    [
        ({"where": "front edge", "long": "2", "deep": ""}, "damage-1", "how deep"),
        ({"where": "", "long": "2", "deep": "1/8"}, "damage-1", "without its place"),
        ({"where": "front edge", "long": "2", "deep": "40"}, "damage-1", "does not lie within"),
        ({"wrong": "dado-zz:wrong end"}, "wrong", "no feature"),
        ({"wrong": "dado-F11:too wide", "by": "a hair", "of": "dado-F11"}, "feature-dado-F11", "hair"),
        ({"wrong": "not in"}, "not-in", "not reported as glued up"),
        ({"wrong": "mirrored", "lost": "true"}, "lost", "as lost and as spoiled"),
        ({}, "length", "planned size"),
        ({"length": "36"}, "length", "larger than"),
    ],
)
def test_each_fault_is_said_at_its_field(client: Client, said: dict[str, str], field: str, why: str) -> None:
    answer = client.post(f"{REPAIR}/spoiled", data={"mark": "B1-L", "how": "slipped", **said})
    assert answer.status_code == 422
    page = html.unescape(answer.text)
    assert re.search(rf'id="why-{field}">[^<]*{why}', page), re.findall(r'id="why-[^<]*', page)
    assert 'value="slipped"' in page and "It is good after all" not in text_of(client)


def test_the_label_of_a_part_that_is_turned_is_printed_again(client: Client) -> None:
    """Its reference edges are others, though its size, its work and its place in the sheets are the same."""
    spoil(client, mark="B1-L", wrong="dado-F11:wrong end")
    assert "Turn B1-L" in text_of(client, "/ways/1")
    assert client.post(f"{REPAIR}/ways/1/choose", data={"place": place_of(client)}).status_code == 303
    assert "Print this label again: B1-L" in text_of(client)


def test_labels_of_pieces_that_change_places_are_printed_again(client: Client) -> None:
    assert client.get(f"{REPAIR}/labels.pdf").status_code == 404
    spoil(client, mark="B1-L", wrong="mirrored")
    assert "change places" in text_of(client, "/ways/1").lower()
    assert client.post(f"{REPAIR}/ways/1/choose", data={"place": place_of(client)}).status_code == 303
    assert "Print these labels again: B1-L B1-R" in text_of(client)
    assert client.get(f"{REPAIR}/labels.pdf").content.startswith(b"%PDF-")
    assert client.post(f"{REPAIR}/undo").status_code == 303
    assert "Print these labels again" not in text_of(client)


def test_one_feature_may_be_wrong_in_two_ways_and_a_part_of_another_sheet(
    client: Client, saved: KeptJobs
) -> None:
    page = client.get(f"{REPAIR}?mark=B1-L").text
    assert page.count('name="of" value="dado-bottom"') == 2
    form = {
        "mark": "B1-L",
        "of": ["dado-bottom", "dado-bottom"],
        "wrong": ["dado-bottom:too far", "dado-bottom:too deep", ""],
        "by": ["1/2", "1/16"],
    }
    assert client.post(f"{REPAIR}/spoiled", data=form).status_code == 303
    said = text_of(client)
    assert 'dado-bottom out of place, 1/2" too far' in said and 'dado-bottom too deep by 1/16"' in said
    sheet = {"mark": "B2-B", "own": "made of:ply", "thick": "11/16", "wrong": [""]}
    assert client.post(f"{REPAIR}/spoiled", data=sheet).status_code == 303
    assert 'cut from hardwood plywood 3/4 in, 11/16" thick' in text_of(client)
    wrong = client.post(f"{REPAIR}/spoiled", data={**sheet, "mark": "B1-B", "thick": "3"})
    assert wrong.status_code == 422
    assert re.search(r'name="thick" value="3"[^>]*aria-invalid="true"', html.unescape(wrong.text))


def test_two_parts_mixed_up_are_said_once_and_only_change_their_labels(client: Client) -> None:
    names = [
        "dado-bottom",
        "groove-back",
        "notch-toe",
        "dado-F11",
        "pins-12-right-front",
        "pins-12-right-back",
    ]
    form = {"mark": "B1-L", "cut": names, "wrong": ["mixed up with:B2-L"]}
    assert client.post(f"{REPAIR}/spoiled", data=form).status_code == 303
    said = text_of(client)
    assert "made as B2-L" in said and "made as B1-L" in said
    way = text_of(client, "/ways/1")
    assert "marked B1-L is right as B2-L" in way and "marked B2-L is right as B1-L" in way
    assert "nothing to buy" in way
    client.post(f"{REPAIR}/good/B1-L")  # it was no mix-up: both are good
    assert "made as" not in text_of(client)


def test_a_fault_in_a_sheet_takes_a_part_from_its_place_and_is_taken_back(client: Client) -> None:
    spoil(client, mark="B2-SF", length="20")  # hands the work out
    page = client.get(REPAIR).text
    assert "A fault in a sheet" in page and "<option>thin 1</option>" in page
    where = {"sheet": "thin 1", "x": "0", "y": "0", "flaw_length": "96", "flaw_width": "48"}
    wrong = client.post(f"{REPAIR}/flaw", data={**where, "x": "1"})
    assert wrong.status_code == 422 and "does not lie within the sheet" in html.unescape(wrong.text)
    assert 'name="flaw_length" value="96"' in wrong.text
    assert client.post(f"{REPAIR}/flaw", data=where).status_code == 303
    said = text_of(client)
    assert "Sheet 1 of hardwood plywood 1/4 in: a fault" in said and "No place now: B1-K B2-K" in said
    # The whole sheet is bad, and there is no other: one must be bought.
    assert "Buy 1 sheet of hardwood plywood 1/4 in" in text_of(client, "/ways/1")
    event = re.search(r'name="event" value="([^"]+)"', client.get(REPAIR).text)
    assert event is not None
    assert client.post(f"{REPAIR}/flaw/withdraw", data={"event": event[1]}).status_code == 303
    assert "No place now" not in text_of(client)
    assert client.post(f"{REPAIR}/flaw/withdraw", data={"event": event[1]}).status_code == 422


def test_a_part_cut_where_a_fault_lies_is_spoiled_with_its_damage(client: Client, saved: KeptJobs) -> None:
    spoil(client, mark="B2-SF", length="20")
    heard = record_of(saved, "larder")
    assert heard.floor is not None
    freed = sorted(cuts_to_free(heard.floor.plans, ["B1-K"]))
    plain = {"bench": "saw", "at": "", "kind": "done", "steps": freed, "id": "t1", "seq": 90}
    receive(saved.file, "larder", [plain], Unit.INCH, saved.clock())
    assert record_of(saved, "larder").state is not None
    where = {"sheet": "thin 1", "x": "0", "y": "0", "flaw_length": "96", "flaw_width": "48"}
    assert client.post(f"{REPAIR}/flaw", data=where).status_code == 303
    said = text_of(client)
    assert "B1-K is spoiled : a fault in its sheet" in said or "B1-K is spoiled: a fault in its sheet" in said
    assert "No place now: B2-K" in said
    client.post(f"{REPAIR}/good/B1-K")  # looked at again, there is no fault
    assert "No place now" not in text_of(client) and "B1-K is spoiled" not in text_of(client)
