"""`casewright shelves`: the list of shelves in a terminal, and as JSON."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from bearing.loaded_jobs import WALL_CASE, borne_by, text
from casewright.cli.main import main

PINS = f"{WALL_CASE}\nbays = [{{ adjustable = 2 }}]"


@pytest.mark.parametrize(("holds", "code"), [("linen", 0), ("tinned food", 1)])
def test_every_shelf_is_printed(
    holds: str, code: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file, job_text = tmp_path / "job.toml", text(PINS, holds=f'holds = "{holds}"')
    file.write_text(job_text, encoding="utf-8")
    sheet = borne_by(job_text).shelf_sheet
    assert main(["shelves", str(file)]) == code
    said = capsys.readouterr().out
    for one in sheet.shelves:
        line = next(line for line in said.splitlines() if f"{one.what}: {', '.join(one.marks)}" in line)
        for part in (one.verdict, one.span, one.at_once, one.after_years, one.allowed, one.load, one.section):
            assert part in line
        assert f"Held against {one.figure}, under the assumptions below:" in said
        assert one.fix in said
    assert all(f"- {line}" in said for line in sheet.assumptions)
    assert main(["shelves", str(file), "--json"]) == code
    assert json.loads(capsys.readouterr().out) == json.loads(json.dumps(sheet.plain()))


def test_a_job_without_shelves_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "job.toml"
    bare = 'kind = "base"\nwidth = 33\nheight = 34\ndepth = 24\nbays = [{}]'
    file.write_text(text(bare, run=""), encoding="utf-8")
    assert main(["shelves", str(file)]) == 0
    assert capsys.readouterr().out == "This job has no shelves.\n"
