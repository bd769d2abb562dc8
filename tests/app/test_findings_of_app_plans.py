"""Every finding about the plan of record, and the nearest plan that stands."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.sheets.begun_work import BegunWork
from casewright.app.sheets.made_already import SizeAsMade
from casewright.app.sheets.plan_file import plan_bytes
from casewright.app.sheets.plan_keeping import Choice, FileShelf, NoShelf, SearchEffort, plan_on_record
from casewright.findings import Finding
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from finding_rows import Provoke, Row, check, each, told
from job_texts import ALCOVE

WIDER = ALCOVE.replace("width = 28", "width = 28.25")
OTHER_JOB = ALCOVE.replace('job = "Alcove"', 'job = "Attic"')
OTHER_MARKS = OTHER_JOB.replace('"B1"', '"N1"').replace('"B2"', '"N2"')


def short_of(count: int) -> str:
    """A job whose sides come only out of a larger sheet, of which there are so many; one holds two of the
    four."""
    larger = f'others = [{{ name = "long", size = [96, 48], count = {count}, price = 96 }}]'
    return ALCOVE.replace('readings = ["23/32"]', f'readings = ["23/32"]\nsize = [30, 48]\n{larger}')


def stocked(count: int) -> Provoke:
    return lambda: open_job(short_of(count)).findings


@cache
def planned() -> PlannedJob:
    worked = open_job(ALCOVE)
    stop = MaxIterations(5)  # counted, so that the plan has one name
    return worked.with_plan({key: solve(problem, stop) for key, problem in worked.problems.items()})


@cache
def kept() -> str:
    """The plan file of the job."""
    return plan_bytes(planned()).decode()


def on_shelf(plan: str, job: str = ALCOVE, choice: Choice = Choice.ASK) -> Provoke:
    """The job planned with this plan file beside it."""

    def findings() -> tuple[Finding, ...]:
        with TemporaryDirectory() as folder:
            file = Path(folder) / "alcove.plan.json"
            file.write_text(plan, encoding="utf-8")
            found = told(lambda: plan_on_record(open_job(job), FileShelf(file), choice, SearchEffort(0.1)))
            return tuple(Finding(f.code, Path(f.place).name, f.text, f.fix, f.weight) for f in found)

    return findings


def changed(**entries: object) -> str:
    """The plan file with other entries at its head."""
    return json.dumps({**json.loads(kept()), **entries})


def renumbered() -> str:
    """The plan file with the number of a sheet changed by hand."""
    plain = json.loads(kept())
    plain["exact"]["ply"]["sheets"][0][0] += 7
    return json.dumps(plain)


def searched(*, stopped: bool) -> Provoke:
    """Planned with too few of the sheets that the sides come out of, and stopped at once or not."""
    effort = SearchEffort(0.1, stopped=lambda: stopped)
    return lambda: told(lambda: plan_on_record(open_job(short_of(1)), NoShelf(), effort=effort))


def no_room() -> Provoke:
    """Carried over to a job with a material that the plan does not have."""
    shelves = 'case = "ply"\nback = "thin"\nshelf = "mdf"\n\n[materials.mdf]\nsheet = "mdf 3/4"'
    return on_shelf(kept(), ALCOVE.replace('case = "ply"\nback = "thin"', shelves), Choice.KEEP)


def begun(*marks: str) -> Provoke:
    """The job planned again a little wider, after these parts were cut to the sizes of before."""
    project = planned().project
    sizes = {mark: project.dimensions(project.parts[mark])[:2] for mark in marks}
    made = {mark: SizeAsMade("ply", length, width) for mark, (length, width) in sizes.items()}
    wider = open_job(WIDER).needed()
    return lambda: told(lambda: BegunWork(good=made).refuse_changes_of_made_parts(wider))


NAME = planned().plan_name
SOUND = on_shelf(kept())
ROWS = [
    Row(
        "too-few-sheets",
        "materials.ply",
        "not enough of “long” (1) for B1-L, B1-R, B1-FL, B2-L, B2-R",
        "raise the count",
        stocked(1),
        stocked(2),
    ),
    Row("plan-unreadable", "alcove.plan.json", "no sheet plan", "Move it away", on_shelf("{"), SOUND),
    Row("plan-unreadable", "alcove.plan.json", "changed by hand", "copy", on_shelf(renumbered()), SOUND),
    Row("plan-unreadable", "alcove.plan.json", "newer version", "Update", on_shelf(changed(layout=5)), SOUND),
    Row(
        "plan-of-another",
        "alcove.plan.json",
        "another job, “Alcove”",
        "--plan",
        on_shelf(kept(), OTHER_MARKS),
        on_shelf(kept(), OTHER_JOB),
    ),
    Row(
        "plan-outdated",
        f"plan {NAME}",
        "in the plan",
        "--keep",
        on_shelf(kept(), WIDER),
        on_shelf(kept(), ALCOVE + "# a comment\n"),
    ),
    Row(
        "plan-not-kept",
        f"plan {NAME}",
        "has room",
        "--again",
        no_room(),
        on_shelf(kept(), WIDER, Choice.KEEP),
    ),
    Row(
        "stopped-unplaced",
        "sheets",
        "there is no plan yet",
        "Plan again",
        searched(stopped=True),
        searched(stopped=False),
    ),
    Row(
        "part-already-cut",
        "B2-B",
        "cut already, 27 1/16 × 24, and the job now has it 27 5/16 × 24",
        "Put right page",
        begun("B2-B"),
        begun("B2-L"),
    ),
]


@each(ROWS)
def test_each_finding_of_a_plan_and_its_near_miss(row: Row) -> None:
    check(row)
