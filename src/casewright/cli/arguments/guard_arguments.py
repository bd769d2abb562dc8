"""The arguments of `casewright guard JOB MARK DIMENSION LENGTH`."""

from __future__ import annotations

import argparse

from ...app.choices import DIMENSIONS
from .common_arguments import add_job_argument, add_json
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

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
