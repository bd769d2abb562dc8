"""`casewright slack JOB`."""

from __future__ import annotations

import argparse
import json

from ...app.jobs.job_file import load
from ...app.jobs.worked_job import open_job
from ...app.papers.write_whole import write_whole
from ...app.prevention import insure_plans, slack
from ...app.repair.mishap import cut_by
from ...app.repair.repair_page import exact_plans
from ..job_input import read_job_text
from ..printing import print_json


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    planned = cut_by(worked, load(arguments.plan) if arguments.plan else None)
    project, plans = planned.project, planned.plans
    found = slack(project, plans)
    if arguments.insure:
        found, plans = insure_plans(project, plans)
    if arguments.out:
        write_whole(arguments.out, json.dumps(exact_plans(plans)).encode(), over=arguments.force)
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
