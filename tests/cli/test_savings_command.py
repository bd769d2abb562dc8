"""`casewright savings`: what it prints, and that a change that is chosen gives what was promised."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from casewright.cli.main import main
from job_texts import ALCOVE

DEEP = ALCOVE.replace(
    "[[runs]]", '[base]\ndepth = "24 1/4"\n\n[shop.carry]\nweight = 200\nlength = 120\n\n[[runs]]', 1
)


@pytest.fixture
def job(tmp_path: Path) -> Path:
    file = tmp_path / "alcove.toml"
    file.write_text(DEEP, encoding="utf-8")
    return file


def test_a_chosen_change_is_written_with_the_plan_that_keeps_its_promise(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    other = job.with_name("shallower.toml")
    said = ["savings", str(job), "--json", "--seconds", "0.5", "--choose", "1", "--out", str(other)]
    assert main(said) == 0
    first = json.loads(capsys.readouterr().out)["savings"][0]
    assert "deep in place of 24 1/4" in first["what"] and 'depth = "' in other.read_text(encoding="utf-8")
    buys = [
        sum(line["money"] for line in json.loads(file.read_text(encoding="utf-8"))["buy"])
        for file in (job.with_suffix(".plan.json"), other.with_suffix(".plan.json"))
    ]
    assert buys[0] - buys[1] == first["money"] > 0
    assert main(["plan", str(other)]) == 0
    assert "Made plan" not in capsys.readouterr().err  # the plan that was kept stands


def test_a_line_is_printed_for_each_saving_with_what_it_touches(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["savings", str(job), "--seconds", "0.5"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("1. base cases ") and "fewer, 96.00" in lines[0]
    assert lines[1].startswith("   (") and "come out at another size" in lines[1]


def test_a_number_that_is_not_on_the_list_is_refused(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = job.with_name("other.toml")
    said = ["savings", str(job), "--seconds", "0.5", "--choose", "99", "--out", str(other)]
    assert main(said) == 2
    assert "--choose 99: choose a number from the list" in capsys.readouterr().err
    assert not other.exists()
