"""The arguments of `casewright slack JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

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
