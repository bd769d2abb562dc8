"""The arguments of `casewright costs JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

EXAMPLE = f"""\
for example:
  casewright costs studio.toml                                what the job costs, line by line
  casewright costs studio.toml --quote quote.pdf              a quote for the customer, on one page
  casewright costs studio.toml --against mdf.toml big.toml    the same beside two other ways to build it

Prices stand with the materials and in the table [costs] of the job file; what has none is said to
have none.
With --against, each job is planned for the same seconds, a material that is cut alike only once.

{PLAN_HELP}
exit codes: 0 everything has a price, 1 something has none, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--against", nargs="+", default=[], metavar="JOB", help="one or two other job files to compare with"
    )
    parser.add_argument("--quote", metavar="FILE", help="write the quote for the customer, a PDF")
    parser.add_argument("--force", action="store_true", help="replace an existing file")
    add_plan_arguments(parser)
    add_json(parser)
