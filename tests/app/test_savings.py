"""What would save a sheet: each saving is checked by planning both jobs; the changes and their words hold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from casewright.app.editing.text_edits import AddEntry, DropEntry, SetEntry, apply_edits, look_up
from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.sheets import saving_trials
from casewright.app.sheets import savings as savings_module
from casewright.app.sheets.plan_keeping import Choice, FileShelf, SearchEffort, plan_on_record
from casewright.app.sheets.saving_candidates import Candidate, Trouble
from casewright.app.sheets.saving_trials import GLANCE, Trials
from casewright.app.sheets.savings import (
    MOST_SHOWN,
    PLANNING_AGAIN,
    Saving,
    candidates,
    look_for_savings,
    saved_text,
    savings_json,
)
from casewright.app.sheets.setting_trials import fewer_settings
from casewright.casework.fronts_in_one_piece import fronts_in_one_piece
from casewright.jobfile.read.toml_text import values_of
from casewright.planner.again import keep_plan
from casewright.planner.plan import Plan
from casewright.planner.plan_wording import over_limit
from casewright.planner.verify.verify import verify
from casewright.workshop.sheets.equal_sizes import settings_of
from casewright.workshop.sheets.purchases import Bought, bought_in_all
from job_texts import ALCOVE
from planned_once import planned_once

SHOP = '[base]\ndepth = "24 1/4"\n\n[shop.carry]\nweight = 200\nlength = 120\n\n[[runs]]'
DEEP = ALCOVE.replace("[[runs]]", SHOP, 1)
THREE = ALCOVE.replace('width = "27 3/4"\nbays = [{ fixed = [10], adjustable = 2 }]\n', "").replace(
    "width = 28\nbays = [{ adjustable = 1 }]", '[[runs.cases]]\nmark = "B3"\nkind = "base"'
)


def planned(text: str) -> PlannedJob:
    return planned_once(text, 0.5)


def bought(job: PlannedJob) -> Bought:
    return bought_in_all(job.purchases)


def made(before: PlannedJob, saving: Saving) -> PlannedJob:
    """The job with a saving made, planned as the commands and the page do."""
    return open_job(saved_text(before, saving)).planned(0.5, before={**before.plans, **saving.plans})


def with_plans_of(other: PlannedJob, text: str) -> PlannedJob:
    worked = open_job(text)
    kept = {material: keep_plan(one, other.plans[material]) for material, one in worked.problems.items()}
    return worked.with_plan(kept)


@pytest.fixture(scope="module")
def deep() -> PlannedJob:
    return planned(DEEP)


@pytest.fixture(scope="module")
def found(deep: PlannedJob) -> tuple[Saving, ...]:
    return look_for_savings(deep)


def test_every_saving_is_what_planning_the_changed_job_gives(
    deep: PlannedJob, found: tuple[Saving, ...]
) -> None:
    assert found
    for saving in found:
        after = made(deep, saving)
        for material, plan in after.plans.items():
            assert verify(after.worked.problems[material], plan) == ()
        got = bought(after).less_than(bought(deep))
        assert got.money >= saving.saved.money and got.sheets >= saving.saved.sheets, saving.what
        assert saving.saved.money > 0 or saving.settings


def test_the_change_is_the_smallest_that_saves_as_much(deep: PlannedJob, found: tuple[Saving, ...]) -> None:
    assert "deep in place of 24 1/4" in found[0].what and found[0].saved.sheets >= 1
    (depth,) = (one for one in candidates(deep) if any(c.what == found[0].what for c in one.changes))
    at = [change.what for change in depth.changes].index(found[0].what)
    assert at > 0
    larger = open_job(apply_edits(DEEP, depth.changes[at - 1].edits))
    plans = larger.planned(0.5, before=found[0].plans)
    assert bought(plans).less_than(bought(deep)) < found[0].saved


def test_a_rounder_size_is_offered_where_it_is_hardly_further() -> None:
    """Two sides and a kerf of 1/8 come out of 46 3/4 in at 23 5/16: whoever gives that gives 23 1/4."""
    text = DEEP.replace("24 1/4", "23 3/4").replace("price = 96", 'price = 96\ntrim = "5/8"')
    (depth,) = (one for one in look_for_savings(planned(text)) if " deep " in one.what)
    assert depth.what == "base cases 23 1/4 deep in place of 23 3/4"


def test_a_job_that_nothing_would_help_is_told_so() -> None:
    assert all(one.saved.money > 0 or one.settings for one in look_for_savings(planned(ALCOVE)))


def test_the_search_can_be_stopped(deep: PlannedJob) -> None:
    asked: list[bool] = []

    def stop() -> bool:
        asked.append(True)
        return len(asked) > 2

    assert look_for_savings(deep, stopped=stop) == () and len(asked) < 8


def test_what_more_search_alone_would_save_is_no_saving_of_a_change() -> None:
    wasted = _wasted()
    best = bought(planned(wasted.worked.text))
    assert bought(wasted).money > best.money
    for saving in look_for_savings(wasted):
        if not saving.edits:
            continue  # planning again, which says so
        assert best.money - bought(made(wasted, saving)).money >= saving.saved.money, saving.what


def test_a_trial_is_carried_back_to_the_job_as_it_is(deep: PlannedJob) -> None:
    """Even where the job as it is was not searched enough before."""
    worked = open_job(DEEP.replace("24 1/4", "23"))
    wasted = worked.with_plan(
        {m: keep_plan(problem, deep.plans[m]) for m, problem in worked.problems.items()}
    )
    trials = Trials(wasted, lambda: False)
    trials.plans = dict(wasted.plans)
    (depth,) = (one for one in candidates(wasted) if " deep " in one.changes[0].what)
    glance = trials.glance(depth)
    assert glance is not None and trials.saved(glance).sheets > 0
    assert trials.smallest(depth, glance) is None


def test_cases_of_one_depth_change_together_and_none_of_another() -> None:
    text = ALCOVE.replace('mark = "B2"\nkind = "base"', 'mark = "B2"\nkind = "base"\ndepth = 20')
    job = planned(text)
    deep = [one for one in candidates(job) if " deep " in one.changes[0].what]
    assert len(deep) == 2
    was = {case.mark: case.depth for run in job.project.job.runs for case in run.cases}
    for candidate, (changed, same) in zip(deep, (("B1", "B2"), ("B2", "B1")), strict=True):
        after = open_job(apply_edits(text, candidate.changes[4].edits)).needed()
        depths = {case.mark: case.depth for run in after.job.runs for case in run.cases}
        assert depths[changed] < was[changed] and depths[same] == was[same]


def test_strips_are_narrowed_where_the_job_says_their_width() -> None:
    text = ALCOVE.replace(
        "bays = [{ adjustable = 1 }]", "bays = [{ adjustable = 1 }]\nconstruction = { strip_width = 5 }"
    )
    strips = _candidates(text, "mounting strips")
    assert [one.changes[0].what for one in strips] == [
        "mounting strips 3 3/4 wide in place of 4",
        "mounting strips 4 3/4 wide in place of 5",
    ]
    assert [edit.path for edit in strips[0].changes[0].edits] == [("construction", "strip_width")]
    own = ("runs", 0, "cases", 1, "construction", "strip_width")
    assert [edit.path for edit in strips[1].changes[0].edits] == [own]


def test_fronts_from_one_piece_are_cut_each_by_itself_where_the_job_says_so() -> None:
    by_hand = "bays = [{ adjustable = 1 }]"
    bank = ALCOVE.replace(by_hand, 'bays = [{ fronts = [{ kind = "drawer" }, { kind = "drawer" }] }]')
    for text in (bank, bank + 'construction = { front_grain = "runs on" }\n'):
        ((change,),) = (one.changes for one in _candidates(text, "doors and drawer fronts"))
        assert not fronts_in_one_piece(open_job(apply_edits(text, change.edits)).needed())
    assert _candidates(ALCOVE, "doors and drawer fronts") == []


def test_a_case_fewer_leaves_the_others_wider() -> None:
    (fewer,) = _candidates(THREE.replace('"60 3/8"', "54"), "one case fewer")
    assert fewer.trouble is Trouble.REARRANGED
    (edit,) = fewer.changes[0].edits
    assert isinstance(edit, DropEntry)
    assert _candidates(THREE.replace('"60 3/8"', "90"), "one case fewer") == []


def test_an_offcut_and_another_sheet_are_put_into_the_job() -> None:
    (offcut, *_) = _candidates(ALCOVE, "with an offcut")
    (edit,) = offcut.changes[-1].edits
    assert isinstance(edit, AddEntry)
    after = open_job(apply_edits(ALCOVE, (edit,))).needed()
    assert after.job.shop.rack[-1].material == look_up(edit.value, ("material",))
    yards = _candidates(ALCOVE, "ask at the yard")
    assert len(yards) == 2
    sheets = open_job(apply_edits(ALCOVE, yards[0].changes[0].edits)).needed().job.sheets
    assert [len(good.others) for good in sheets.values()] == [1, 0]


def test_every_change_that_is_tried_is_a_job_in_its_words() -> None:
    job = planned(ALCOVE)
    tried = list(candidates(job))
    said = " / ".join(change.what for one in tried for change in one.changes)
    for words in ("trimmed off", "helper", "carry length", "carry weight", "stretchers", "with an offcut"):
        assert words in said
    for candidate in tried:
        for change in (candidate.changes[0], candidate.changes[-1]):
            after = open_job(apply_edits(ALCOVE, change.edits))
            assert after.project is not None and after.text != ALCOVE, change.what


def test_lines_are_few_one_to_a_theme_and_the_best_first(found: tuple[Saving, ...], deep: PlannedJob) -> None:
    assert len(found) <= MOST_SHOWN
    whats = {change.what: one.theme for one in candidates(deep) for change in one.changes}
    themes = [whats[saving.what] for saving in found if not saving.settings]
    assert len(set(themes)) == len(themes)
    assert found[0].saved.money == max(one.saved.money for one in found)


def test_the_same_job_gives_the_same_savings(deep: PlannedJob, found: tuple[Saving, ...]) -> None:
    assert look_for_savings(open_job(DEEP).planned(0.5)) == found


def test_savings_as_plain_values_name_what_is_set_added_or_dropped() -> None:
    edits = (SetEntry(("base", "depth"), "23"), AddEntry(("shop", "rack"), {"a": 1}), DropEntry(("runs", 0)))
    saving = Saving("what", "touches", Bought.nothing(), edits, {})
    (plain,) = savings_json((saving,))
    assert plain["edits"] == [
        {"set": "base.depth", "value": "23"},
        {"add": "shop.rack", "value": {"a": 1}},
        {"drop": "runs.0"},
    ]


def test_a_glance_that_saves_nothing_is_no_trial(deep: PlannedJob) -> None:
    trials = Trials(deep, lambda: False)
    (height,) = (one for one in candidates(deep) if one.theme.startswith("trim thin"))
    assert GLANCE > 0 and trials.glance(height) is None


def _candidates(text: str, words: str) -> list[Candidate]:
    def all_of_them() -> Iterator[Candidate]:
        assert values_of(text)
        yield from candidates(planned(text))

    return [one for one in all_of_them() if one.changes[0].what.startswith(words)]


def test_a_width_that_makes_parts_equal_saves_settings() -> None:
    """B2 is 1/16 wider than B1: of one width, their bottoms, stretchers and backs are cut alike."""
    text = DEEP.replace('"24 1/4"', "20").replace("width = 28", 'width = "27 13/16"')
    before = planned(text)
    saving = look_for_savings(before)[-1]
    assert saving.what in ("B1 27 13/16 wide in place of 27 3/4", "B2 27 3/4 wide in place of 27 13/16")
    assert saving.settings > 0 and "setting" in saving.saves("$") and saving.saved == Bought.nothing()
    after = made(before, saving)
    assert bought(after) <= bought(before)
    now, then = (settings_of(job.project, job.made.plans.values()) for job in (after, before))
    assert then - now >= saving.settings


def test_widths_are_left_alone_where_nothing_nearly_agrees() -> None:
    assert fewer_settings(planned(DEEP.replace("width = 28", "width = 25"))) is None


def test_a_plan_for_looser_limits_is_none_for_the_job_as_it_is(
    deep: PlannedJob, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It spends less, yet sheets are over the limits. Taken for the job's own, it hid what changes save."""
    trials = Trials(deep, lambda: False)
    own = dict(trials.plans)

    def bent(problem: object, before: Plan, *_: object) -> Plan:
        figures = replace(before.figures, money=before.figures.money - 1)
        return replace(before, figures=figures, findings=(over_limit("sheet 1", ()),))

    (depth,) = (one for one in candidates(deep) if " deep " in one.changes[0].what)
    glance = trials.glance(depth)
    assert glance is not None
    monkeypatch.setattr(saving_trials, "cheapest_again", bent)
    trials.smallest(depth, glance)
    assert trials.plans == own


def test_what_more_search_saves_is_the_first_line_and_planning_again_gives_it(tmp_path: Path) -> None:
    wasted = _wasted()
    first = look_for_savings(wasted)[0]
    assert first.what == PLANNING_AGAIN and first.edits == () and first.saved.sheets >= 1
    shelf = FileShelf(tmp_path / "job.plan.json")
    shelf.keep(wasted, first=True)
    shelf.keep_start(wasted, wasted.worked.with_plan(first.plans))
    stands = plan_on_record(wasted.worked, shelf).planned
    assert stands.plan_name == wasted.plan_name
    none = SearchEffort(seconds=0.0)
    made = plan_on_record(wasted.worked, shelf, Choice.AGAIN, none)
    again = made.planned
    assert any("moving parts saves 1 sheet, 96.00." in line for line in made.news)
    assert bought(again).less_than(bought(wasted)) == first.saved
    assert "better" not in shelf.path.read_text(encoding="utf-8")


def test_what_was_not_tried_and_what_came_to_nothing_is_said(
    deep: PlannedJob, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    monkeypatch.setattr(savings_module, "GLANCES", 0.0)
    look_for_savings(deep, said.append)
    assert said[0].startswith("Not tried, as there was no time left for it: base cases ")
    monkeypatch.undo()
    monkeypatch.setattr(Trials, "smallest", lambda *_: None)
    said.clear()
    look_for_savings(deep, said.append)
    assert any("no saving after all" in one for one in said)


def _wasted() -> PlannedJob:
    """A plan of record that wastes a sheet: the deep cases' plan with shallower parts in it."""
    worked = open_job(DEEP.replace("24 1/4", "23"))
    then = planned(DEEP)
    return worked.with_plan({m: keep_plan(one, then.plans[m]) for m, one in worked.problems.items()})
