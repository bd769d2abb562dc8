"""What would save a sheet: each saving is checked by planning both jobs; the changes and their words hold."""

from __future__ import annotations

from casewright.app.editing.text_edits import apply_edits
from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.sheets.saving_candidates import candidates
from casewright.app.sheets.savings import look_for_savings, saved_text
from casewright.planner.verify.verify import verify
from casewright.workshop.sheets.purchases import bought_in_all
from job_texts import ALCOVE

SHOP = '[base]\ndepth = "24 1/4"\n\n[shop.carry]\nweight = 200\nlength = 120\n\n[[runs]]'
DEEP = ALCOVE.replace("[[runs]]", SHOP, 1)


def planned(text: str) -> PlannedJob:
    return open_job(text).planned(0.5)


def test_a_saving_is_what_planning_both_jobs_gives() -> None:
    before = planned(DEEP)
    found = look_for_savings(before)
    assert found
    best = found[0]
    assert best.saved.sheets >= 1 and "deep in place of 24 1/4" in best.what
    after = planned(saved_text(before, best))
    for material, plan in after.plans.items():
        assert verify(after.worked.problems[material], plan) == ()
    assert bought_in_all(after.purchases).less_than(bought_in_all(before.purchases)) == best.saved
    # The next mark deeper would not save as much: the change is the smallest.
    (depth,) = (c for c in candidates(before.project, before.worked.values) if "deep" in c.words(1))
    steps = next(n for n in range(1, depth.steps + 1) if depth.words(n) == best.what)
    if steps > 1:
        larger = planned(apply_edits(DEEP, depth.edits(steps - 1)))
        assert bought_in_all(larger.purchases).less_than(bought_in_all(before.purchases)) < best.saved


def test_a_job_that_nothing_would_help_is_told_so_and_the_search_can_be_stopped() -> None:
    small = planned(ALCOVE)
    assert all(saving.saved.sheets > 0 for saving in look_for_savings(small))
    asked: list[bool] = []

    def stop() -> bool:
        asked.append(True)
        return True

    assert look_for_savings(planned(DEEP), stopped=stop) == () and asked


def test_cases_of_one_depth_change_together_and_none_of_another() -> None:
    text = ALCOVE.replace('mark = "B2"\nkind = "base"', 'mark = "B2"\nkind = "base"\ndepth = 20')
    job = open_job(text)
    deep = [c for c in candidates(job.needed(), job.values) if " deep " in c.words(1)]
    assert len(deep) == 2
    for candidate, (changed, same) in zip(deep, (("B1", "B2"), ("B2", "B1")), strict=True):
        after = open_job(apply_edits(text, candidate.edits(4))).needed()
        depths = {
            case.mark: case.depth for project in (after,) for run in project.job.runs for case in run.cases
        }
        was = {case.mark: case.depth for run in job.needed().job.runs for case in run.cases}
        assert depths[changed] < was[changed] and depths[same] == was[same]


def test_every_change_that_is_tried_is_a_job_in_its_words() -> None:
    job = open_job(ALCOVE)
    tried = list(candidates(job.needed(), job.values))
    assert any("trimmed off" in c.words(1) for c in tried) and any("helper" in c.words(1) for c in tried)
    for candidate in tried:
        after = open_job(apply_edits(ALCOVE, candidate.edits(1)))
        assert after.project is not None and after.text != ALCOVE, candidate.words(1)
