"""`casewright backup` and `restore`, as typed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.cli.main import main
from web_bench import JOB

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def saved(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> KeptJobs:
    monkeypatch.chdir(tmp_path)
    saved = KeptJobs.open(Path("shop.casewright"))
    saved.start(JOB)
    return saved


def test_back_up_change_look_and_go_back(saved: KeptJobs, capsys: Capture) -> None:
    assert main(["backup"]) == 0
    said = capsys.readouterr().out
    copy = re.match(r"(shop-[\dT-]+\.casewright) is a whole copy of shop\.casewright", said)
    assert copy
    saved.rewrite("larder", JOB + "# later\n", "later", 1)
    assert main(["restore", copy[1]]) == 1
    said = capsys.readouterr().out
    assert re.search(r"Larder +2 .* +1 .* 1 revision would be lost", said)
    assert "Nothing was changed. To do it, add --yes." in said
    assert saved.take("larder").newest == 2
    assert main(["restore", copy[1], "--yes"]) == 0
    assert "What it held before is in before-restore-shop-" in capsys.readouterr().out
    assert saved.take("larder").newest == 1


def test_of_a_damaged_file_nothing_is_counted(saved: KeptJobs, capsys: Capture) -> None:
    """It said "revisions now 0" of each job, as if the file had held none of them."""
    assert main(["backup"]) == 0
    copy = capsys.readouterr().out.split()[0]
    for beside in Path().glob("shop.casewright-*"):
        beside.unlink()
    Path("shop.casewright").write_bytes(b"\xff" * 9000)
    assert main(["restore", copy]) == 1
    said = capsys.readouterr().out
    assert re.search(r"Larder +cannot be read +1 ", said)
    assert "shop.casewright is damaged" in said and "keeps the damaged file beside it" in said
    assert main(["restore", copy, "--yes"]) == 0
    assert saved.take("larder").newest == 1


@pytest.mark.parametrize("words", [["backup", "attic"], ["restore", "attic"]])
def test_a_file_that_is_not_there_is_named_and_not_made(
    saved: KeptJobs, capsys: Capture, words: list[str]
) -> None:
    assert main(words) == 2
    assert capsys.readouterr().err == "there is no file attic; check its name and folder.\n"
    assert not Path("attic").exists()
