"""`casewright explain JOB NAME`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.views.parts_page import Reason, reasons
from ..job_input import add_job_argument, read_job_text
from ..printing import add_json, print_json

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


def run(arguments: argparse.Namespace) -> int:
    found = reasons(open_job(read_job_text(arguments.job)).needed(), arguments.name, arguments.deep)
    if arguments.json:
        print_json([reason.plain() for reason in found])
        return 0
    for reason in found:
        _print(reason, "")
    return 0


def _print(reason: Reason, indent: str) -> None:
    print(f"{indent}{reason.name}: {reason.sentence}")
    for inner in reason.because:
        _print(inner, f"{indent}  ")
