"""What the saws cannot do is said before the first cut."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import pytest

from casewright.app.jobs.job_file import load
from casewright.app.jobs.worked_job import open_job
from casewright.casework.project import draw_up
from casewright.findings import Weight
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.workshop.operations import Machine
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.work import Work, shop_findings, work
from samples import SHOP, job

STUDIO = Path(__file__).parents[2] / "examples" / "pottery-studio.toml"


def worked(cut_length: F) -> Work:
    shop = replace(SHOP, hand_saw=replace(SHOP.hand_saw, cut_length=cut_length))
    project = draw_up(replace(job(), shop=shop))
    plans = {key: solve(problem, MaxIterations(20)) for key, problem in cut_problems(project).items()}
    return work(project, plans)


def test_a_cut_longer_than_the_straightedge_is_said_once_with_every_sheet_it_is_in() -> None:
    by_hand = [cut for cut in worked(F(100)).operations if cut.setting.machine is Machine.HAND_SAW]
    longest = max(cut.travel for cut in by_hand)
    assert "beyond-the-straightedge" not in {finding.code for finding in worked(longest).findings}
    short = [one for one in worked(longest - F(1, 16)).findings if one.code == "beyond-the-straightedge"]
    assert [finding.weight for finding in short] == [Weight.WARN]
    pieces = {cut.piece for cut in by_hand if cut.travel == longest}
    assert pieces == set(short[0].place.split(", "))
    every = [one for one in worked(F(1)).findings if one.code == "beyond-the-straightedge"]
    assert f"{len(by_hand)} cuts are up to" in every[0].text


@pytest.mark.parametrize(
    ("blade_height", "said"), [(F(23, 32), ["ply"]), (F(1, 8), ["ply", "thin"]), (F(3), [])]
)
def test_a_sheet_as_thick_as_the_blade_stands_high_is_said(blade_height: F, said: list[str]) -> None:
    shop = replace(SHOP, table_saw=replace(SHOP.table_saw, blade_height=blade_height))
    found = [
        one for one in shop_findings(draw_up(replace(job(), shop=shop))) if one.code == "beyond-the-blade"
    ]
    assert [finding.place for finding in found] == [f"materials.{key}" for key in said]


def test_the_check_names_the_line_of_the_sheet_the_blade_is_too_low_for() -> None:
    text = load(str(STUDIO)).replace("[shop.table_saw]", '[shop.table_saw]\nblade_height = "1/2"')
    found = [one for one in open_job(text).all_findings if one.code == "beyond-the-blade"]
    assert found
    for finding in found:
        assert finding.line is not None
        assert text.splitlines()[finding.line - 1] == f"[{finding.place}]"
