"""The arguments of `casewright fit JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json
from .number_arguments import percentage
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

EXAMPLE = f"""\
for example:
  casewright fit studio.toml                       what happens to each case at the dry fit
  casewright fit studio.toml --advice              what to do otherwise: minutes it takes and saves
  casewright fit studio.toml --measure             the few readings worth taking, and where to write them
  casewright fit studio.toml --case B1             every joint of one case
  casewright fit studio.toml --case B1 --advice    what to do otherwise for that case
  casewright fit studio.toml --picture "B1: B1-K in the groove of B1-R" gap.svg
  casewright fit studio.toml --cut B1-L,B1-R --read "B1-L.width=24 1/16"
                                                   what a measurement breaks, and what mends it
  casewright fit studio.toml --diagonals B1 "47 7/8" "47 5/8"
                                                   which corners to draw in, and by how much

Chances assume normally distributed errors of the sizes set for the shop in the job file.

{PLAN_HELP}"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--limit",
        type=percentage,
        default=0.01,
        metavar="PERCENT",
        help="list joints likelier than this to fail (1)",
    )
    parser.add_argument(
        "--case",
        metavar="MARK",
        help="list every joint of this case or run; with --advice or --measure, what helps there",
    )
    parser.add_argument("--advice", action="store_true", help="list what saves more time than it takes")
    parser.add_argument(
        "--measure",
        action="store_true",
        help="list the few readings that save more time than they take",
    )
    parser.add_argument(
        "--read", action="append", default=[], metavar="NAME=LENGTH", help="a size as measured"
    )
    parser.add_argument(
        "--sure", action="store_true", help="use the readings as typed, even those that look like a slip"
    )
    parser.add_argument("--cut", default="", metavar="MARKS", help="parts already cut, separated by commas")
    parser.add_argument(
        "--diagonals",
        nargs=3,
        metavar=("CASE", "RISING", "FALLING"),
        help="check from its two diagonals whether a case is square",
    )
    parser.add_argument("--picture", nargs=2, metavar=("GAP", "FILE"), help="draw one gap's chain as SVG")
    add_plan_arguments(parser)
    add_json(parser)
