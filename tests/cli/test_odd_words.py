"""Words that mean nothing are refused in one sentence, whatever they are, and spoil no file."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from casewright.app.papers.label_files import LONGEST
from casewright.app.papers.write_whole import write_whole
from casewright.cli.main import main
from casewright.errors import CasewrightError
from example_files import example_file

STUDIO = example_file("pottery-studio")
Capture = pytest.CaptureFixture[str]

# Words as a command line can hold them: no null character, and bytes that are no text as surrogates.
words = st.text(
    st.characters(exclude_characters="\0", exclude_categories=[]) | st.sampled_from("\udc80\udcff"),
    min_size=1,
    max_size=30,
).filter(lambda word: not word.startswith("-"))
commands = st.sampled_from(
    [
        ("explain", STUDIO, "WORD"),
        ("steps", STUDIO, "--part=WORD"),
        ("labels", STUDIO, "--part=WORD"),
        ("labels", STUDIO, "--on=WORD"),
        ("labels", STUDIO, "--part=B1-L", "--out=.", "--address=WORD"),
        ("put-right", STUDIO, "--plan=WORD"),
        ("check", "WORD"),
        ("parts", "WORD"),
        ("breakdown", "WORD"),
        ("new", "never-written.toml", "--opening=90", "--name=WORD\udcff"),
        ("new", "no-such-folder/job.toml", "--opening=90", "--name=WORD"),
    ]
)


@settings(deadline=None, max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(commands, words)
def test_no_word_brings_a_command_down(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture, command: tuple[str, ...], word: str
) -> None:
    monkeypatch.chdir(tmp_path)
    try:
        code = main([part.replace("WORD", word) for part in command])
    except SystemExit as refused:  # by the parser itself
        code = refused.code if isinstance(refused.code, int) else 1
    said = capsys.readouterr()
    assert code == 2, ascii(said.err)
    assert ascii(said.err.strip()) != "''"
    assert not any(tmp_path.iterdir())


def test_an_unknown_part_is_refused_before_the_sheets_are_planned(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("casewright.app.sheets.plan_search.plan_problems", None)
    assert main(["steps", STUDIO, "--part", "B1-LL"]) == 2
    assert "Did you mean “B1-L”" in capsys.readouterr().err


def test_a_seed_below_nothing_is_refused_in_words(capsys: Capture) -> None:
    """It was a fault of the program's own: numpy takes no such seed."""
    with pytest.raises(SystemExit) as ended:
        main(["plan", STUDIO, "--seed=-1"])
    assert ended.value.code == 2
    assert "'-1' is not a whole number" in capsys.readouterr().err


def test_an_address_too_long_for_a_label_is_refused(capsys: Capture, tmp_path: Path) -> None:
    out = tmp_path / "labels.pdf"
    argued = ["labels", STUDIO, "--part", "B1-L", "--out", str(out), "--address"]
    assert main([*argued, "x" * LONGEST]) == 2
    assert f"it is {LONGEST + 4} characters long" in capsys.readouterr().err and not out.exists()
    assert main([*argued, "x" * (LONGEST - 4)]) == 0
    assert out.read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize("name", ["x" * 81, " ", "half \udcff"])
def test_a_name_that_will_not_do_is_not_said_to_be_a_narrow_opening(name: str, capsys: Capture) -> None:
    assert main(["new", "never-written.toml", "--opening", "90", "--name", name]) == 2
    said = capsys.readouterr().err
    assert said.startswith("name: ") and said.count("\n") == 1


def test_a_terminal_without_the_sign_still_gets_its_answer(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "casewright.cli", "steps", STUDIO, "--seconds", "0.1"],
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        capture_output=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    assert rb"\xd7" in done.stdout


def test_what_is_there_is_kept_until_all_of_the_new_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "labels.pdf"
    file.write_bytes(b"old")

    def full(path: Path, content: bytes) -> int:
        path.touch()
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", full)
        with pytest.raises(CasewrightError, match="No space left"):
            write_whole(str(file), b"new")
    assert file.read_bytes() == b"old" and list(tmp_path.iterdir()) == [file]
    with pytest.raises(CasewrightError, match="already exists"):
        write_whole(str(file), b"new", over=False)
    assert file.read_bytes() == b"old"
    write_whole(str(file), b"new")
    assert file.read_bytes() == b"new" and list(tmp_path.iterdir()) == [file]


def test_a_link_is_written_through_and_a_pipe_is_not_replaced(tmp_path: Path) -> None:
    real, link = tmp_path / "real", tmp_path / "link"
    real.write_bytes(b"old")
    link.symlink_to(real)
    write_whole(str(link), b"new")
    assert link.is_symlink() and real.read_bytes() == b"new"
    write_whole(os.devnull, b"nothing")
    assert not Path(os.devnull).is_file()


def test_a_refusal_without_findings_has_the_same_shape_in_json(capsys: Capture) -> None:
    assert main(["put-right", STUDIO, "--choose", "1", "--json"]) == 2
    (finding,) = json.loads(capsys.readouterr().out)["findings"]
    assert set(finding) == {"code", "weight", "place", "text", "fix", "line", "column"}
    assert "must be used together" in finding["text"]
