"""The page of the shop's test and the card of the shop's figures: readings in, figures out, nothing lost."""

from __future__ import annotations

import html
import re

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.lengths.length import Unit
from casewright.tolerance.chains.roles import GapRole
from planned_once import planned_once
from web_bench import Client

STRIPS = {f"strip {at}": f"{width}" for at, width in enumerate((3.007, 3.009, 3.006, 3.011, 3.008), 1)}
DADOES = {"dado 1": "0.752", "dado 2": "0.749", "dado 3": "0.755"}


def text_of(answer: object) -> str:
    return html.unescape(re.sub(r"\s+", " ", str(getattr(answer, "text", ""))))


def test_the_sheet_has_a_field_for_each_blank_and_steps_in_words(client: Client) -> None:
    text = text_of(client.get("/jobs/larder/shop-test"))
    assert text.count('autocomplete="off"') == 25 and 'name="five-cut far end"' in text
    assert "push stick" in text and "No caliper readings" in text


def test_readings_are_kept_and_their_figures_shown_and_used_only_when_asked(
    client: Client, saved: KeptJobs
) -> None:
    sent = client.post("/jobs/larder/shop-test", data={**STRIPS, **DADOES, "thickness 1-1": "0.71"})
    assert sent.status_code == 303
    text = text_of(client.get("/jobs/larder/shop-test"))
    assert 'value="3.009 in"' in text and "3 readings on 3 settings" in text
    assert saved.take("larder").newest == 1, "the job is as it was"
    card = text_of(client.ask("GET", "/jobs/larder/fit/figures", htmx=True))
    assert "What your own readings say" in card and 'value="dado_packed" checked' in card
    assert 'value="fence" checked' not in card, "one setting is too few"
    used = client.post("/jobs/larder/fit/figures", data={"based_on": "1", "use": ["cut", "thickness"]})
    assert used.status_code == 303
    values = saved.take("larder").worked.values
    assert set(values["shop"]["deviations"]) == {"cut"}
    assert values["materials"]["ply"]["readings"] == [0.71]


@pytest.mark.parametrize(
    ("reading", "why"),
    [
        ("76.2", "would fit as mm"),
        ("3 stone", "“stone”"),
        ("30", "Read it again"),
        ("1" * 200, "strip 2"),
    ],
)
def test_a_reading_that_cannot_be_right_is_marked_and_every_field_stays(
    client: Client, saved: KeptJobs, reading: str, why: str
) -> None:
    sent = client.post("/jobs/larder/shop-test", data={**STRIPS, "strip 2": reading})
    text = text_of(sent)
    assert sent.status_code == 422 and "Not saved yet" in text and why in text
    assert 'value="3.006"' in text and f'value="{reading[:60]}"' in text
    assert "No caliper readings" in text, "nothing of the sheet is kept"


def test_a_blank_that_the_sheet_has_not_is_told_above_it(client: Client) -> None:
    sent = client.post("/jobs/larder/shop-test", data={"stripe": "3"})
    assert sent.status_code == 422 and "no line of this name" in text_of(sent)


def test_choosing_nothing_changes_nothing(client: Client, saved: KeptJobs) -> None:
    client.post("/jobs/larder/shop-test", data=DADOES)
    assert client.post("/jobs/larder/fit/figures", data={"based_on": "1"}).status_code == 303
    assert client.post("/jobs/larder/fit/figures", data={"based_on": "1", "use": "fence"}).status_code == 303
    assert saved.take("larder").newest == 1


def test_dry_fits_are_ticked_on_the_page_and_predictions_then_go_by_them(
    client: Client, saved: KeptJobs
) -> None:
    text = saved.take("larder").revision.text
    number = 0
    for job in ("larder", saved.start(text).id):  # one shop makes both
        hand_out(saved.file, job, 1, planned_once(text).plans, f"issue {job}", saved.clock())
        floor = read_record(saved.file, job).floor
        assert floor is not None
        dadoes = [gap.key for gap in floor.fit.gaps.values() if gap.role is GapRole.OWN_DADO]
        taps = [
            {
                "id": f"{job} {at}",
                "bench": "saw",
                "seq": at,
                "kind": "dry-fit",
                "joint": joint,
                "how": "eased",
            }
            for at, joint in enumerate(dadoes, 1)
        ]
        assert not receive(saved.file, job, taps, Unit.INCH, saved.clock()).refused
        number += len(dadoes)
    assert number >= 20
    card = text_of(client.ask("GET", "/jobs/larder/fit/figures", htmx=True))
    assert 'value="dry fits: dado" checked' in card and "from now on" in card
    used = client.post("/jobs/larder/fit/figures", data={"based_on": "1", "use": ["dry fits: dado"]})
    assert used.status_code == 303
    written = saved.take("larder").worked.values["shop"]["dry_fits"]["dado"]
    assert written["happened"] == [0, 0, number, 0]
    assert f"(by your {number} dry fits)" in text_of(client.get("/jobs/larder/fit"))
