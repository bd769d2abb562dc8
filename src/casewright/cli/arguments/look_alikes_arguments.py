"""The arguments of `casewright look-alikes JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json

EXAMPLE = """\
for example:
  casewright look-alikes studio.toml    17 1/4 beside 18 1/4, and how to tell them apart

Nearly square parts whose grain matters and lefts and rights that are mirror images come last.

exit codes: 0 no two parts are easily confused, 1 some are, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    add_json(parser)
