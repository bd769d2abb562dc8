"""A refusal on the page stands at its field, and the field says so to assistive software."""

from __future__ import annotations

import re

import pytest

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
