"""The arguments of `casewright explain JOB NAME`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json

EXAMPLE = """\
for example:
  casewright explain studio.toml B1-B             every size of the bottom of case B1
  casewright explain studio.toml B1-B.length      one size
  casewright explain studio.toml B1-B.length -d 9  back to what was measured or chosen
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument("name", help="a part's mark, a case's mark, or a size such as B1-B.length")
    parser.add_argument(
        "-d", "--deep", type=int, default=1, metavar="N", help="how many steps to trace back (1)"
    )
    add_json(parser)
