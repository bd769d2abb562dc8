"""The arguments of `casewright breakdown PROBLEM.json --seconds N --json`."""

from __future__ import annotations

import argparse

from .common_arguments import add_progress
from .number_arguments import count, seconds, seed

EXAMPLE = """\
for example:
  casewright breakdown problem.json --seconds 10 --json > plan.json
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("problem", help="the problem, a JSON file; - reads it from standard input")
    parser.add_argument("--seconds", type=seconds, default=2.0, metavar="N", help="how long to search (2)")
    parser.add_argument("--json", action="store_true", help="print the answer as JSON")
    parser.add_argument(
        "--seed",
        type=seed,
        default=0,
        metavar="N",
        help="seed of the search: a different number may find a different plan (0)",
    )
    parser.add_argument("--cores", type=count, default=1, metavar="N", help="processor cores to use (1)")
    add_progress(parser)
