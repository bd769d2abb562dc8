"""`casewright slack JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.papers.write_whole import write_whole
from ...app.prevention import insure_plans, slack
from ...app.sheets.plan_file import plan_bytes
from ..job_input import read_job_text
from ..planned_job import planned_job
from ..printing import print_json


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    planned = planned_job(worked, arguments)
    project, plans = planned.project, planned.plans
    found = slack(project, plans)
    if arguments.insure:
        found, plans = insure_plans(project, plans)
    if arguments.out:
        write_whole(arguments.out, plan_bytes(worked.with_plan(plans)), over=arguments.force)
    if arguments.json:
        print_json(found.plain())
        return 1 if found.bare else 0
    for mark, source in found.covered:
        print(f"{mark}  from {source}")
    if found.bare:
        print(f"No leftover is large enough for these; each would take a new sheet: {', '.join(found.bare)}.")
    print(f"Leftovers could replace {found.share:.0%} of the parts, one spoiled part at a time.")
    if found.better is not None:
        if found.better > found.share:
            print(f"Another plan at no extra cost could replace {found.better:.0%}.")
        else:
            print("No other plan at the same cost could replace more.")
    return 1 if found.bare else 0
