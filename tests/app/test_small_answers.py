"""Small answers that once were wrong: sizes of sheets to buy, forms with an unknown choice."""

from __future__ import annotations

import csv
from dataclasses import replace
from fractions import Fraction as F
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

import casewright
from casewright.app.jobs.worked_job import open_job
from casewright.app.new_job.examples import example, examples
from casewright.app.new_job.from_opening import job_in_opening
from casewright.app.sheets.plan_news import to_buy
from casewright.app.sheets.plan_text import plan_words
from casewright.app.sheets.sheets_page import sheets_view
from casewright.errors import JobError
from casewright.jobfile.write.write_job import write_job
from casewright.packet.csv_tables import buying_csv
from casewright.packet.pages.buying_page import buying_page
from casewright.planner.plan import Figures, Plan, PlanStatus
from casewright.shop.materials import Offcut, OtherSize
from casewright.store.job_rows import NoSuchJob
from job_texts import ALCOVE
from samples import job, spec


def test_the_examples_come_with_the_package() -> None:
    """They were read from beside the source, so an installed casewright offered none."""
    kept = {path.stem for path in Path(casewright.__file__).parent.glob("examples/*.toml")}
    assert {one.key for one in examples()} == kept >= {"pottery-studio", "ferry-canteen"}
    assert example("ferry-canteen").startswith("#")
    with pytest.raises(NoSuchJob, match="no example 'boat'"):
        example("boat")


@pytest.mark.parametrize(("unit", "kind", "wrong"), [("yard", "base", "yard"), ("in", "boat", "boat")])
def test_an_unknown_choice_is_refused_by_name(unit: str, kind: str, wrong: str) -> None:
    with pytest.raises(JobError, match=wrong) as raised:
        job_in_opening("Loft", unit, "90", kind)
    assert all(finding.fix.startswith("Write “") for finding in raised.value.findings)


def test_a_plan_of_which_nothing_is_proved_says_so() -> None:
    figures = Figures(3, F(240), F(0), F(0), 4, 9, 2, F(1, 2))
    plan = Plan((), F(0), 0, PlanStatus.OPEN, figures)
    assert plan.statement() == "3 sheets; how many are needed is not proved yet."
    assert "at least 2 are needed" in replace(plan, bound=F(160), bound_sheets=2).statement()


def test_every_size_of_sheet_to_buy_is_named() -> None:
    """Two whole sheets hold less than is wanted and one strip is too much for the rest."""
    half = OtherSize("half sheet", F(48), F(48), F(45))
    sample = job(spec("B1", width=F(30)), spec("B2", width=F(30)))
    sheets = {**sample.sheets, "ply": replace(sample.sheets["ply"], others=(half,))}
    planned = open_job(write_job(replace(sample, sheets=sheets))).planned(0.5)
    of_ply = [one for one in planned.purchases if one.material == "ply" and one.sheets]
    shown = next(one for one in sheets_view(planned) if one.name == "birch ply")
    assert of_ply
    for one in of_ply:
        assert f"{one.sheets} sheet" in shown.buy
        assert f"{float(one.money):.2f}" in shown.buy
    assert shown.buy.count(" and ") == len(of_ply) - 1


@pytest.mark.parametrize(
    ("name", "asked_for"),
    [("half sheet", "birch ply (half sheet)"), ("birch ply, cut at the yard", "birch ply, cut at the yard")],
)
def test_a_second_size_names_its_material_wherever_it_is_bought(name: str, asked_for: str) -> None:
    sample = job(spec("B1", width=F(30)))
    other = OtherSize(name, F(96), F(60), F(1))  # the cheap size is what is bought
    sheets = {**sample.sheets, "ply": replace(sample.sheets["ply"], others=(other,))}
    planned = open_job(write_job(replace(sample, sheets=sheets))).planned(0.5)
    listed = buying_csv(planned.project, planned.purchases, planned.worked.hardware).decode()
    page: Any = buying_page(planned.project, planned.plans, planned.purchases, planned.worked.hardware)
    assert asked_for in [row["what"] for row in csv.DictReader(StringIO(listed, newline=""))]
    assert asked_for in [line["name"] for line in page["lines"]]
    assert any(line.what.startswith(f"{asked_for}, ") for line in planned.costs.lines)
    assert f" of {asked_for}" in to_buy(planned)
    (bought,) = (one for one in planned.costs.lines if one.what.startswith(f"{asked_for}, "))
    assert not bought.follows.startswith("0 %"), "its share in parts is that of its own sheets"


def test_a_sheet_that_is_an_offcut_off_the_rack_says_which() -> None:
    sample = job(spec("B1", width=F(30)))
    shelf = Offcut("behind the door", "ply", F(40), F(30))
    racked = replace(sample, shop=replace(sample.shop, rack=(shelf,)))
    planned = open_job(write_job(racked)).planned(0.3)
    used = [sheet.bin for sheet in planned.plans["ply"].sheets]
    shown = next(one for one in sheets_view(planned) if one.name == "birch ply")
    assert "behind the door" in used
    for name, picture in zip(used, shown.pictures, strict=True):
        assert picture.title.endswith(", cut from behind the door") == (name == "behind the door")


def test_a_rack_piece_that_stays_there_is_said_once_with_the_plan_and_on_the_page() -> None:
    rack = '\n[[shop.rack]]\nname = "behind the door"\nmaterial = "ply"\nlength = 13\nwidth = 3\n'
    job = open_job(ALCOVE + rack).planned(0.1)
    assert plan_words(job).count("Not used: behind the door.") == 1
    assert [view.buy.count("Not used: behind the door.") for view in sheets_view(job)] == [1, 0]
