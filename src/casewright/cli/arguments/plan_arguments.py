"""The arguments of `casewright plan JOB`."""

from __future__ import annotations

import argparse

from ...app.choices import SECONDS
from .common_arguments import add_job_argument, add_json, add_progress
from .number_arguments import count, seconds, seed

EXAMPLE = """\
for example:
  casewright plan studio.toml
  casewright plan studio.toml --seconds 30 --progress

exit codes: 0 every part has a place on a sheet, 1 some part fits no sheet, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--seconds", type=seconds, default=SECONDS, metavar="N", help=f"how long to search ({SECONDS:g})"
    )
    parser.add_argument(
        "--seed",
        type=seed,
        default=0,
        metavar="N",
        help="seed of the search: a different number may find a different plan (0)",
    )
    parser.add_argument("--cores", type=count, default=1, metavar="N", help="processor cores to use (1)")
    add_json(parser)
    add_progress(parser)
