"""The commands say what they did, refuse in one sentence, and end with the documented code."""

from __future__ import annotations

import argparse
import json
import re
import subprocess
import sys
from fractions import Fraction as F
from importlib import import_module
from io import BytesIO, TextIOWrapper
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from casewright.cli import main as command
from casewright.cli.main import COMMANDS, main
from casewright.cli.stopping import STOPPED
from casewright.errors import JobError, LibraryError
from casewright.lengths.length import Unit, parse_length
from example_files import example_file
from job_texts import ALCOVE, mutated

ROOT = Path(__file__).parents[2]
STUDIO = example_file("pottery-studio")
FERRY = example_file("ferry-canteen")
Capture = pytest.CaptureFixture[str]


def loaded_for(*commands: str) -> dict[str, str]:
    """The modules that a fresh process loads to show these helps, each with its file."""
    script = """
import sys
before = set(sys.modules)
from casewright.cli.main import main
for words in sys.argv[1:]:
    try:
        main(words.split())
    except SystemExit as ended:
        assert ended.code == 0
for name in sorted(set(sys.modules) - before):
    print("loaded", name, getattr(sys.modules[name], "__file__", None), sep="|")
"""
    done = subprocess.run(
        [sys.executable, "-c", script, *commands], capture_output=True, text=True, check=True, timeout=60
    )
    lines = [line.split("|") for line in done.stdout.splitlines() if line.startswith("loaded|")]
    return {name: file for _, name, file in lines}


def test_help_comes_without_loading_what_the_commands_need() -> None:
    """A count of work in place of a clock: none of the libraries, none of the core."""
    loaded = loaded_for("--help")
    assert {name for name in loaded if name.startswith("casewright")} == {
        "casewright",
        "casewright.cli",
        "casewright.cli.main",
        "casewright.cli.stopping",
        "casewright.errors",
        "casewright.findings",
    }
    assert "fractions" not in loaded
    assert len(loaded) < 80


def test_the_help_of_a_command_comes_without_loading_what_it_needs_to_run() -> None:
    loaded = loaded_for(*(f"{name} --help" for name in COMMANDS))
    assert "casewright.cli.arguments.plan_arguments" in loaded
    assert [name for name, file in loaded.items() if "site-packages" in file] == []
    assert [name for name in loaded if name.startswith("casewright.cli.commands")] == []
    assert len(loaded) < 140


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_teaches_with_an_example(name: str, capsys: Capture) -> None:
    with pytest.raises(SystemExit) as ended:
        main([name, "--help"])
    assert ended.value.code == 0
    said = capsys.readouterr().out
    assert "for example" in said and f"casewright {name}" in said.split("for example")[1]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_example_in_a_help_text_can_be_parsed(name: str) -> None:
    module = import_module(f"casewright.cli.arguments.{name.replace('-', '_')}_arguments")
    parser = argparse.ArgumentParser()
    module.add_arguments(parser)
    example = re.sub(r" \\\n +", " ", module.EXAMPLE)
    lines = [line.strip() for line in example.splitlines() if line.startswith("  casewright")]
    assert lines
    for line in lines:
        shown = re.split(r" \| | > |  +", line)[0]
        words = [one or two for one, two in re.findall(r'"([^"]*)"|(\S+)', shown)]
        assert words[:2] == ["casewright", name]
        parser.parse_args(words[2:])


def test_as_a_program_it_checks_a_job_from_a_pipe() -> None:
    text = Path(STUDIO).read_bytes().replace(b"width = 33", b"width = 27 3/8", 1)
    done = subprocess.run(
        [sys.executable, "-m", "casewright.cli", "check", "-"],
        input=text,
        capture_output=True,
        timeout=60,
    )
    assert done.returncode == 2
    line = text[: text.index(b"27 3/8\n")].count(b"\n") + 1
    assert f"line {line}, width: “27 3/8” is missing its quotes.".encode() in done.stdout


@pytest.mark.parametrize("path", [STUDIO, FERRY], ids=["studio", "ferry"])
def test_a_sound_job_is_said_to_be_so(path: str, capsys: Capture) -> None:
    assert main(["check", path]) == 0
    assert capsys.readouterr().out.endswith("parts: the job can be built as written.\n")
    assert main(["check", path, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    # What shelves do in years, and how cases stand until they are fixed to the wall, is always told.
    assert told["status"] == "fine" and {one["weight"] for one in told["findings"]} <= {"note"}


def test_a_case_that_cannot_be_is_told_by_its_line(tmp_path: Path, capsys: Capture) -> None:
    text = Path(STUDIO).read_text(encoding="utf-8").replace('fixed = ["12 1/4"]', "fixed = [40]")
    job = tmp_path / "job.toml"
    job.write_text(text, encoding="utf-8")
    assert main(["check", str(job), "--json"]) == 2
    told = json.loads(capsys.readouterr().out)
    assert told["status"] == "refused"
    found = [finding for finding in told["findings"] if finding["code"] == "shelves-too-high"]
    assert [text.splitlines()[finding["line"] - 1].startswith("bays = ") for finding in found] == [True]


def test_a_part_no_sheet_holds_is_told_before_the_plan(tmp_path: Path, capsys: Capture) -> None:
    job = tmp_path / "job.toml"
    text = Path(STUDIO).read_text(encoding="utf-8").replace("ceiling = 108", "ceiling = 140")
    job.write_text(text.replace("[tall]\nheight = 84", "[tall]\nheight = 100"), encoding="utf-8")
    assert main(["check", str(job)]) == 2
    said = capsys.readouterr().out
    told = 'T1-L: T1-L, T1-R, T2-L and 2 more, up to 100" long, fit no sheet of maple plywood 3/4'
    assert re.search(rf"line \d+, {told}", said)
    assert main(["plan", str(job), "--seconds", "0.2"]) == 1


def test_a_left_over_opening_is_a_warning(tmp_path: Path, capsys: Capture) -> None:
    job = tmp_path / "job.toml"
    text = Path(STUDIO).read_text(encoding="utf-8").replace('width = "rest"', "width = 26", 1)
    job.write_text(text, encoding="utf-8")
    assert main(["check", str(job)]) == 1
    said = capsys.readouterr().out
    assert "of the opening is left over" in said and "the job can be built" in said


def test_parts_are_listed_once_each(capsys: Capture) -> None:
    assert main(["parts", STUDIO, "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    marks = [mark for row in rows for mark in row["marks"]]
    assert len(marks) == len(set(marks)) == sum(row["count"] for row in rows)
    sides = next(row for row in rows if "B1-L" in row["marks"])
    assert {"B1-L", "B1-R", "B2-L"} <= set(sides["marks"]) and sides["exact"][:2] == ["69/2", "24"]
    # B4 has other shelves, so its sides have other dados: one size, but not cut alike.
    other = next(row for row in rows if "B4-R" in row["marks"])
    assert other is not sides and other["exact"] == sides["exact"]
    assert main(["parts", STUDIO]) == 0
    assert re.search(r'^side +3 +34 1/2" +24" .* B1-L B1-R B2-L$', capsys.readouterr().out, re.MULTILINE)


def test_a_size_says_where_it_comes_from(capsys: Capture) -> None:
    assert main(["explain", STUDIO, "B1-B.length"]) == 0
    said = capsys.readouterr().out
    assert said.startswith("B1-B.length: B1-B length ") and 'B1 width 33"' in said
    assert main(["explain", STUDIO, "B1-B.length", "-d", "30", "--json"]) == 0
    (reason,) = json.loads(capsys.readouterr().out)
    assert {leaf["name"] for leaf in leaves(reason)} == {"B1.width", "maple.thickness", "job.dado_depth"}
    assert F(reason["exact"]) == 33 - 2 * F(2838, 4000) + F(1, 2)


def leaves(reason: dict[str, Any]) -> list[dict[str, Any]]:
    inner = reason["because"]
    return [leaf for one in inner for leaf in leaves(one)] if inner else [reason]


def test_a_count_is_not_said_in_inches(capsys: Capture) -> None:
    assert main(["explain", STUDIO, "B1.pins11"]) == 0
    assert re.search(r"steps in pin rows 11 of B1 \d+ = as many as fit, from ", capsys.readouterr().out)


def test_a_name_that_is_none_is_answered_with_the_nearest(capsys: Capture) -> None:
    assert main(["explain", STUDIO, "B1-Bottom"]) == 2
    assert "Did you mean" in capsys.readouterr().err


def test_a_plan_says_what_is_proved(capsys: Capture) -> None:
    assert main(["plan", FERRY, "--seconds", "0.4"]) == 0
    said = capsys.readouterr()
    assert "birch plywood 18\n" in said.out and " mm by 1250 mm" in said.out
    assert main(["plan", FERRY, "--again", "--seconds", "0.4", "--json", "--progress"]) == 0
    said = capsys.readouterr()
    told = json.loads(said.out)
    assert main(["plan", FERRY, "--seed", "3"]) == 0
    assert "for --seed to count, add --again" in capsys.readouterr().err
    assert main(["plan", FERRY]) == 0
    later = capsys.readouterr()
    assert later.out.startswith(f"Plan {told['plan']}\n") and later.err == ""
    assert set(told["materials"]) == {"birch", "white", "thin", "panel", "decor", "drawers"}
    bought = {one["material"]: one for one in told["buy"]}
    for key, answer in told["materials"].items():
        from_rack = sum(bought[key]["from_rack"].values())
        assert bought[key]["sheets"] + from_rack == len(answer["sheets"])
        assert bought[key]["money"] == pytest.approx(bought[key]["sheets"] * bought[key]["price"])
    assert "birch plywood 18: " in said.err


def test_the_printed_schema_is_the_published_one(capsys: Capture) -> None:
    assert main(["schema"]) == 0
    published = ROOT / "src" / "casewright" / "jobfile" / "schema.json"
    assert capsys.readouterr().out == published.read_text(encoding="utf-8")


BAD_FILES = [
    (b"\xff\xfe\x00", "not UTF-8 text"),
    (b"job = ", "cannot be read"),
    (b"", "“job” is missing"),
    (b"[" * 5000, "cannot be read"),
]


@pytest.mark.parametrize("name", ["parts", "plan", "explain"])
@pytest.mark.parametrize(("text", "why"), BAD_FILES, ids=["bytes", "cut short", "empty", "brackets"])
def test_a_bad_file_gets_a_sentence(
    name: str, text: bytes, why: str, tmp_path: Path, capsys: Capture
) -> None:
    job = tmp_path / "job.toml"
    job.write_bytes(text)
    words = [name, str(job), *(["B1"] if name == "explain" else []), "--json"]
    assert main(words) == 2
    said = capsys.readouterr()
    assert why in said.err and "Traceback" not in said.err
    told = json.loads(said.out)
    assert told["status"] == "refused" and all(finding["fix"] for finding in told["findings"])


@pytest.mark.parametrize("name", ["no-such-file.toml", ".", "\x00", "x" * 5000])
def test_a_file_that_is_not_there_gets_a_sentence(name: str, capsys: Capture) -> None:
    assert main(["check", name, "--json"]) == 2
    (finding,) = json.loads(capsys.readouterr().out)["findings"]
    assert finding["code"] == "file" and finding["fix"]


def test_standard_input_that_is_no_text_gets_a_sentence(
    monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setattr(sys, "stdin", TextIOWrapper(BytesIO(b"\xff")))
    assert main(["parts", "-"]) == 2
    assert "standard input: the input is not UTF-8 text." in capsys.readouterr().err


@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(words=st.lists(st.text(max_size=8), max_size=5))
def test_any_words_at_all_end_with_a_known_code(capsys: Capture, words: list[str]) -> None:
    lists = [one for one in (words, ["check", *words], ["explain", STUDIO, *words], ["plan", *words]) if one]
    for one in lists:
        try:
            code = main(one)
        except SystemExit as ended:
            code = int(ended.code or 0)
        assert code in (0, 1, 2)
        assert "Traceback" not in capsys.readouterr().err


@settings(deadline=None, max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=mutated())
def test_no_command_stumbles_over_a_faulty_job(tmp_path: Path, capsys: Capture, text: str) -> None:
    job = tmp_path / "job.toml"
    job.write_text(text, encoding="utf-8", newline="")
    codes = [main([name, str(job)]) for name in ("check", "parts")]
    codes.append(main(["plan", str(job), "--seconds", "0"]))
    assert set(codes) <= {0, 1, 2}
    assert codes[1] != 2 or codes[0] == 2, "what cannot be listed is refused by the check too"
    assert "Traceback" not in capsys.readouterr().err


def test_a_fault_of_the_program_is_owned_up_to(monkeypatch: pytest.MonkeyPatch, capsys: Capture) -> None:
    def broken(arguments: argparse.Namespace) -> int:
        raise ZeroDivisionError("none left")

    monkeypatch.setattr(import_module("casewright.cli.commands.parts_command"), "run", broken)
    assert main(["parts", STUDIO]) == command.OWN_FAULT
    said = capsys.readouterr().err
    assert "because of a bug (ZeroDivisionError: none left)" in said and "Traceback" not in said
    assert main(["--trace", "parts", STUDIO]) == command.OWN_FAULT
    assert "Traceback" in capsys.readouterr().err


def test_a_library_that_fails_is_named_and_is_no_fault_of_the_input(
    monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    def broken(arguments: argparse.Namespace) -> int:
        raise LibraryError("HiGHS", "ordering the settings", "kError")

    monkeypatch.setattr(import_module("casewright.cli.commands.parts_command"), "run", broken)
    assert main(["parts", STUDIO]) == command.OWN_FAULT
    assert capsys.readouterr().err == "HiGHS failed while ordering the settings: kError.\n"
    assert main(["--trace", "parts", STUDIO]) == command.OWN_FAULT
    assert "Traceback" in capsys.readouterr().err


def test_a_new_job_checks_clean(tmp_path: Path, capsys: Capture) -> None:
    path = str(tmp_path / "work-room.toml")
    assert main(["new", path, "--opening", "10' 4 1/2"]) == 0
    assert main(["check", path]) == 0
    assert main(["new", path, "--opening", "90"]) == 2
    assert "already exists" in capsys.readouterr().err
    assert main(["new", path, "--opening", "90", "--force"]) == 0
    assert "opening = 90\n" in Path(path).read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ([], "How wide is the opening?"),
        (["--opening", "wide"], "holds no number"),
        (["--opening", "-3"], "is not a width"),
        (["--opening", "1"], "“1” is too narrow for one case"),
        (["--opening", "20", "--cases", "40"], "too narrow for 40 cases of kind base. Ask for 2 or fewer."),
    ],
    ids=["nothing", "no length", "negative", "narrow", "many"],
)
def test_a_new_job_that_cannot_be_is_not_written(
    words: list[str], why: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setattr(sys, "stdin", TextIOWrapper(BytesIO(b"")))
    path = tmp_path / "job.toml"
    assert main(["new", str(path), *words]) == 2
    assert why in capsys.readouterr().err
    assert not path.exists()


def test_a_new_job_asks_for_what_it_must_know(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    answers = iter(["yards", "mm", "2.62 m", ""])
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr("builtins.input", lambda question: next(answers))
    path = tmp_path / "mess.toml"
    assert main(["new", str(path)]) == 0
    written = path.read_text(encoding="utf-8")
    assert 'unit = "mm"' in written and "opening = 2620\n" in written and 'job = "mess"' in written


@settings(deadline=None, max_examples=15)
@given(
    st.sampled_from(["base", "wall", "tall", "open"]),
    st.sampled_from(list(Unit)),
    st.integers(9 * 64, 200 * 64).map(lambda marks: F(marks, 64)),
    st.text(st.characters(exclude_categories=("Cc", "Cs")), min_size=1, max_size=20).filter(str.strip),
)
def test_a_new_job_fills_any_opening(kind: str, unit: Unit, opening: F, name: str) -> None:
    from casewright.app.new_job.new_job_file import Wish, new_job
    from casewright.jobfile.read.read_job import read_job

    said = f"{float(opening)} in"
    try:
        begun = new_job(Wish(name, unit, said, kind))
    except JobError as refused:
        raise AssertionError(str(refused)) from None
    asked = {"wall-to-ask-about", "shelf-sags", "sags-in-years", "tips-when-open"}
    assert {finding.code for finding in begun.worked.all_findings} <= asked
    job = read_job(begun.text)
    assert job.runs[0].opening == parse_length(said, unit) and job.name == name


def test_the_manual_has_every_command_and_no_other() -> None:
    manual = (ROOT / "docs" / "commands.md").read_text(encoding="utf-8")
    assert set(re.findall(r"(?m)^## ([\w-]+)$", manual)) == set(COMMANDS)
    codes = {command.FINE, command.LOOK, command.BAD_INPUT, command.OWN_FAULT, STOPPED}
    assert {int(code) for code in re.findall(r"(?m)^\| (\d+) \|", manual)} == codes


@pytest.mark.parametrize("command", ["plan", "packet", "steps", "savings"])
def test_nothing_is_planned_for_a_job_that_cannot_be_built(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two runs in each other's way, as `check` says: no sheet is to be cut for them."""
    file = tmp_path / "alcove.toml"
    over = '\n[[runs]]\nname = "over"\nopening = 60\nlift = 20\nceiling = 97\n'
    over += '[[runs.cases]]\nmark = "W1"\nkind = "wall"\n'
    file.write_text(ALCOVE + over, encoding="utf-8")
    assert main(["check", str(file)]) == 2
    said = capsys.readouterr().out
    assert main([command, str(file)]) == 2
    told = capsys.readouterr()
    assert "Raise lift" in said and said.splitlines()[0] in told.err
    assert [one.name for one in tmp_path.iterdir()] == ["alcove.toml"]
