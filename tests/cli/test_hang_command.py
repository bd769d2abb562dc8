"""`casewright hang`: the hanging page in a terminal, and as JSON."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from bearing.hung_jobs import hung, on_studs
from casewright.app.jobs.worked_job import WorkedJob
from casewright.cli.main import main

Said = Callable[..., tuple[int, str]]

STUDS = hung('framing = { kind = "wood studs", studs = [8, 24, 40, 54] }')


@pytest.fixture
def said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Said:
    def run(job: WorkedJob, *words: str) -> tuple[int, str]:
        file = tmp_path / "job.toml"
        file.write_text(job.text, encoding="utf-8")
        code = main(["hang", str(file), *words])
        return code, capsys.readouterr().out

    return run


def test_all_that_the_sheet_says_is_printed(said: Said) -> None:
    job = on_studs('left_gaps = ["1/4", "3/4"]', 'wall_gaps = ["1/2", 0, "1/4"]')
    code, text = said(job)
    sheet = job.borne.hanging_sheet
    (row,), (scribe,) = sheet.rows, sheet.scribes
    for line in (*sheet.cautions, *sheet.method, *sheet.assumptions, row.title, row.level, row.verdict):
        assert line and line in text, line
    for line in (row.drills, row.first, row.shims, *row.joins, scribe.words, scribe.file):
        assert line and line in text, line
    for case in row.cases:
        assert f"{case.mark}: {case.lift}." in text and "  ".join(case.marks) in text
    assert "does not reach the wall" in text and code == 1


@pytest.mark.parametrize(("job", "code"), [(STUDS, 0), (hung(), 1)], ids=["meets", "unknown wall"])
def test_as_json_with_the_exit_code_of_the_answer(said: Said, job: WorkedJob, code: int) -> None:
    came, text = said(job, "--json")
    assert came == code
    assert json.loads(text) == json.loads(json.dumps(job.borne.hanging_sheet.plain()))


def test_a_job_that_cannot_be_built_is_refused(tmp_path: Path) -> None:
    assert main(["hang", str(tmp_path / "none.toml")]) == 2
