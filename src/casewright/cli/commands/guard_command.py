"""`casewright guard JOB MARK DIMENSION LENGTH`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.prevention import DIMENSIONS, guard, source_sheet
from ..job_input import add_job_argument, read_job_text
from ..plan_arguments import PLAN_HELP, add_plan_arguments, planned_job
from ..printing import add_json, as_entry, print_json

EXAMPLE = f"""\
for example:
  casewright guard studio.toml B1-L length "34 1/2"    before the cut: is the fence right?

{PLAN_HELP}
exit codes: 0 the setting is right, 1 it is wrong, 2 unknown part or not a length
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument("mark", help="the part about to be cut")
    parser.add_argument("dimension", choices=DIMENSIONS, help="the dimension to be cut")
    parser.add_argument("length", help="the length measured from the fence to the near side of the blade")
    add_plan_arguments(parser)
    add_json(parser)


def run(arguments: argparse.Namespace) -> int:
    planned = planned_job(open_job(read_job_text(arguments.job)), arguments)
    found = guard(planned.project, arguments.mark, arguments.dimension, arguments.length)
    source = source_sheet(planned, arguments.mark)
    if arguments.json:
        print_json({"plan": planned.plan_name, "from": source, **as_entry(found)})
    else:
        print(f"{found.text}{' ' + found.fix if found.fix else ''}")
        print(f"It is cut from {source} (plan {planned.plan_name}).")
    return 0 if found.code == "right" else 1
