"""The arguments of `casewright shop-figures JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json
from .serve_arguments import FILE

EXAMPLE = f"""\
for example:
  casewright shop-figures studio.toml                        what the readings in {FILE} say
  casewright shop-figures studio.toml --record barn.casewright
  casewright shop-figures studio.toml --yes                  write the figures into studio.toml

Only caliper readings count: a rule errs by more than a good setting does. `casewright shop-test` is the
quickest way to take some.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--record", default=FILE, metavar="FILE", help=f"the file that holds the shop's record ({FILE})"
    )
    parser.add_argument(
        "--yes", action="store_true", help="write the figures into the job file; without this, only list them"
    )
    add_json(parser)
