"""What is ticked at the benches is a fact: planning again leaves every begun sheet as it is."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.sheets.begun_work import begun_work
from casewright.app.sheets.kept_plans import StoreShelf
from casewright.app.sheets.plan_keeping import (
    Choice,
    FileShelf,
    PlanOutdated,
    SearchEffort,
    plan_on_record,
    standing,
)
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.errors import JobError, RecordError
from casewright.lengths.length import Unit
from casewright.planner.begun import same_cuts
from casewright.planner.plan import SheetPlan
from casewright.planner.verify.verify import verify
from casewright.record.shop_state import Status
from job_texts import ALCOVE

BRIEF = SearchEffort(0.1)
FOUR = ALCOVE.replace('"60 3/8"', "120") + (
    '\n[[runs.cases]]\nmark = "B3"\nkind = "base"\nwidth = 30\nbays = [{ adjustable = 1 }]\n'
    '\n[[runs.cases]]\nmark = "B4"\nkind = "base"\nwidth = 26\nbays = [{ adjustable = 2 }]\n'
)
OTHER_WIDTHS = ("B2 28 27.875", "B3 30 29.5", "B4 26 26.25", "B4 26 24")


class Shop:
    """A job of four cases whose work is handed out."""

    def __init__(self, folder: Path, text: str = FOUR) -> None:
        self.saved = KeptJobs.open(folder / "shop.sqlite3")
        self.job = self.saved.start(text).id
        self.shelf = StoreShelf(self.saved, self.job)
        self.numbers = iter(range(1, 1000))
        self.first = plan_on_record(open_job(text), self.shelf, effort=BRIEF).planned
        self.hand_out(self.first)

    def hand_out(self, planned: PlannedJob) -> None:
        number = self.saved.take(self.job).revision.number
        name = f"issue-{next(self.numbers)}"
        hand_out(self.saved.file, self.job, number, planned.made.plans, name, self.saved.clock())

    def say(self, **what: object) -> None:
        number = next(self.numbers)
        event = {"id": f"e{number}", "bench": "saw", "seq": number, "at": "", **what}
        assert not receive(self.saved.file, self.job, [event], Unit.INCH, self.saved.clock()).refused

    def tick(self, steps: list[str]) -> None:
        if steps:
            self.say(kind="done", steps=steps)

    def cut_up(self, material: str, sheet: int) -> None:
        """Tick every cut of a sheet."""
        self.tick(
            [op.key for op in self.first.work.operations if op.key.startswith(f"{material} {sheet} cut ")]
        )

    def change(self, text: str) -> None:
        self.saved.rewrite(self.job, text, "other", self.saved.take(self.job).newest)

    def begun(self) -> dict[tuple[str, int], SheetPlan]:
        work = begun_work(read_record(self.saved.file, self.job))
        return {
            (material, sheet.number): sheet for material, sheets in work.sheets.items() for sheet in sheets
        }


def sheets_of(planned: PlannedJob) -> dict[tuple[str, int], SheetPlan]:
    return {(key, sheet.number): sheet for key, plan in planned.plans.items() for sheet in plan.sheets}


def with_width(case: str, was: str, now: str) -> str:
    head, mark, rest = FOUR.partition(f'mark = "{case}"')
    return head + mark + rest.replace(f"width = {was}", f"width = {now}", 1)


@pytest.mark.parametrize("seed", range(12))
def test_begun_sheets_stay_whatever_was_ticked_and_whichever_width_changes(tmp_path: Path, seed: int) -> None:
    shop, chance = Shop(tmp_path), Random(seed)
    batches = shop.first.ordered.batches
    some = chance.sample(batches, chance.randint(1, 4))
    shop.tick([op.key for batch in some for op in batch.operations if op.kind.cuts_up_a_sheet])
    begun, before = shop.begun(), sheets_of(shop.first)
    if seed % 2:  # another plan was kept since, which is not what the benches cut by
        shop.shelf.keep(open_job(FOUR).planned(0.1, seed + 7), first=False)
    changed = open_job(with_width(*chance.choice(OTHER_WIDTHS).split()))
    shop.change(changed.text)
    state = read_record(shop.saved.file, shop.job).state
    assert state is not None
    choice = Choice.AGAIN if seed % 4 < 3 else Choice.KEEP
    now_project, then_project = changed.needed(), shop.first.project
    other = {
        mark
        for mark, part in then_project.parts.items()
        if now_project.dimensions(now_project.parts[mark]) != then_project.dimensions(part)
    }
    if cut := [mark for mark in state.with_status(Status.IN_HAND, Status.CUT) if mark in other]:
        with pytest.raises(RecordError) as refused:
            plan_on_record(changed, shop.shelf, choice, BRIEF)
        assert refused.value.findings[0].place == cut[0] and "cut already" in str(refused.value)
        return
    made = plan_on_record(changed, shop.shelf, choice, BRIEF)
    for material, problem in changed.problems.items():
        assert verify(problem, made.planned.plans[material]) == ()
    now = sheets_of(made.planned)
    for key, sheet in begun.items():
        assert same_cuts(now[key], sheet)
        if other.isdisjoint(piece.item or "" for piece in sheet.parts):
            assert now[key] == sheet
        assert any(f"sheet {key[1]}" in line or f" {key[1]}" in line for line in made.news if "begun" in line)
    for key, sheet in now.items():  # a sheet cut otherwise than the one handed out has a number of its own
        assert key not in before or same_cuts(sheet, before[key])
    assert standing(changed, shop.shelf).changes == ()
    shop.hand_out(made.planned)
    assert shop.begun().keys() == begun.keys()


def test_a_sheet_begun_since_the_plan_was_made_is_noticed_and_taken_over(tmp_path: Path) -> None:
    """The benches cut on by the work handed out, while the office has planned again."""
    shop = Shop(tmp_path)
    changed = open_job(with_width("B4", "26", "24"))
    shop.change(changed.text)
    second = plan_on_record(changed, shop.shelf, Choice.AGAIN, BRIEF).planned
    gone = next(key for key in sheets_of(shop.first) if key not in sheets_of(second))
    sheet = sheets_of(shop.first)[gone]
    first_cut = sheet.cuts[0]
    shop.tick([f"{gone[0]} {gone[1]} cut {first_cut.order}"])
    with pytest.raises(PlanOutdated, match="begun in the shop as handed out"):
        plan_on_record(changed, shop.shelf)
    third = plan_on_record(changed, shop.shelf, Choice.AGAIN, BRIEF)
    assert same_cuts(sheets_of(third.planned)[gone], sheet)
    assert any("because they are begun" in line for line in third.news)


def test_a_part_reported_as_spoiled_is_cut_again_in_its_new_size(tmp_path: Path) -> None:
    shop = Shop(tmp_path)
    sheets = sheets_of(shop.first)
    bottom = next(key for key in sheets if "B4-B" in {piece.item for piece in sheets[key].parts})
    shop.cut_up(*bottom)
    changed = open_job(with_width("B4", "26", "24"))
    shop.change(changed.text)
    on_sheet = {piece.item for piece in sheets_of(shop.first)[bottom].parts}
    wrong = [mark for mark in on_sheet if mark and mark.startswith("B4-")]
    with pytest.raises(RecordError, match="report the part as spoiled"):
        plan_on_record(changed, shop.shelf, Choice.AGAIN, BRIEF)
    for mark in wrong:
        shop.say(kind="spoiled", part=mark)
    made = plan_on_record(changed, shop.shelf, Choice.AGAIN, BRIEF).planned
    assert made.made.complete
    places = {piece.item: key for key, sheet in sheets_of(made).items() for piece in sheet.parts}
    assert places["B4-B"] != bottom
    shop.hand_out(made)
    state = read_record(shop.saved.file, shop.job).state
    assert state is not None and state.status("B4-B") is Status.TO_CUT
    assert state.findings == ()


def test_sheets_named_on_the_command_line_stay_as_they_are(tmp_path: Path) -> None:
    file = tmp_path / "alcove.plan.json"
    before = plan_on_record(open_job(FOUR), FileShelf(file), effort=BRIEF).planned
    changed = open_job(with_width("B4", "26", "24"))
    name = next(
        key for key, sheet in sheets_of(before).items() if "B4-B" in {piece.item for piece in sheet.parts}
    )
    shelf = FileShelf(file, (f"{name[0]} {name[1]}",))
    with pytest.raises(JobError, match="no sheet or board “ply 99”"):
        plan_on_record(changed, FileShelf(file, ("ply 99",)), Choice.AGAIN, BRIEF)
    made = plan_on_record(changed, shelf, Choice.AGAIN, BRIEF)
    now = sheets_of(made.planned)[name]
    assert same_cuts(now, sheets_of(before)[name]) and "B4-B" not in {piece.item for piece in now.parts}
    assert any(f"a part left over, so print again: sheet {name[1]}" in line for line in made.news)
    for material, problem in changed.problems.items():
        assert verify(problem, made.planned.plans[material]) == ()
