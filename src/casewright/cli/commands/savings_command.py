"""`casewright savings JOB`."""

from __future__ import annotations

import argparse
import sys

from ...app.choices import SECONDS
from ...app.jobs.worked_job import PlannedJob, open_job
from ...app.papers.write_whole import write_whole
from ...app.sheets.plan_keeping import Choice, FileShelf, SearchEffort, plan_on_record
from ...app.sheets.savings import TRIED, Saving, look_for_savings, saved_text, savings_json
from ...errors import CasewrightError
from ..job_input import read_job_text
from ..planned_job import planned_job, shelf_of
from ..printing import print_json, reporter


def run(arguments: argparse.Namespace) -> int:
    if (arguments.choose is None) != (arguments.out is None):
        raise CasewrightError("--choose N and --out FILE must be used together.")
    planned = planned_job(open_job(read_job_text(arguments.job)), arguments)
    found = look_for_savings(planned, reporter(arguments))
    shelf, again = shelf_of(arguments), next((one for one in found if not one.edits), None)
    if again is not None and isinstance(shelf, FileShelf):
        shelf.keep_start(
            planned, planned.worked.with_plan(again.plans, planned.made.seconds, planned.made.seed)
        )
    if arguments.json:
        print_json({"plan": planned.plan_name, "savings": savings_json(found)})
    else:
        _tell(planned, found, arguments)
    if arguments.choose is not None:
        if not 1 <= arguments.choose <= len(found):
            raise CasewrightError(f"--choose {arguments.choose}: choose a number from the list of savings.")
        _make(planned, found[arguments.choose - 1], arguments)
    return 0 if found else 1


def _make(planned: PlannedJob, saving: Saving, arguments: argparse.Namespace) -> None:
    """Write the changed job, and beside it the plan that keeps what was promised."""
    text = saved_text(planned, saving)
    write_whole(arguments.out, text.encode(), over=arguments.force)
    print(f"The changed job is written to {arguments.out}.", file=sys.stderr)
    effort = SearchEffort(planned.made.seconds or SECONDS, planned.made.seed)
    shelf, report = FileShelf.beside(arguments.out), reporter(arguments)
    made = plan_on_record(open_job(text), shelf, Choice.AGAIN, effort, report, saving.plans)
    for line in made.news:
        print(line, file=sys.stderr)


def _tell(planned: PlannedJob, found: tuple[Saving, ...], arguments: argparse.Namespace) -> None:
    if not found:
        print(f"Nothing that was tried saves a sheet: {TRIED}.")
    for number, saving in enumerate(found, 1):
        print(f"{number}. {saving.what}: {saving.saves(planned.project.job.money)}")
        print(f"   ({saving.touches})")
        if not saving.edits and arguments.job != "-":
            plan = f" --plan {arguments.plan}" if arguments.plan else ""
            print(f"   casewright plan {arguments.job}{plan} --again")
