"""The arguments of `casewright shop-test JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json

EXAMPLE = """\
for example:
  casewright shop-test studio.toml                           what to cut and read, with blanks
  casewright shop-test studio.toml --read "strip 1=3.004" --read "strip 2=3.001"
  casewright shop-test studio.toml --readings test.txt       a file with a reading a line: strip 1 = 3.004
  casewright shop-test studio.toml --readings test.txt --yes
                                                             write the figures into studio.toml

A reading without a unit is in the job's unit. Blanks may stay empty.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--read", action="append", default=[], metavar="BLANK=LENGTH", help="one reading, by its blank"
    )
    parser.add_argument("--readings", metavar="FILE", help="a file of readings, one a line")
    parser.add_argument(
        "--yes", action="store_true", help="write the figures into the job file; without this, only list them"
    )
    add_json(parser)
