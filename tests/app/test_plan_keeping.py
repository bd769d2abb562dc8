"""One plan of record: made once, read by all, never replaced unasked, and what moved is said."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.sheets.kept_plans import StoreShelf
from casewright.app.sheets.plan_file import plan_bytes
from casewright.app.sheets.plan_keeping import (
    Choice,
    FileShelf,
    PlanOutdated,
    PlanShelf,
    SearchEffort,
    plan_on_record,
    standing,
)
from casewright.app.shop.shop_floor import hand_out
from casewright.errors import RecordError
from casewright.planner.again import Moves, moves
from job_texts import ALCOVE

BRIEF = SearchEffort(0.1)
NARROWER = ALCOVE.replace("width = 28", "width = 27.875")
DEARER = ALCOVE.replace("price = 96", "price = 99")


def shelves(folder: Path) -> list[PlanShelf]:
    saved = KeptJobs.open(folder / "shop.sqlite3")
    return [FileShelf(folder / "alcove.plan.json"), StoreShelf(saved, saved.start(ALCOVE).id)]


@pytest.fixture(params=["file", "store"])
def shelf(request: pytest.FixtureRequest, tmp_path: Path) -> PlanShelf:
    stored: bool = request.param == "store"
    return shelves(tmp_path)[stored]


def test_the_first_plan_is_kept_and_the_next_is_the_same(shelf: PlanShelf) -> None:
    worked = open_job(ALCOVE)
    made = plan_on_record(worked, shelf, effort=BRIEF)
    assert made.news[0].startswith(f"Made plan {made.planned.plan_name} (") and shelf.name in made.news[0]
    again = plan_on_record(worked, shelf, effort=SearchEffort(0.3, seed=5))
    assert again.news == () and again.planned.plans == made.planned.plans
    assert plan_bytes(again.planned) == plan_bytes(made.planned)


@pytest.mark.parametrize("text", [ALCOVE + "# a comment\n", DEARER, ALCOVE.replace("Alcove", "Niche")])
def test_a_plan_stands_while_its_cuts_are_right(shelf: PlanShelf, text: str) -> None:
    made = plan_on_record(open_job(ALCOVE), shelf, effort=BRIEF)
    found = plan_on_record(open_job(text), shelf, effort=BRIEF)
    assert found.planned.plan_name == made.planned.plan_name and found.news == ()
    sheets = found.planned.made.purchases[0].sheets
    assert found.planned.plans["ply"].figures.money == sheets * (99 if text == DEARER else 96)


def test_a_changed_job_is_asked_about_and_neither_answer_moves_parts_for_nothing(shelf: PlanShelf) -> None:
    before = plan_on_record(open_job(ALCOVE), shelf, effort=BRIEF).planned
    with pytest.raises(PlanOutdated) as asked:
        plan_on_record(open_job(NARROWER), shelf, effort=BRIEF)
    assert asked.value.record.name == before.plan_name and "B2" in " ".join(asked.value.changes)
    kept = plan_on_record(open_job(NARROWER), shelf, Choice.KEEP)
    assert kept.news[0].startswith(f"Plan {kept.planned.plan_name} follows plan {before.plan_name}")
    assert all("cut otherwise, so print again: sheet" in line for line in kept.news[1:])
    for material, plan in kept.planned.plans.items():
        assert moves(before.plans[material], plan) == Moves()
    again = plan_on_record(open_job(NARROWER), shelf, Choice.AGAIN, BRIEF)
    assert again.planned.made.complete
    assert standing(open_job(NARROWER), shelf).changes == ()


def test_a_plan_of_fronts_each_by_itself_is_asked_about_once_their_grain_shall_run_on(tmp_path: Path) -> None:
    shelf = FileShelf(tmp_path / "alcove.plan.json")
    by_itself = 'construction = { front_grain = "each by itself" }\n'
    bank = ", ".join(['{ kind = "drawer" }'] * 3)
    runs_on = ALCOVE.replace("bays = [{ adjustable = 1 }]", f"bays = [{{ fronts = [{bank}] }}]")
    before = plan_on_record(open_job(runs_on + by_itself), shelf, effort=BRIEF).planned
    with pytest.raises(PlanOutdated) as asked:
        plan_on_record(open_job(runs_on), shelf, effort=BRIEF)
    assert all("the grain does not run on" in said for said in asked.value.changes)
    kept = plan_on_record(open_job(runs_on), shelf, Choice.KEEP).planned
    moved = moves(before.plans["ply"], kept.plans["ply"]).other_sheet
    assert set(moved) <= {"B2-DF1", "B2-DF2", "B2-DF3"}
    assert not kept.plans["ply"].findings and standing(open_job(runs_on), shelf).changes == ()
    # The other way about the plan stands: nothing keeps fronts by themselves from one piece.
    assert plan_on_record(open_job(runs_on + by_itself), shelf).news == ()


def test_what_moved_is_listed(tmp_path: Path) -> None:
    shelf = FileShelf(tmp_path / "alcove.plan.json")
    plan_on_record(open_job(ALCOVE), shelf, effort=BRIEF)
    more = ALCOVE.replace("bays = [{ adjustable = 1 }]", "bays = [{ adjustable = 2 }]")
    news = plan_on_record(open_job(more), shelf, Choice.KEEP).news
    assert any("new (1): B2-" in line for line in news)


def test_a_plan_that_cannot_be_kept_is_used_and_said(tmp_path: Path) -> None:
    shelf = FileShelf(tmp_path / "no-such-folder" / "alcove.plan.json")
    found = plan_on_record(open_job(ALCOVE), shelf, effort=BRIEF)
    assert "It is not kept: " in found.news[0] and found.planned.made.complete


@pytest.mark.parametrize("choice", Choice)
def test_a_file_that_is_no_plan_of_this_job_is_never_replaced(tmp_path: Path, choice: Choice) -> None:
    """Named by mistake with --plan, a job file or a maker's notes must not become a plan."""
    other = plan_bytes(open_job(ALCOVE).planned(0.05))
    newer = json.dumps({**json.loads(other), "layout": 99}).encode()
    twice = other.replace(b'"job":', b'"job": "Attic", "job":', 1)
    money = other.replace(b'"money": "', b'"money": "1', 1)
    large = json.dumps({**json.loads(other), "seconds": "1e3000"}).encode()
    assert other not in (twice, money)
    for content in (
        twice,
        money,
        large,
        b"",
        other[:-9],
        b"[" * 100_000,
        b"call the client on Tuesday",
        ALCOVE.encode(),
        newer,
    ):
        file = tmp_path / "alcove.plan.json"
        file.write_bytes(content)
        with pytest.raises(RecordError):
            plan_on_record(open_job(ALCOVE), FileShelf(file), choice, BRIEF)
        assert file.read_bytes() == content


def test_two_that_plan_a_new_job_at_once_go_by_one_plan(tmp_path: Path) -> None:
    file = tmp_path / "alcove.plan.json"
    worked = open_job(ALCOVE)

    class Late(FileShelf):
        """A shelf on which another plan is put just before the first is kept."""

        def keep(self, planned: PlannedJob, *, first: bool) -> None:
            FileShelf(file).keep(worked.planned(0.02, seed=9), first=True)
            super().keep(planned, first=first)

    found = plan_on_record(worked, Late(file), effort=SearchEffort(0.3))
    assert found.planned.plan_name == json.loads(file.read_text(encoding="utf-8"))["plan"]


def test_work_handed_out_is_the_plan_of_record_and_its_sheet_numbers_are_not_used_again(
    tmp_path: Path,
) -> None:
    """The paper that is printed before work is handed out must show the numbers that the benches tick."""
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    job = saved.start(ALCOVE).id
    shelf = StoreShelf(saved, job)
    first = plan_on_record(open_job(ALCOVE), shelf, effort=BRIEF).planned
    hand_out(saved.file, job, 1, first.plans, "issue-1", saved.clock())
    assert plan_on_record(open_job(ALCOVE), shelf).planned.plan_name == first.plan_name
    second = plan_on_record(open_job(NARROWER), shelf, Choice.KEEP).planned
    numbers = {(material, sheet.number) for material, plan in first.plans.items() for sheet in plan.sheets}
    changed = [
        (material, sheet.number)
        for material, plan in second.plans.items()
        for sheet in plan.sheets
        if sheet not in first.plans[material].sheets
    ]
    assert changed and not numbers & set(changed)
    saved.rewrite(job, NARROWER, "narrower", 1)
    hand_out(saved.file, job, 2, second.plans, "issue-2", saved.clock())
    assert plan_on_record(open_job(NARROWER), shelf).planned.plan_name == second.plan_name
