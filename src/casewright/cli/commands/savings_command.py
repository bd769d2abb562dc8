"""`casewright savings JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import PlannedJob, open_job
from ...app.papers.write_whole import write_whole
from ...app.sheets.savings import Saving, look_for_savings, saved_text, savings_json
from ...errors import CasewrightError
from ..job_input import read_job_text
from ..planned_job import planned_job
from ..printing import print_json, reporter


def run(arguments: argparse.Namespace) -> int:
    if (arguments.choose is None) != (arguments.out is None):
        raise CasewrightError("--choose N and --out FILE must be used together.")
    planned = planned_job(open_job(read_job_text(arguments.job)), arguments)
    found = look_for_savings(planned, reporter(arguments))
    if arguments.json:
        print_json({"plan": planned.plan_name, "savings": savings_json(found)})
    else:
        _tell(planned, found)
    if arguments.choose is not None:
        if not 1 <= arguments.choose <= len(found):
            raise CasewrightError(f"--choose {arguments.choose}: choose a number from the list of savings.")
        chosen = saved_text(planned, found[arguments.choose - 1])
        write_whole(arguments.out, chosen.encode(), over=arguments.force)
        if not arguments.json:
            print(f"The changed job is written to {arguments.out}. Now run: casewright plan {arguments.out}")
    return 0 if found else 1


def _tell(planned: PlannedJob, found: tuple[Saving, ...]) -> None:
    if not found:
        print("Nothing that was tried saves a sheet: depths, heights, trim, carrying limits.")
    for number, saving in enumerate(found, 1):
        print(f"{number}. {saving.what}: {saving.saves(planned.project.job.money)}")
        print(f"   ({saving.touches})")
