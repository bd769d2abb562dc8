"""The arguments of `casewright packet JOB --out FOLDER`."""

from __future__ import annotations

import argparse

from ...app.choices import FORMATS
from .common_arguments import add_job_argument, add_json
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

EXAMPLE = f"""\
for example:
  casewright packet studio.toml                      into the folder studio-packet
  casewright packet studio.toml --out bench --only pdf csv

{PLAN_HELP}
exit codes: 0 written, 1 written but something is missing, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--out", metavar="FOLDER", help="the folder to write; by default named after the job file"
    )
    parser.add_argument(
        "--only",
        nargs="+",
        choices=FORMATS,
        default=FORMATS,
        metavar="FORMAT",
        help=f"of {', '.join(FORMATS)}",
    )
    add_plan_arguments(parser)
    add_json(parser)
