"""`casewright steps JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.shop.step_list import known_part, steps_json, steps_words
from ..job_input import add_job_argument, read_job_text
from ..plan_arguments import PLAN_HELP, add_plan_arguments, planned_job
from ..printing import add_json, print_json

EXAMPLE = f"""\
for example:
  casewright steps studio.toml
  casewright steps studio.toml --part B1-L

{PLAN_HELP}
exit codes: 0 every part has a place on a sheet, 1 some part fits no sheet, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument("--part", metavar="MARK", help="only the steps of this part")
    add_plan_arguments(parser)
    add_json(parser)


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    known_part(worked.needed(), arguments.part)
    planned = planned_job(worked, arguments)
    if arguments.json:
        print_json(steps_json(planned, arguments.part))
    else:
        print(steps_words(planned, arguments.part))
    return 0 if planned.made.complete else 1
