"""docs/planner.md names files that are there."""

from __future__ import annotations

import re
from pathlib import Path

import casewright.planner as package

FOLDER = Path(package.__file__).parent
PAGE = FOLDER.parents[2] / "docs" / "planner.md"


def test_every_file_that_the_page_names_is_in_the_planner() -> None:
    named = re.findall(r"`([a-z_/]+\.(?:py|c))`", PAGE.read_text())
    assert len(named) > 10
    files = {path.name for path in FOLDER.rglob("*") if path.suffix in {".py", ".c"}}
    assert not sorted({Path(name).name for name in named} - files)
