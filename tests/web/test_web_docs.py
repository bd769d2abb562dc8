"""The page about the web app names every page there is."""

from __future__ import annotations

import re
from pathlib import Path

from casewright.web.routes import modules, tabs

DOCS = Path(__file__).parents[2] / "docs" / "web.md"


def test_every_page_of_a_job_is_described() -> None:
    text = DOCS.read_text(encoding="utf-8")
    assert [tab.words for tab in tabs() if f"| {tab.words} |" not in text] == []


def test_every_test_that_the_page_on_security_names_is_there() -> None:
    """Each point that is met has one; what it is about is for the reader to judge."""
    table = (DOCS.parent / "security.md").read_text(encoding="utf-8").split("\n## ")[0]
    rows = [row for row in table.splitlines() if row.startswith("| V")]
    assert len(rows) > 20
    for row in rows:
        named = re.findall(r"`(tests/[\w/]+\.py)`", row.rsplit("|", 2)[1])
        assert named and all((DOCS.parents[1] / path).is_file() for path in named), row


def test_every_topic_has_a_router_and_a_page_of_its_own() -> None:
    assert all(hasattr(module, "router") for module in modules())
    assert len({tab.path for tab in tabs()}) == len(tabs())
