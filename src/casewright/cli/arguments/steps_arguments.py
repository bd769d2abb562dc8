"""The arguments of `casewright steps JOB`."""

from __future__ import annotations

import argparse

from ...app.choices import SECONDS
from .common_arguments import add_job_argument, add_json, add_progress
from .number_arguments import seconds

EXAMPLE = """\
for example:
  casewright steps studio.toml
  casewright steps studio.toml --part B1-L

exit codes: 0 every part has a place on a sheet, 1 some part fits no sheet, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument("--part", metavar="MARK", help="only the steps of this part")
    parser.add_argument(
        "--seconds", type=seconds, default=SECONDS, metavar="N", help=f"how long to plan sheets ({SECONDS:g})"
    )
    add_json(parser)
    add_progress(parser)
