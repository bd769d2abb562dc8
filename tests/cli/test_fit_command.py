"""`casewright fit` says what may not close, what helps, and what a measurement breaks."""

from __future__ import annotations

import json
import re
from pathlib import Path
from statistics import NormalDist
from xml.etree import ElementTree as ET

import pytest

from casewright.cli.main import main
from example_files import example_file
from web_bench import JOB

STUDIO = example_file("pottery-studio")
Capture = pytest.CaptureFixture[str]


def said(capsys: Capture, *words: str, code: int = 0) -> str:
    assert main(["fit", STUDIO, *words]) == code
    return capsys.readouterr().out


def test_the_job_in_a_sentence_then_each_case_with_its_shares_and_diagonal(capsys: Capture) -> None:
    found = json.loads(said(capsys, "--json"))
    chances = [gap["chance"] for gap in found["gaps"]]
    assert chances == sorted(chances, reverse=True) and min(chances) > 0.01
    assert [case["place"] for case in found["cases"]][:2] == ["B1", "B2"]
    for case in (found["job"], *found["cases"]):
        shares = [case[name] for name in ("by_hand", "clamp", "ease", "recut")]
        assert sum(shares) == pytest.approx(1) and min(*shares, case["shown"]) >= 0
        assert case["recut"] < 0.02
    text = said(capsys)
    assert text.startswith(found["job"]["sentence"]) and "diagonal" in text
    assert len(text.splitlines()) < 30


def test_a_lower_limit_shows_more_gaps_and_one_case_shows_all_of_its_own(capsys: Capture) -> None:
    strict = json.loads(said(capsys, "--limit", "0.1", "--json"))["gaps"]
    loose = json.loads(said(capsys, "--limit", "20%", "--json"))["gaps"]
    assert len(strict) > len(loose)
    own = json.loads(said(capsys, "--case", "B1", "--json"))["gaps"]
    assert {gap["name"].partition(":")[0] for gap in own} == {"B1"}
    assert any(gap["chance"] < 0.001 for gap in own)


def test_advice_comes_with_the_minutes_it_takes_and_saves(capsys: Capture) -> None:
    found = json.loads(said(capsys, "--advice", "--json"))
    assert set(found) == {"doubt", "advice", "whole", "assumed", "others", "minutes_now", "minutes_then"}
    assert found["minutes_then"] <= found["minutes_now"]
    text = said(capsys, "--advice")
    for number, one in enumerate(found["advice"], 1):
        assert f"{number}. {one['text']}\n   {one['gain']}\n" in text
        assert one["saves"] >= one["takes"] + 1 and one["gain"].startswith("Takes ")
        assert {"clamp", "shown", "ease", "recut"} < set(one)
    assert len(found["advice"]) <= 6
    assert text.endswith(f"{found['whole']}\n{found['assumed']}\n")


def test_a_reading_comes_with_its_tool_its_moment_and_its_blank(capsys: Capture, tmp_path: Path) -> None:
    """In a shop whose cutter heights and fence stray."""
    job = tmp_path / "stray.toml"
    job.write_text(f"{JOB}\n[shop.deviations]\nheight = 0.03\nfence = 0.06\n", encoding="utf-8")
    assert main(["fit", str(job), "--measure", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["measure"]
    for one in found["measure"]:
        assert one["tool"] in ("rule", "caliper", "tape", "depth gauge") and "before" in one["when"]
        assert one["saves"] >= one["takes"] + 1
    assert main(["fit", str(job), "--measure"]) == 0
    printed = capsys.readouterr().out
    first = found["measure"][0]
    assert printed.startswith(f"1. Measure {first['what']}, by {first['tool']}, {first['when']}.\n")
    assert f"   Write it {first['write_on']}. {first['gain']}\n" in printed
    assert printed.endswith(f"{found['whole']}\n{found['assumed']}\n")
    assert "No reading is entered yet of hardwood plywood 1/4 in." in found["assumed"]


def test_two_sides_cut_wide_are_trimmed_or_the_bottom_made_again(capsys: Capture) -> None:
    words = ["--cut", "B1-L,B1-R,B1-B", "--read", "B1-L.width=24 1/16", "--read", "B1-R.width=24 1/16"]
    text = said(capsys, *words, code=1)
    assert 'either trim 2 sides (B1-L, B1-R) 1/16" narrower' in text
    assert 'or remake the bottom B1-B 1/16" wider' in text


def test_the_doubt_is_said_first_and_then_the_joints_with_the_reading_and_without(capsys: Capture) -> None:
    lines = said(capsys, "--cut", "B1-L", "--read", "B1-L.width=24 3/4", code=1).splitlines()
    assert lines[0].startswith('B1-L.width: B1-L width measures 24 3/4", 3/4" wider')
    assert lines[1] == "If the reading of B1-L.width is right, this no longer closes:"
    assert lines[3:5] == ["If not, everything still closes.", "If it is right, any one of these mends it:"]
    words = ["--sure", "--read", "maple.thickness=0.78 caliper"]
    closes = "With the reading of maple.thickness and without, everything still closes."
    assert said(capsys, *words, code=1).splitlines()[1:] == [closes]
    found = json.loads(said(capsys, *words, "--json", code=1))
    assert found["doubted"] == ["maple.thickness"] and found["broken"] == found["without"] == []


def test_a_sheet_s_reading_that_stands_apart_is_the_first_thing_said(capsys: Capture, tmp_path: Path) -> None:
    job = tmp_path / "apart.toml"
    text = Path(STUDIO).read_text(encoding="utf-8")
    job.write_text(text.replace("[0.709, 0.712, 0.707, 0.710]", "[0.709, 0.712, 0.750]"), encoding="utf-8")
    doubt = "0.750 in stands apart: the middle reading of maple plywood 3/4 is 0.712 in."
    shares = {}
    for words in ([], ["--measure"], ["--advice"]):
        assert main(["fit", str(job), "--seconds", "0.2", *words]) == 0
        shares[tuple(words)] = capsys.readouterr().out.splitlines()[0]
    assert all(first.startswith(doubt) for first in shares.values())
    with_it, without = shares[()].split("with it: of 9 cases, ")[1].split(" Without it: ")
    assert with_it != without and with_it.startswith("by hand") and without.startswith("by hand")


def test_a_good_measurement_breaks_nothing(capsys: Capture) -> None:
    assert said(capsys, "--cut", "B1-L", "--read", "B1-L.width=24 rule") == "Everything still closes.\n"


@pytest.mark.parametrize(
    ("words", "question"),
    [
        (
            ["--read", "B1-L.length=345"],
            'B1-L.length: 34 1/2" was planned; 345 is ten times that. Did you mean 34 1/2?',
        ),
        (["--read", "maple.thickness=17.9 caliper"], "17.9 cannot be a sheet of maple plywood 3/4"),
        (["--diagonals", "B1", "478", "47 5/8"], '47 3/4" was planned; 478 is ten times that'),
    ],
)
def test_what_looks_like_a_slip_is_asked_about_and_used_only_with_sure(
    words: list[str], question: str, capsys: Capture
) -> None:
    assert main(["fit", STUDIO, *words]) == 2
    told = capsys.readouterr()
    assert question in told.err and "add --sure to use it as typed" in told.err and not told.out
    assert main(["fit", STUDIO, *words, "--sure"]) in (1, 2)
    assert question not in capsys.readouterr().err


def test_three_readings_of_a_sheet_are_held_against_each_other(capsys: Capture) -> None:
    words = [w for said in ("0.70", "0.71", "0.74") for w in ("--read", f"maple.thickness={said}")]
    assert main(["fit", STUDIO, *words]) == 2
    assert "0.74 stands apart" in capsys.readouterr().err


def test_a_picture_of_a_gap_is_written_as_svg(capsys: Capture, tmp_path: Path) -> None:
    target = tmp_path / "gap.svg"
    assert said(capsys, "--picture", "B1: B1-K in the groove of B1-R", str(target)).endswith(
        f"is drawn in {target}.\n"
    )
    root = ET.fromstring(target.read_bytes())
    assert root.tag.endswith("svg")
    assert any("wanted" in (element.text or "") for element in root.iter())


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--read", "B1-L.width"], "no = between"),
        (["--read", "B1-L.width=long"], "Write it as B1-L.length = 34 1/2"),
        (
            ["--read", "B1-Q.width=3"],
            "the job has no size with this name. Did you mean “B1-R.width”",
        ),
        (["--read", "B1.raising=50"], "“B1.rising”"),
        (["--cut", "B1-Q"], "the job has no part with this mark. Did you mean"),
        (["--case", "Z9"], "the job has no case or run with this name. Write “B1”, “B2”"),
        (["--picture", "nothing", "x.svg"], "the job has no gap with this name. Write one like “B1: B1-B in"),
    ],
)
def test_what_cannot_be_done_is_refused_in_a_sentence(
    words: list[str], sentence: str, capsys: Capture
) -> None:
    assert main(["fit", STUDIO, *words]) == 2
    told = capsys.readouterr()
    assert sentence in told.err and "Traceback" not in told.err and not told.out


@pytest.mark.parametrize("limit", ["0", "100", "some", "-3"])
def test_a_limit_that_is_no_chance_is_refused(limit: str, capsys: Capture) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["fit", STUDIO, f"--limit={limit}"])
    assert ended.value.code == 2
    assert "is not a chance" in capsys.readouterr().err


def test_a_grade_that_the_dados_play_misses_is_named_with_the_play_that_mends_it(
    capsys: Capture, tmp_path: Path
) -> None:
    job = tmp_path / "premium.toml"
    text = Path(STUDIO).read_text(encoding="utf-8")
    job.write_text(text.replace('unit = "in"', 'unit = "in"\ngrade = "premium"', 1), encoding="utf-8")
    assert main(["fit", str(job), "--seconds", "0.2"]) == 0
    first = capsys.readouterr().out.splitlines()[0]
    assert "in grade premium a gap in sight may be 0.016 in, and each dado is cut 0.016 in wider" in first
    assert "With dado_play = 0.008 in it would be: by hand" in first
    now, then = (int(share) for share in re.findall(r"gap or step in (\d+) %", first))
    assert now > 2 * then
    assert main(["fit", str(job), "--advice"]) == 0
    assert capsys.readouterr().out.startswith("1. Make each dado 0.008 in wider than the panel in it")
    assert "dado_play" not in said(capsys).splitlines()[0]


def test_advice_and_readings_of_one_case_speak_of_that_case_alone(capsys: Capture) -> None:
    whole = json.loads(said(capsys, "--advice", "--json"))
    for words in ("--advice", "--measure"):
        assert "In B2, clamping, easing and filling" in said(capsys, words, "--case", "B2")
    alone = json.loads(said(capsys, "--advice", "--case", "B2", "--json"))
    assert 0 < alone["minutes_now"] < whole["minutes_now"]
    assert {one["gap"].partition(":")[0] for one in alone["advice"]} <= {"B2"}


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--advice", "--measure"], "--advice and --measure: each asks for an answer of its own"),
        (["--case", "B1", "--read", "B1-L.width=24"], "--read and --case: each"),
        (["--measure", "--cut", "B1-L"], "--cut and --measure: each"),
    ],
)
def test_two_questions_at_once_are_refused(words: list[str], sentence: str, capsys: Capture) -> None:
    assert main(["fit", STUDIO, *words]) == 2
    assert sentence in capsys.readouterr().err


def test_the_range_wanted_is_the_one_its_shares_speak_of(capsys: Capture) -> None:
    """What lies outside it is what does not go in by hand or shows: counted by the mean and the 99 in 100."""
    found = json.loads(said(capsys, "--case", "W2", "--json"))["gaps"]
    (gap,) = [one for one in found if one["name"] == "W2: W2-D1 in the dado of W2-B"]
    (least, most), (low, high) = (
        [float(end) for end in one.removesuffix(" in").split(" to ")] for one in (gap["wanted"], gap["usual"])
    )
    spread = NormalDist((low + high) / 2, (high - low) / 2 / NormalDist().inv_cdf(0.995))
    assert spread.cdf(least) == pytest.approx(gap["outcome"]["clamp"] + gap["outcome"]["ease"], abs=0.005)
    assert 1 - spread.cdf(most) == pytest.approx(gap["outcome"]["shown"], abs=0.005)
