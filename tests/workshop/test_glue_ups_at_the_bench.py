"""Solid door panels glued up from strips: steps and words, plan and papers, buying, and another one."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.papers.packet_files import packet_of
from casewright.app.repair.mishap import Mishap, repair_task
from casewright.app.repair.repair_page import look
from casewright.app.sheets.boards_page import boards_view
from casewright.app.sheets.plan_file import plan_json, plan_record_of
from casewright.app.sheets.plan_text import plan_words
from casewright.boards.board_faults import board_plan_faults
from casewright.cli.main import main
from casewright.packet.cut_places import cut_places, places_text
from casewright.packet.leaves import Leaves, Moment
from casewright.packet.shop_packet import packet_data
from casewright.record.plan_of_record import record_from_plain, record_to_plain
from casewright.workshop.operations import Machine, Operation, OperationKind
from casewright.workshop.order.step_times import Pace, effort_of
from loft_job import LOFT
from parlor_job import PARLOR

PANELS = {"B1-DO1P": 3, "B2-DO1P": 4, "B2-DO2P": 4}


@cache
def parlor() -> PlannedJob:
    return open_job(PARLOR).planned(0.2)


def steps_of(mark: str) -> list[Operation]:
    """The operations on a part up to its size, in the order in which they are done."""
    keys = [one.key for one in parlor().ordered.operations]
    mine = [one for one in parlor().work.by_part[mark] if one.key.startswith("panel")]
    return sorted(mine, key=lambda one: keys.index(one.key))


def test_wide_panels_are_no_longer_refused_but_planned_in_strips() -> None:
    worked = parlor().worked
    assert not [one for one in worked.findings if one.code.startswith("part-needs")]
    problem, plan = worked.board_problems["panel"], worked.board_plans["panel"]
    assert board_plan_faults(problem, plan) == [] and plan.unplaced == ()
    assert {mark: len(strips) for mark, strips in plan.glued.items()} == PANELS
    assert worked.board_plans["maple"].glued == {}


@pytest.mark.parametrize("mark", PANELS)
def test_a_panel_goes_from_rough_board_to_size_in_the_order_of_the_bench(mark: str) -> None:
    kinds = list(dict.fromkeys(one.kind for one in steps_of(mark)))
    assert kinds == [
        OperationKind.ROUGH_CROSSCUT,
        OperationKind.JOINT,
        OperationKind.ROUGH_RIP,
        OperationKind.PLANE,
        OperationKind.EDGE_PAIRS,
        OperationKind.GLUE_PANEL,
        OperationKind.FLUSH,
        OperationKind.RIP,
        OperationKind.CROSSCUT,
    ]
    *_, pairs, glued, level, rip, crosscut = steps_of(mark)
    length, width, thick = parlor().project.dimensions(parlor().project.parts[mark])
    assert (crosscut.makes, rip.makes) == (length, width)
    # Over length and over width until then, and planed thicker by what leveling takes.
    assert glued.size == (
        length + 1,
        width + parlor().worked.board_problems["panel"].milling.over_width,
        parlor().project.dimensions(parlor().project.parts[mark])[2] * 9 / 8,
    )  # 9/32 of 1/4
    assert rip.size[2] == thick and pairs.size[1] > width / PANELS[mark]
    assert level.setting.machine is Machine.BENCH, "17 in is wider than a planer takes"


def test_a_narrow_panel_is_leveled_in_the_planer() -> None:
    planned = open_job(PARLOR.replace("width = 18", "width = 15")).planned(0.2)
    (level,) = [one for one in planned.work.operations if one.key == "panel panel B1-DO1P flushing"]
    assert (
        level.setting.machine is Machine.PLANER
        and level.makes == planned.project.dimensions(planned.project.parts["B1-DO1P"])[2]
    )
    told = {step.key: batch for batch in planned.told for step in batch.steps}
    assert any("planer" in caution.text for caution in told[level.key].cautions)


def test_strips_stay_at_their_thickness_while_the_others_of_the_wood_go_on() -> None:
    """A panel 6 in wide comes in one piece of the same boards: thick first, then thin, a setting each."""
    planned = open_job(PARLOR.replace("width = 18", "width = 10")).planned(0.2)
    assert "B1-DO1P" not in planned.board_plans["panel"].glued
    planed = [
        one for one in planned.told if one.title == "Plane to thickness" and one.steps[0].piece == "panel"
    ]
    assert [[line for line in one.setting if line.startswith("To ")] for one in planed] == [
        ['To 9/32" in the end.'],
        ['To 1/4" in the end.'],
    ]
    assert ["to be glued up" in one.steps[0].hold for one in planed] == [True, False]


def test_the_words_name_strips_clamps_and_thicknesses() -> None:
    told = {one.title: one for one in parlor().told}
    said = {step.piece: step.hold for step in told["Glue up panels"].steps}
    assert said["glued-up B1-DO1P"].startswith("B1-DO1Pa, b, c: 3 clamps; comes out")
    planed = [one for one in parlor().told if one.title == "Plane to thickness"]
    assert ['To 9/32" in the end.' in one.setting for one in planed] == [True, False]
    number = len([strip for _, _, strip in parlor().board_plans["panel"].strips() if strip.is_glued])
    assert f"{number} strips, to be glued up" in planed[0].steps[0].hold
    assert any("label" in line for line in told["Glue up panels"].setting)
    pairs = told["Joint the edges of strips in pairs"]
    assert any("jointer" in caution.text for caution in pairs.cautions) and len(pairs.steps) == len(PANELS)
    level = told["Level glued-up panels"]
    assert any("dust" in caution.text for caution in level.cautions)
    rips = " ".join(step.hold for one in parlor().told if "rough width" in one.title for step in one.steps)
    for strips in parlor().board_plans["panel"].glued.values():
        assert all(strip in rips for strip in strips)
    # Only what is not glued up is jointed once more on its own.
    (again,) = told["Joint an edge of each strip again"].steps
    assert again.piece == "maple"


def test_gluing_up_and_leveling_take_their_minutes() -> None:
    pace, by_key = Pace(), parlor().work.by_key
    glue, level = (by_key[f"panel panel B1-DO1P {step}"] for step in ("glue-up", "flushing"))
    assert pace.minutes(effort_of(glue)) == 20 and 10 < pace.minutes(effort_of(level)) < 15


def test_plan_page_and_packet_show_the_strips() -> None:
    words = plan_words(parlor())
    assert "glue up B1-DO1P from 3 strips (B1-DO1Pa, b, c)" in words and "B2-DO1Pd" in words
    said = json.dumps(plan_json(parlor()))
    assert '"mark": "B1-DO1Pa"' in said and '"strip_of": "B1-DO1P"' in said
    pictures = "".join(one.svg for view in boards_view(parlor()) for one in view.pictures)
    data: Any = packet_data(packet_of(parlor(), leaves=Leaves((Moment.BOARDS,))))
    on_paper = json.dumps(data, default=str)
    for strips in parlor().board_plans["panel"].glued.values():
        assert all(strip in pictures for strip in strips)
    assert "Glue up panels" in on_paper and "Level glued-up panels" in on_paper
    places = cut_places(parlor().ordered)
    assert places_text(PANELS, places).startswith("glued up, step ")
    assert places["B1-DO1P"].sheet == "glued up"


def test_the_plan_of_record_keeps_strips_and_an_older_casewright_refuses_it() -> None:
    record = plan_record_of(parlor())
    plain = record_to_plain(record)
    assert plain["layout"] == 3 and record_from_plain(plain, "here").boards == record.boards
    assert record_to_plain(plan_record_of(open_job(LOFT).planned(0.2)))["layout"] == 2


def test_boards_to_buy_for_panels_can_be_named(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    (tmp_path / "parlor.toml").write_text(PARLOR)
    assert main(["boards", str(tmp_path / "parlor.toml"), "--lots", "10"]) == 0
    said = capsys.readouterr().out
    assert "hard maple, panels: Buy at least" in said and "No amount" not in said


def test_another_panel_is_glued_up_from_as_many_strips() -> None:
    first = look(repair_task(parlor(), Mishap(spoiled=["B2-DO1P"]))).lines[0]
    assert "Glue up B2-DO1P again from 4 strips, rough" in first.steps[1]
    assert "board, clear, at least" in first.steps[0]


def test_plan_kept_where_wider_boards_come_to_hand(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Strips that are cut stay strips, whatever board is entered afterwards."""
    job = tmp_path / "parlor.toml"
    job.write_text(PARLOR)
    assert main(["plan", str(job), "--seconds", "0.2"]) == 0
    wide = """
[[materials.panel.boards.at_hand]]
name = "wide"
length = 60
width = 20
"""
    job.write_text(PARLOR.replace("\n[made_of]", f"{wide}\n[made_of]"))
    capsys.readouterr()
    assert main(["plan", str(job), "--seconds", "0.2", "--keep"]) == 0
    said = capsys.readouterr().out
    assert (
        "glue up B1-DO1P from 3 strips (B1-DO1Pa, b, c)" in said and "at hand" not in said.split("panels")[1]
    )
