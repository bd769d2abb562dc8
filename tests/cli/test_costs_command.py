"""`casewright costs`: the table, the quote, and jobs beside each other."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from pypdf import PdfReader

from casewright.cli.main import main
from job_texts import EXAMPLES
from priced_box import BOX, PRICES

FAST = ("--seconds", "0.1")


@pytest.fixture
def box(tmp_path: Path) -> Path:
    file = tmp_path / "box.toml"
    file.write_text(BOX + PRICES, encoding="utf-8")
    return file


def beside(box: Path, name: str, text: str) -> str:
    file = box.with_name(name)
    file.write_text(text, encoding="utf-8")
    return str(file)


def test_the_table_ends_in_the_quote(box: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["costs", str(box), *FAST]) == 0
    said = capsys.readouterr().out
    sums = [line.split("  ")[-1].strip() for line in said.splitlines() if line.startswith("Quote")]
    assert main(["costs", str(box), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert sums == [f"${found['quote']:,.2f}"] and found["complete"]
    assert found["quote"] == pytest.approx(
        sum(line["money"] for line in found["lines"]) + found["markup"], abs=0.001
    )
    assert "24 % of it is in parts" in said and "$96.00" in said


def test_what_has_no_price_ends_with_one_and_no_quote(
    box: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    bare = beside(box, "bare.toml", BOX)
    assert main(["costs", bare, *FAST]) == 1
    said = capsys.readouterr().out
    assert "Not priced, so that every sum lacks it" in said and "enter screw in [costs]" in said
    quote = tmp_path / "quote.pdf"
    assert main(["costs", bare, "--quote", str(quote)]) == 2
    assert "no quote is written while something has no price" in capsys.readouterr().err
    assert not quote.exists()


def test_the_quote_says_the_cases_and_one_sum(
    box: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """Nothing of the shop's own is on it: no hours, no markup, no price of a sheet."""
    quote = tmp_path / "quote.pdf"
    assert main(["costs", str(box), *FAST, "--quote", str(quote), "--json"]) == 0
    sum_asked = json.loads(capsys.readouterr().out)["quote"]
    text = " ".join("".join(page.extract_text() for page in PdfReader(quote).pages).split())
    assert f"${sum_asked:,.2f}" in text and "Valid until" in text
    assert 'Open case, 24" wide, 24" high, 12" deep' in text
    assert text.count("$") == 1
    for inner in ("hour", "arkup", "96.00", "glue", "sharpen", "screw"):
        assert inner not in text
    assert main(["costs", str(box), "--quote", str(quote)]) == 2
    assert "already exists" in capsys.readouterr().err


def test_three_jobs_stand_beside_each_other(box: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The same box is the same in every figure; one a foot longer takes more, and says of what."""
    same = beside(box, "same.toml", BOX + PRICES)
    longer = beside(
        box,
        "longer.toml",
        (BOX + PRICES).replace("width = 24", "width = 36").replace("opening = 24", "opening = 36"),
    )
    assert main(["costs", str(box), *FAST, "--against", same, longer, "--json"]) == 0
    first, second, third = json.loads(capsys.readouterr().out)
    assert {**first, "name": same} == second
    assert third["quote"] > first["quote"] and third["pounds"] > first["pounds"]
    assert "2 parts are of another size" in third["otherwise"]
    assert main(["costs", str(box), "--against", same, longer]) == 0
    said = capsys.readouterr().out.splitlines()
    assert any(line.startswith("quote") and line.count("$") == 3 for line in said)
    assert "  nothing else is otherwise" in said and "  2 parts are of another size" in said


@pytest.mark.parametrize("example", ["ferry-canteen", "school-workshop"])
def test_an_example_with_prices_comes_to_a_quote(
    example: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "job.toml"
    file.write_text((EXAMPLES / f"{example}.toml").read_text(encoding="utf-8"), encoding="utf-8")
    assert main(["costs", str(file), *FAST]) == 0
    said = capsys.readouterr().out
    assert "not priced" not in said and "Quote, as far as priced" not in said


def test_no_more_than_three_and_none_that_cannot_be_built(
    box: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["costs", str(box), "--against", "a", "b", "c"]) == 2
    assert "compare with at most 2" in capsys.readouterr().err
    quote = box.with_name("quote.pdf")
    assert main(["costs", str(box), "--against", "a", "--quote", str(quote)]) == 2
    assert "--quote writes the quote of one job" in capsys.readouterr().err and not quote.exists()
    broken = beside(box, "broken.toml", BOX.replace("width = 24", "width = 30"))
    assert main(["costs", str(box), *FAST, "--against", broken]) == 2
    assert "30" in capsys.readouterr().err
