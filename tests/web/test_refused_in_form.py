"""A refusal on the page stands at its field, and the field says so to assistive software."""

from __future__ import annotations

import html
import re

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from web_bench import Client

MARKED = r'<(?:input|select|textarea)[^>]*name="{name}"[^>]*>'

KINDS = [
    ("materials", "materials.ply.readings", "0.7; soon"),
    ("materials", "materials.ply.price", "soon"),
    ("materials", "materials.ply.grain", "soon"),  # a choice
    ("cases/B1", "runs.0.cases.0.width", "0 shares"),
    ("cases/B1", "runs.0.cases.0.bays.0.adjustable", "two"),
    ("settings", "notes", "\x07"),  # several lines
]


@pytest.mark.parametrize(("path", "name", "typed"), KINDS)
def test_a_refused_field_is_marked_and_described_by_its_refusal(
    client: Client, path: str, name: str, typed: str
) -> None:
    """Also where no script runs: the page comes back whole."""
    answer = client.post(f"/jobs/larder/{path}", data={name: typed, "based_on": "1"})
    assert answer.status_code == 422
    (field,) = re.findall(MARKED.format(name=re.escape(name)), answer.text)
    assert 'aria-invalid="true"' in field
    (described,) = re.findall(r'aria-describedby="([^"]*)"', field)
    assert f"why-{name}" in described.split()
    (why,) = re.findall(rf'<div class="why" id="why-{re.escape(name)}"[^>]*>([^<]+)', answer.text)
    assert why.strip()
    assert answer.text.count('aria-invalid="true"') == 1  # and no other


@pytest.mark.parametrize(("path", "name", "typed"), KINDS)
def test_the_short_answer_puts_the_refusal_at_its_field(
    client: Client, path: str, name: str, typed: str
) -> None:
    """The page's script marks each field whose `why` is filled (static/js/edit/answered.js)."""
    answer = client.post(f"/jobs/larder/{path}", data={name: typed, "based_on": "1"}, htmx=True)
    filled = re.findall(r'<div class="why" id="why-([^"]*)" hx-swap-oob="true">[^<]', answer.text)
    assert filled == [name]


READINGS = "materials.ply.readings"


def test_a_reading_that_stands_apart_is_asked_about_before_it_is_kept(
    client: Client, saved: KeptJobs
) -> None:
    """0.732 in, which is 18.6 mm, among readings of 0.695 in: the question of the shop screen."""
    typed = "0.695; 0.696; 0.732; 0.695"
    for htmx in (True, False):
        answer = client.post("/jobs/larder/materials", data={READINGS: typed, "based_on": "1"}, htmx=htmx)
        assert answer.status_code == 422
        page = html.unescape(answer.text)
        (why,) = re.findall(rf'id="why-{re.escape(READINGS)}"[^>]*>([^<]+)', page)
        assert "0.732 in stands apart" in why.replace("\N{NO-BREAK SPACE}", " ")
        assert f'<button name="sure:{READINGS}" value="{typed}">' in page
    assert saved.take("larder").newest == 1
    # Sure of other readings is not sure of these.
    other = {READINGS: typed, f"sure:{READINGS}": "0.695; 0.696; 0.731; 0.695", "based_on": "1"}
    assert client.post("/jobs/larder/materials", data=other, htmx=True).status_code == 422
    sent = {READINGS: typed, f"sure:{READINGS}": typed, "based_on": "1"}
    assert client.post("/jobs/larder/materials", data=sent, htmx=True).status_code == 200
    assert "0.732" in saved.take("larder").revision.text
    # It is kept, and a warning from now on; another entry of the form is not held up by it.
    price = {"materials.ply.price": "90", "based_on": "2"}
    assert client.post("/jobs/larder/materials", data=price, htmx=True).status_code == 200


def test_readings_that_lie_together_are_kept_unasked(client: Client) -> None:
    sent = {READINGS: "0.695; 0.696; 0.705; 0.695", "based_on": "1"}
    assert client.post("/jobs/larder/materials", data=sent, htmx=True).status_code == 200
