"""The arguments of `casewright steps JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

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
