"""`casewright slack JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.papers.write_whole import write_whole
from ...app.prevention import insure_plans, slack
from ...app.sheets.plan_file import plan_bytes
from ..job_input import add_job_argument, read_job_text
from ..plan_arguments import PLAN_HELP, add_plan_arguments, planned_job
from ..printing import add_json, print_json

EXAMPLE = f"""\
for example:
  casewright slack studio.toml                   which parts the plan's own leftovers could replace
  casewright slack studio.toml --insure          is there a plan of the same money that covers more?
  casewright slack studio.toml --insure --out plan.json     write that plan, to cut by with --plan

{PLAN_HELP}
exit codes: 0 every part is covered, 1 some would cost a sheet, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    add_plan_arguments(parser)
    parser.add_argument(
        "--insure",
        action="store_true",
        help="look for a plan that costs no more and whose leftovers replace more parts",
    )
    parser.add_argument("--out", metavar="FILE", help="where to write the plan that --insure finds")
    parser.add_argument("--force", action="store_true", help="replace an existing file")
    add_json(parser)


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
