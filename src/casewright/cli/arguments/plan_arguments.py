"""The arguments of `casewright plan JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json
from .number_arguments import count, seed
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

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
        metavar="N",
        help="seed of the search: a different number may find a different plan (0)",
    )
    parser.add_argument("--cores", type=count, default=1, metavar="N", help="processor cores to use (1)")
    add_json(parser)
