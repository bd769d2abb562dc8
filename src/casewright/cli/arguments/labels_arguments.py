"""The arguments of `casewright labels JOB`."""

from __future__ import annotations

import argparse

from ...app.choices import LABEL_STOCKS
from .common_arguments import add_job_argument, add_json
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

EXAMPLE = f"""\
for example:
  casewright labels studio.toml
  casewright labels studio.toml --on "roll 62 x 29 mm" --part B1-L --out again.pdf

{PLAN_HELP}
exit codes: 0 written, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--on",
        choices=LABEL_STOCKS,
        metavar="PAPER",
        help=f"what the printer holds: {', '.join(LABEL_STOCKS)}",
    )
    parser.add_argument("--part", nargs="+", default=[], metavar="MARK", help="only these parts")
    parser.add_argument(
        "--out", metavar="FILE", help="the PDF file to write; by default named after the job file"
    )
    parser.add_argument(
        "--address",
        default="",
        metavar="ADDRESS",
        help="address behind each label's code, followed by the part's mark, as in http://192.168.1.20:8411/jobs/studio/shop#",
    )
    add_plan_arguments(parser)
    add_json(parser)
