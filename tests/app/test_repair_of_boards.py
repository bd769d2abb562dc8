"""A spoiled part of rough boards is put right: on the command line, in the shop, and taken back again."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.identities import identity
from casewright.app.editing.forms import materials_form
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.repair.mishap import Mishap, repair_task
from casewright.app.repair.repair_page import FoundWays, look
from casewright.app.repair.repair_pictures import way_scenes
from casewright.app.repair.repair_record import amiss, in_turn, record_of, task_of, write_on
from casewright.app.repair.shop_repair import choose, labels_of_choice, undo_choice
from casewright.app.repair.spoiled_report import Report, report
from casewright.app.sheets.kept_plans import StoreShelf
from casewright.app.sheets.made_already import MadeAlready
from casewright.app.shop.shop_floor import BenchRecord, hand_out
from casewright.boards.board_faults import board_plan_faults
from casewright.cli.main import main
from casewright.errors import JobError
from casewright.record.events import Done
from casewright.record.plan_of_record import record_to_plain
from casewright.record.shop_state import Status
from loft_job import LOFT, loft


def test_another_part_is_milled_from_what_the_boards_leave_or_from_a_small_board() -> None:
    found = look(repair_task(loft(), Mishap(spoiled=["B1-RA1"])))
    left, bought = found.lines
    assert left.what == "Mill B1-RA1 again from what is left beside the strips of Board 2."
    assert not left.buys and left.minutes == "18"
    assert "from a 4/4 FAS board" not in left.what
    assert bought.what.startswith('Buy a 4/4 FAS board, clear, at least 96" × 6" (4 bf, $38.00)')
    assert "enough in 40 of 40 lots drawn at random" in bought.steps[0]
    assert bought.money == "$38.00" and bought.minutes == "108"
    assert found.proof == "The wood on hand is enough to finish the job without changing it."
    assert [scene.title for scene in way_scenes(found, found.option(1))] == ["hard maple, board 3"]


def test_what_is_milled_by_itself_takes_two_settings_more() -> None:
    """Once the rest is planed, jointer and planer are set again for the one strip."""
    told = Mishap(spoiled=["B1-RA1"])
    first = look(repair_task(loft(), told)).lines[0]
    planed = frozenset(key for key in loft().work.by_key if key.startswith("maple"))
    later = look(repair_task(loft(), told, MadeAlready(steps=planed))).lines[0]
    assert int(later.minutes) - int(first.minutes) == 10
    assert any("goes through jointer and planer by itself" in step for step in later.steps)
    assert not any("from now on" in step for step in later.steps), "a begun board keeps its number"


def test_a_way_for_a_part_of_a_sheet_leaves_the_boards_alone() -> None:
    found = look(repair_task(loft(), Mishap(spoiled=["B1-L"])))
    assert found.lines and not any("maple" in line.what for line in found.lines)
    assert not any(option.boards for option in found.options)


def test_a_part_of_a_sheet_and_one_of_boards_are_put_right_together() -> None:
    found = look(repair_task(loft(), Mishap(spoiled=["B1-TK", "B2-ST1"])))
    assert {"B1-TK", "B2-ST1"} <= {*found.lines[0].parts}
    assert all("B2-ST1" in line.parts for line in found.lines)


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (Mishap(spoiled=["B1-RA1"], sheets=["maple board 9"]), "there is no sheet “maple board 9”"),
        (Mishap(spoiled=["B1-RA1"], through=["maple board x"]), "there is no sheet “maple board x”"),
        (Mishap(spoiled=["B1-RA1:400 x 1"]), "is larger than a board of hard maple"),
        (Mishap(spoiled=["B1-RA9"]), "there is no part “B1-RA9”"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(told: Mishap, said: str) -> None:
    with pytest.raises(JobError) as refused:
        repair_task(loft(), told)
    (finding,) = refused.value.findings
    assert said in finding.text and finding.fix


def test_the_form_of_a_wood_asks_nothing_about_sheets() -> None:
    groups = materials_form(open_job(LOFT))
    of_maple = {field.path[-1] for group in groups for field in group.fields if "maple" in field.path}
    assert {"name", "usual", "readings", "weight"} <= of_maple
    assert not of_maple & {"sheet", "size", "trim", "price", "nominal", "boards", "others"}


def ask(job: Path, capsys: pytest.CaptureFixture[str], *more: str) -> dict[str, object]:
    assert main(["put-right", str(job), *more, "--json"]) in (0, 1)
    answer: dict[str, object] = json.loads(capsys.readouterr().out)
    return answer


def test_the_command_writes_the_changed_plan_and_goes_on_from_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, out = tmp_path / "loft.toml", tmp_path / "after.toml"
    job.write_text(LOFT)
    told = ("--spoiled", "B1-RA1", "--all-cut-of", "maple board 1")
    first = ask(job, capsys, *told)
    chosen = ask(job, capsys, *told, "--choose", "1", "--out", str(out))
    assert chosen["ways"] == first["ways"]
    assert chosen["labels_again"] == ["B1-RA1", "B1-RA2"], "their board has another number"
    assert out.read_text() == LOFT
    plain = json.loads((tmp_path / "after.plan.json").read_text())
    assert plain["layout"] == 4
    spent = [
        part
        for board in plain["boards"]["maple"]["boards"]
        for length in board["lengths"]
        for strip in length["strips"]
        for part in strip["parts"]
        if part.get("spent")
    ]
    assert [one["mark"] for one in spent] == ["B1-RA1"]
    assert main(["steps", str(out)]) == 0
    steps = capsys.readouterr().out
    assert "strip for B1-RA1" in steps and "left end off" in steps
    assert "Board 1 (“A”): left end off" not in steps, "it is crosscut already"
    # The plan stands, and once more of it is spoiled the wood that is spent is not given again.
    again = ask(out, capsys, "--spoiled", "B2-RA1")
    assert again["ways"]
    assert main(["plan", str(out)]) == 0
    assert "B1-RA1 (cut already)" in capsys.readouterr().out
    assert main(["plan", str(out), "--again", "--seconds", "0.2"]) == 0
    assert "B1-RA1 (cut already)" in capsys.readouterr().out


@pytest.fixture
def saved(tmp_path: Path) -> KeptJobs:
    kept = KeptJobs.open(tmp_path / "shop.sqlite3")
    kept.start(LOFT)
    hand_out(kept.file, "loft", 1, loft().plans, "issue-first", kept.clock(), loft().board_plans)
    return kept


def tick(saved: KeptJobs, *steps: str) -> None:
    state = record_of(saved, "loft").state
    assert state is not None
    write_on(saved, "loft", in_turn(state, [Done(steps)], identity))


def spoil(saved: KeptJobs, mark: str) -> FoundWays:
    report(saved, "loft", record_of(saved, "loft"), Report(mark, lost=True), identity)
    return look(task_of(record_of(saved, "loft")))


def floor_of(heard: BenchRecord) -> PlannedJob:
    assert heard.floor is not None
    return heard.floor


def test_in_the_shop_the_boards_follow_the_choice_and_it_can_be_taken_back(saved: KeptJobs) -> None:
    before = floor_of(record_of(saved, "loft"))
    found = spoil(saved, "B1-RA1")
    same = look(repair_task(loft(), Mishap(lost=["B1-RA1"])))
    assert [line.plain() for line in found.lines] == [line.plain() for line in same.lines]
    choose(saved, "loft", record_of(saved, "loft"), found, 1, identity)
    heard = record_of(saved, "loft")
    floor = floor_of(heard)
    assert heard.state is not None and amiss(heard) == ()
    assert heard.state.status("B1-RA1") is Status.TO_CUT
    assert "maple board 1 crosscut" in heard.state.done
    problem = floor.worked.board_problems["maple"]
    assert floor.board_plans["maple"] == found.option(1).boards["maple"]
    assert not board_plan_faults(problem, floor.board_plans["maple"])
    assert {"B1-RA1"} <= {*labels_of_choice(saved, "loft", heard)}
    assert look(task_of(heard)).options == ()
    kept = StoreShelf(saved, "loft").read()
    assert kept is not None and record_to_plain(kept)["layout"] == 4
    undo_choice(saved, "loft", heard, identity)
    undone = record_of(saved, "loft")
    assert floor_of(undone).board_plans == before.board_plans and amiss(undone) == ("B1-RA1",)
    assert [one.why for one in look(task_of(undone)).lines] == [one.why for one in found.lines]


def test_a_choice_is_not_taken_back_once_its_strip_is_cut(saved: KeptJobs) -> None:
    every = [key for key in floor_of(record_of(saved, "loft")).work.by_key if key.startswith("maple")]
    tick(saved, *every)
    found = spoil(saved, "B1-RA1")
    choose(saved, "loft", record_of(saved, "loft"), found, 1, identity)
    heard = record_of(saved, "loft")
    floor = floor_of(heard)
    assert heard.state is not None
    left = [key for key in floor.work.by_key if key.startswith("maple") and key not in heard.state.done]
    assert left == [
        "maple board 2 strip 2",
        "maple again 1 planing",
        "maple again 1 edges",
        "maple board 2 strip 2 rip",
        "maple board 2 B1-RA1 crosscut",
    ]
    assert heard.state.status("B1-RA2") is not Status.TO_CUT
    tick(saved, left[0])
    with pytest.raises(JobError, match="cutting has begun"):
        undo_choice(saved, "loft", record_of(saved, "loft"), identity)
    tick(saved, *left[1:])
    done = record_of(saved, "loft").state
    assert done is not None and not [one for one in done.findings if one.place in left[:3]]


def feet_to_buy(job: Path, capsys: pytest.CaptureFixture[str]) -> float:
    assert main(["plan", str(job), "--json"]) == 0
    (maple,) = json.loads(capsys.readouterr().out)["buy_boards"]
    return float(maple["board_feet"])


def test_boards_that_are_begun_are_not_bought_again_and_the_one_to_buy_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, left, bought = (tmp_path / f"{name}.toml" for name in ("loft", "left", "bought"))
    job.write_text(LOFT)
    told = ("--spoiled", "B1-RA1", "--cut-through", "maple board 2")
    ways = ask(job, capsys, *told)["ways"]
    assert isinstance(ways, list) and [way["buys"] for way in ways] == [False, True]
    assert feet_to_buy(job, capsys) > 0
    ask(job, capsys, *told, "--choose", "1", "--out", str(left))
    assert feet_to_buy(left, capsys) == 0
    ask(job, capsys, *told, "--choose", "2", "--out", str(bought))
    assert feet_to_buy(bought, capsys) == 4
