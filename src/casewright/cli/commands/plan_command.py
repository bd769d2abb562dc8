"""`casewright plan JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.sheets.plan_file import plan_json
from ...app.sheets.plan_search import plan_words
from ..job_input import add_job_argument, read_job_text
from ..number_arguments import count, seed
from ..plan_arguments import PLAN_HELP, add_plan_arguments, planned_job
from ..printing import add_json, print_json

EXAMPLE = f"""\
for example:
  casewright plan studio.toml                        the plan there is; the first time, make one
  casewright plan studio.toml --again --seconds 30   look for a better one, starting from it

{PLAN_HELP}
exit codes: 0 every part has a place on a sheet, 1 some part fits no sheet, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    add_plan_arguments(parser)
    parser.add_argument(
        "--seed",
        type=seed,
        default=0,
        metavar="N",
        help="seed of the search: a different number may find a different plan (0)",
    )
    parser.add_argument("--cores", type=count, default=1, metavar="N", help="processor cores to use (1)")
    add_json(parser)


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    planned = planned_job(worked, arguments, may_make=True)
    if arguments.json:
        print_json(plan_json(planned))
    else:
        print(f"Plan {planned.plan_name}\n\n{plan_words(planned.made)}")
    return 0 if planned.made.complete else 1
