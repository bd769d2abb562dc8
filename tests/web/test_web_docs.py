"""The page about the web app names every page there is."""

from __future__ import annotations

from pathlib import Path

from casewright.web.routes import modules, tabs

DOCS = Path(__file__).parents[2] / "docs" / "web.md"


def test_every_page_of_a_job_is_described() -> None:
    text = DOCS.read_text(encoding="utf-8")
    assert [tab.words for tab in tabs() if f"| {tab.words} |" not in text] == []


def test_every_topic_has_a_router_and_a_page_of_its_own() -> None:
    assert all(hasattr(module, "router") for module in modules())
    assert len({tab.path for tab in tabs()}) == len(tabs())
