"""`casewright backup` and `restore`, as typed."""

from __future__ import annotations

import re
import signal
import subprocess
import sys
from pathlib import Path
from urllib.request import urlopen

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.cli.main import main
from casewright.store.serving import served_by
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


def test_a_file_that_is_served_is_not_replaced_and_the_process_is_named(
    saved: KeptJobs, capsys: Capture
) -> None:
    assert main(["backup", "--out", "copy"]) == 0
    saved.rewrite("larder", JOB + "# later\n", "later", 1)
    serve = [sys.executable, "-m", "casewright.cli", "serve", "shop.casewright", "--port", "0"]
    with subprocess.Popen([*serve, "--no-browser"], stderr=subprocess.PIPE, text=True) as server:
        try:
            assert server.stderr is not None
            address = re.search(r"http://\S+", server.stderr.readline())
            assert address
            with urlopen(address[0], timeout=60) as answer:
                assert answer.status == 200
            capsys.readouterr()
            assert main(["restore", "copy"]) == 1, "looking does no harm"
            assert main(["restore", "copy", "--yes"]) == 2
            said = capsys.readouterr().err
            assert f"as process {server.pid}: stop that first with Ctrl-C in its terminal" in said
            assert saved.take("larder").newest == 2
        finally:
            server.send_signal(signal.SIGKILL)
    assert main(["restore", "copy", "--yes"]) == 0
    assert saved.take("larder").newest == 1
    assert not list(Path().glob("*-served-by-*"))


def test_the_process_that_serves_the_file_may_replace_it_itself(saved: KeptJobs) -> None:
    with saved.being_served():
        assert main(["backup", "--out", "copy"]) == 0
        saved.rewrite("larder", JOB + "# later\n", "later", 1)
        assert len(served_by(saved.file.path)) == 1
        assert main(["restore", "copy", "--yes"]) == 0
        assert len(served_by(saved.file.path)) == 1, "looking ended no lock"
    assert served_by(saved.file.path) == () and saved.take("larder").newest == 1
