"""The arguments of `casewright hang JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json

EXAMPLE = """\
for example:
  casewright hang studio.toml    studs, screws, shims and cut lines, case by case

What stands behind a wall's face is said in the job file, under framing of a run; how flat it is under
wall_gaps, left_gaps and right_gaps.

exit codes: 0 every row meets the design values, 1 some do not or are in doubt, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    add_json(parser)
