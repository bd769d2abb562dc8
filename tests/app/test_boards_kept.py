"""Board plans in the plan of record: kept, read back, carried over, and laid out anew only when asked."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import pytest

from board_lists import USUAL, doors_from, rough_boards
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.app.papers.packet_files import packet_of
from casewright.app.sheets.boards_for_now import no_worse_boards
from casewright.app.sheets.kept_plans import StoreShelf
from casewright.app.sheets.made_already import MadeAlready
from casewright.app.sheets.plan_file import plan_record_of
from casewright.app.sheets.plan_keeping import Choice, FileShelf, PlanOutdated, SearchEffort, plan_on_record
from casewright.app.sheets.sheets_page import total_to_buy
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.app.shop.work_handed_out import ISSUE
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.board_plan import BoardPlan
from casewright.boards.board_problem import BoardProblem
from casewright.boards.keep_boards import BegunBoards, keep_boards, plan_around, renumber_boards
from casewright.boards.plan_boards import plan_boards, plan_cost
from casewright.errors import JobError, RecordError
from casewright.lengths.length import Unit
from casewright.packet.leaves import Leaves, Moment
from casewright.packet.shop_packet import packet_data
from casewright.record.board_rows import boards_from_plain, boards_to_plain
from casewright.record.plan_of_record import PlanOfRecord, record_from_plain, record_to_plain
from casewright.store.event_rows import NewEvent, append_events
from casewright.workshop.boards.board_work import board_crosscut_key
from loft_job import LOFT, loft

QUICK = SearchEffort(0.2)


def shelf_of(folder: Path) -> FileShelf:
    return FileShelf(folder / "loft.plan.json")


def kept(text: str, folder: Path, choice: Choice = Choice.ASK) -> tuple[BoardPlan, tuple[str, ...]]:
    found = plan_on_record(open_job(text), shelf_of(folder), choice, QUICK)
    return found.planned.board_plans["maple"], found.news


def plain(folder: Path) -> dict[str, object]:
    read: dict[str, object] = json.loads((folder / "loft.plan.json").read_text())
    return read


@pytest.mark.parametrize("seed", range(4))
def test_a_board_plan_is_read_back_as_it_was_written(seed: int) -> None:
    plan = plan_boards(doors_from(rough_boards(seed, 6), doors=6))
    written = json.loads(json.dumps(boards_to_plain({"maple": plan})))
    assert boards_from_plain(written) == {"maple": plan}


@pytest.mark.parametrize("wrong", ["1e9", "1/0", "x", 3, None])
def test_a_board_plan_changed_by_hand_is_refused(wrong: object) -> None:
    written = boards_to_plain({"maple": plan_boards(doors_from((), doors=1))})
    written["maple"]["boards"][0][3][0][1] = wrong
    with pytest.raises(ValueError):
        boards_from_plain(written)


def test_a_change_that_leaves_the_boards_parts_alone_keeps_their_plan(tmp_path: Path) -> None:
    first, _ = kept(LOFT, tmp_path)
    written = (tmp_path / "loft.plan.json").read_bytes()
    again, news = kept(LOFT.replace("price = 82", "price = 90").replace("price = 9.5", "price = 9"), tmp_path)
    assert again == first and not news
    assert (tmp_path / "loft.plan.json").read_bytes() == written


def test_it_is_the_kept_plan_that_is_read_not_one_worked_out_again(tmp_path: Path) -> None:
    """Another plan of the same parts, which the search would not come to, stands as it was kept."""
    worked = open_job(LOFT)
    problem = worked.board_problems["maple"]
    (first, *others) = worked.board_plans["maple"].boards
    other = replace(worked.board_plans["maple"], boards=(replace(first, number=5), *others))
    assert not board_plan_faults(problem, other)
    sheets = worked.planned(0.2)
    shelf_of(tmp_path).keep(worked.with_plan(sheets.plans, boards={"maple": other}), first=True)
    found, news = kept(f"{LOFT}\n# a remark\n", tmp_path)
    assert found == other and not news


def test_where_the_parts_change_the_maker_is_asked(tmp_path: Path) -> None:
    first, _ = kept(LOFT, tmp_path)
    wider = LOFT.replace("opening = 60", "opening = 66")
    with pytest.raises(PlanOutdated) as asked:
        kept(wider, tmp_path)
    assert any("of hard maple no longer come out of the rough size" in line for line in asked.value.changes)
    carried, news = kept(wider, tmp_path, Choice.KEEP)
    problem = open_job(wider).board_problems["maple"]
    assert not board_plan_faults(problem, carried) and not carried.unplaced
    stiles = [mark for mark in first.board_of if "ST" in mark]
    assert all(carried.board_of[mark] == first.board_of[mark] for mark in stiles)
    assert any("hard maple: cut otherwise or new, so print again: board" in line for line in news)
    assert kept(wider, tmp_path) == (carried, ())


def test_a_plan_that_still_holds_for_other_parts_says_no_longer_what_was_proved(tmp_path: Path) -> None:
    """With less left on for jointing, each still comes out of its place; the least was proved of more."""
    text = LOFT.replace("length = 98", "length = 40").replace("[30, 33]", "[30, 31]")
    text = text.replace("[94, 98]", "[38, 40]")
    first, _ = kept(text, tmp_path)
    assert first.bound and first.bound_boards
    found, news = kept(text.replace("price = 9.5", "price = 9.5\nover_width = 0.125"), tmp_path)
    assert found == replace(first, bound=F(0), bound_boards=0) and not news


def test_a_board_that_came_to_hand_is_asked_about(tmp_path: Path) -> None:
    first, _ = kept(LOFT, tmp_path)
    assert first.to_buy
    bought = LOFT.replace(
        "[made_of]", '[[materials.maple.boards.at_hand]]\nname = "B"\nlength = 96\nwidth = 7\n\n[made_of]'
    )
    with pytest.raises(PlanOutdated) as asked:
        kept(bought, tmp_path)
    assert any("does not use those at hand: B" in line for line in asked.value.changes)
    again, _ = kept(bought, tmp_path, Choice.AGAIN)
    assert not again.to_buy


def test_a_plan_file_from_before_boards_were_kept_is_read_and_gets_them(tmp_path: Path) -> None:
    worked = open_job(LOFT)
    first = worked.board_plans["maple"]
    made = plan_record_of(worked.planned(0.2))
    problems = {"ply": made.problems["ply"]}
    old = record_to_plain(PlanOfRecord(made.job, made.revision, 0, 0.2, problems, made.plans))
    assert old["layout"] == 1 and "exact_boards" not in old
    assert not record_from_plain(old, "old").boards
    (tmp_path / "loft.plan.json").write_text(json.dumps(old))
    found, news = kept(LOFT, tmp_path)
    assert found == first and any("kept with the plan from now on" in line for line in news)
    assert "exact_boards" in plain(tmp_path) and kept(LOFT, tmp_path) == (first, ())


def test_a_board_moved_by_hand_in_the_file_is_noticed(tmp_path: Path) -> None:
    kept(LOFT, tmp_path)
    there = plain(tmp_path)
    there["exact_boards"]["maple"]["boards"][0][3][0][0] = "5"  # type: ignore[index]
    with pytest.raises(RecordError):
        record_from_plain(there, "changed")


@pytest.mark.parametrize("seed", range(6))
def test_a_plan_carried_over_keeps_its_boards_and_gives_every_part(seed: int) -> None:
    problem = doors_from(rough_boards(seed, 5), doors=5)
    plan = plan_boards(problem)
    longer = tuple(
        replace(part, length=part.length + (3 if at % 7 == 0 else 0)) for at, part in enumerate(problem.parts)
    )
    now = replace(problem, parts=(*longer[4:], replace(longer[0], name="new")))
    carried = keep_boards(now, plan)
    assert not board_plan_faults(now, carried) and not carried.unplaced
    same = {part.name for at, part in enumerate(problem.parts) if at >= 4 and at % 7}
    assert all(carried.board_of[name] == plan.board_of[name] for name in same)


def test_boards_cut_otherwise_than_handed_out_have_numbers_of_their_own() -> None:
    first = plan_boards(doors_from((), doors=5))
    second = plan_boards(BoardProblem(doors_from((), doors=6).parts, (), USUAL, F(1, 8)))
    numbered = renumber_boards(second, [first])
    was = {one.number: one for one in first.boards}
    for one in numbered.boards:
        assert one.number not in was or replace(was[one.number], number=0) == replace(one, number=0)
    assert renumber_boards(first, [first, numbered]) == first
    assert len({one.number for one in numbered.boards}) == len(numbered.boards)


def test_the_shop_works_by_the_boards_that_were_handed_out(tmp_path: Path) -> None:
    """Not by those that a search would come to later: a tick names a board by its number."""
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    work = saved.start(LOFT)
    planned = work.worked.planned(0.2)
    (first, *others) = planned.board_plans["maple"].boards
    other = replace(planned.board_plans["maple"], boards=(replace(first, number=7), *others))
    hand_out(saved.file, work.id, 1, planned.plans, "issue-1", saved.clock(), {"maple": other})
    floor = read_record(saved.file, work.id).floor
    assert floor is not None
    numbered = floor.board_plans["maple"]
    assert [one.lengths for one in numbered.boards] == [one.lengths for one in other.boards]
    assert any(key.startswith("maple board") for key in floor.work.by_key)
    assert StoreShelf(saved, work.id).read().boards == {"maple": numbered}  # type: ignore[union-attr]
    fewer = replace(other, boards=(replace(first, lengths=first.lengths[:1]), *others))
    hand_out(saved.file, work.id, 1, planned.plans, "issue-2", saved.clock(), {"maple": fewer})
    record = StoreShelf(saved, work.id).read()
    assert record is not None
    used = {one.number for one in numbered.boards}
    assert record.boards["maple"].boards[0].number not in used


def test_no_board_gets_a_number_that_was_ticked_of_work_that_cannot_be_read(tmp_path: Path) -> None:
    """What an unreadable entry handed out is known only by its ticks: for paper, page and bench alike."""
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    work = saved.start(LOFT)
    planned = work.worked.planned(0.2)
    hand_out(saved.file, work.id, 1, planned.plans, "issue-1", saved.clock(), planned.board_plans)
    append_events(saved.file, [NewEvent("odd", work.id, "saw", "2026-11-25T10:00:00Z", ISSUE, "not JSON")])
    tick = {"id": "a", "bench": "saw", "seq": 1, "kind": "done", "steps": ["maple board 41 crosscut"]}
    assert receive(saved.file, work.id, (tick,), Unit.INCH, saved.clock()).kept == ("a",)
    (first, *others) = planned.board_plans["maple"].boards
    fewer = replace(planned.board_plans["maple"], boards=(replace(first, lengths=first.lengths[:1]), *others))
    shelved = StoreShelf(saved, work.id).numbered(
        work.worked.with_plan(planned.plans, boards={"maple": fewer})
    )
    hand_out(saved.file, work.id, 1, planned.plans, "issue-2", saved.clock(), {"maple": fewer})
    floor = read_record(saved.file, work.id).floor
    assert floor is not None
    assert floor.board_plans["maple"].boards[0].number == 42
    assert shelved.board_plans["maple"].boards[0].number == 42


@pytest.mark.parametrize("seed", range(3))
def test_planned_again_boards_move_only_where_that_takes_less(seed: int) -> None:
    """A door fewer: what the plan before still cuts stays where it lies, unless a new plan takes less."""
    problem = doors_from(rough_boards(seed, 5), doors=5)
    plan = plan_boards(problem)
    now = replace(problem, parts=problem.parts[4:])
    new, carried = plan_boards(now), keep_boards(now, plan)
    (found,) = no_worse_boards({"maple": now}, {"maple": new}, {"maple": plan}).values()
    stays = plan_cost(carried) <= plan_cost(new)
    assert found.boards == (carried if stays else new).boards
    assert (found.bound, found.bound_boards) == (new.bound, new.bound_boards)
    assert plan_cost(found) == min(plan_cost(new), plan_cost(carried))


@pytest.mark.parametrize("seed", range(3))
def test_a_board_that_is_begun_is_cut_on_as_it_was_planned(seed: int) -> None:
    """Two more doors: the other boards may be laid out anew, the one that a saw has touched may not."""
    plan = plan_boards(doors_from(rough_boards(seed, 6), doors=4))
    now = doors_from(rough_boards(seed, 6), doors=6)
    first = plan.boards[0]
    again = plan_around(now, BegunBoards(plan, frozenset({first.number})))
    assert first in again.boards and not board_plan_faults(now, again) and not again.unplaced
    assert first not in plan_boards(now).boards, "a plan made anew would cut it otherwise"


def test_planning_again_leaves_boards_that_were_ticked_at_the_bench(tmp_path: Path) -> None:
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    work = saved.start(LOFT)
    worked, shelf = work.worked, StoreShelf(saved, work.id)
    planned = worked.planned(0.2)
    held = planned.board_plans["maple"].boards[0]
    hand_out(saved.file, work.id, 1, planned.plans, "issue-1", saved.clock(), planned.board_plans)
    step = f"maple board {held.number} crosscut"
    tick = {"id": "a", "bench": "saw", "seq": 1, "kind": "done", "steps": [step]}
    assert receive(saved.file, work.id, (tick,), Unit.INCH, saved.clock()).kept == ("a",)
    taller = open_job(LOFT.replace("opening = 60", "opening = 66"))
    made = plan_on_record(taller, shelf, Choice.AGAIN, QUICK)
    again = made.planned.board_plans["maple"]
    on_it = {part.name for part in held.parts}
    anew = taller.board_plans["maple"].boards
    assert not any({part.name for part in one.parts} <= on_it for one in anew if one.board == held.board)
    kept_on = {part.name for one in again.boards if one.board == held.board for part in one.parts}
    assert kept_on and kept_on <= on_it, "what is still wanted of it, and nothing new"
    assert any("hard maple: kept as they are, because they are begun: board 1" in one for one in made.news)


def test_a_board_named_as_begun_stays_and_a_wrong_name_is_refused(tmp_path: Path) -> None:
    kept(LOFT, tmp_path)
    file = tmp_path / "loft.plan.json"
    record = FileShelf(file).read()
    assert FileShelf(file, ("maple board 1",)).begun(record).boards["maple"].numbers == {1}
    with pytest.raises(JobError) as refused:
        FileShelf(file, ("maple board 71",)).begun(record)
    assert "no sheet or board “maple board 71”" in str(refused.value)


def test_the_page_and_the_paper_come_to_one_total_where_boards_are_begun() -> None:
    """Boards that are begun are there already, and bought on neither."""
    job = loft()
    (material,) = job.board_plans
    bought = [one.number for one in job.board_plans[material].to_buy]
    begun = MadeAlready(steps=frozenset(board_crosscut_key(material, number) for number in bought))
    paper = packet_data(replace(packet_of(job, made=begun), leaves=Leaves((Moment.YARD,))))
    buying: Any = paper["buying"]
    assert bought and total_to_buy(job, begun) != total_to_buy(job)
    assert total_to_buy(job, begun).endswith(f"{buying['total_of']}: {buying['total']}.")
