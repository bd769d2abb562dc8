"""The pages of costs: the sums, the quote where all has a price, other ways beside the job."""

from __future__ import annotations

import re

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.app.money.told_costs import told_costs
from priced_box import BOX, PRICES
from web_bench import Client

COSTS = "/jobs/larder/costs"


def rewrite(client: Client, saved: KeptJobs, text: str) -> None:
    saved.rewrite("larder", text, "another job", saved.take("larder").newest)
    client.get("/jobs/larder/sheets")
    client.get("/jobs/larder/sheets/progress")


def test_the_page_says_every_sum_and_leads_to_the_quote(client: Client, saved: KeptJobs) -> None:
    rewrite(client, saved, BOX + PRICES)
    page = client.get(COSTS).text
    told = told_costs(open_job(BOX + PRICES).planned(0.1))
    for words, money in told.sums:
        assert words in page and money in page
    assert client.get("/jobs/larder/papers/quote.pdf").content.startswith(b"%PDF")
    assert "/jobs/larder/papers/quote.pdf" in page


def test_without_prices_the_page_says_what_lacks_them(client: Client, saved: KeptJobs) -> None:
    rewrite(client, saved, BOX)
    page = client.get(COSTS).text
    assert "enter screw in [costs]" in page and "quote.pdf" not in page
    assert client.get("/jobs/larder/papers/quote.pdf").status_code == 404


def test_another_way_is_built_with_one_tap(client: Client, saved: KeptJobs) -> None:
    rewrite(client, saved, BOX + PRICES)
    client.get(f"{COSTS}/other-ways")
    client.get(f"{COSTS}/other-ways/progress")
    page = client.get(f"{COSTS}/other-ways").text
    assert "As it is" in page and "120 × 60 to choose from" in page
    based_on = re.search(r'name="based_on" value="(\d+)"', page)
    assert based_on
    answer = client.post(f"{COSTS}/other-ways/1", data={"based_on": based_on[1]})
    assert (answer.status_code, answer.headers["location"]) == (303, COSTS)
    assert "120" in saved.take("larder").worked.text
    assert client.post(f"{COSTS}/other-ways/7", data={"based_on": based_on[1]}).status_code == 404


def test_a_price_is_entered_in_the_form_and_a_wrong_one_stays_there(client: Client, saved: KeptJobs) -> None:
    rewrite(client, saved, BOX)
    newest = str(saved.take("larder").newest)
    client.post("/jobs/larder/prices", data={"based_on": newest, "costs.screw": "0.08"})
    text = saved.take("larder").worked.text
    assert "screw = 0.08" in text
    newest = str(saved.take("larder").newest)
    answer = client.post("/jobs/larder/prices", data={"based_on": newest, "costs.markup": "120"})
    assert "not a percentage" in answer.text and saved.take("larder").worked.text == text
