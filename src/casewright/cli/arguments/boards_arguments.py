"""The arguments of `casewright boards JOB`."""

from __future__ import annotations

import argparse

from ...app.choices import BOARD_LOTS
from .common_arguments import add_job_argument, add_json, add_progress

EXAMPLE = """\
for example:
  casewright boards studio.toml               how much to buy, to be 95 times in 100 sure
  casewright boards studio.toml --lots 200    the same from more lots

Lots of the grade are drawn from a seed, board after board with their defects, until all parts can be cut from
them beside the boards at hand. How the boards of a grade are spread is an assumption: your yard's rack tells
better. Once you have the boards, enter them under at_hand, and plan.

exit codes: 0 it can be said for each wood, 1 it cannot for one, or no wood is bought as boards,
2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--lots",
        type=int,
        default=BOARD_LOTS,
        metavar="N",
        help=f"how many lots to draw; {BOARD_LOTS} if left out",
    )
    parser.add_argument("--seed", type=int, default=0, metavar="N", help="draw other lots")
    add_progress(parser)
    add_json(parser)
