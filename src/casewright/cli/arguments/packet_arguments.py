"""The arguments of `casewright packet JOB --out FOLDER`."""

from __future__ import annotations

import argparse

from ...app.choices import FORMATS, MOMENTS
from .common_arguments import add_job_argument, add_json
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

EXAMPLE = f"""\
for example:
  casewright packet studio.toml                      into the folder studio-packet
  casewright packet studio.toml --out bench --only pdf csv
  casewright packet studio.toml --moment saw maps    what is needed at the table saw, alone
  casewright packet studio.toml --case B2            one case, to put together

{PLAN_HELP}
exit codes: 0 written, 1 written but something asked for is missing, 2 the job cannot be built
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
    parser.add_argument(
        "--moment",
        nargs="+",
        choices=MOMENTS,
        default=[],
        metavar="MOMENT",
        help=f"only the leaves of these moments of the day, of {', '.join(MOMENTS)}",
    )
    parser.add_argument(
        "--case",
        nargs="+",
        default=[],
        metavar="CASE",
        help="only the leaves of these cases: worked parts, assembly, back",
    )
    add_plan_arguments(parser)
    add_json(parser)
