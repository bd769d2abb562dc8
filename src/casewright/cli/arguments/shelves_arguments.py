"""The arguments of `casewright shelves JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json

EXAMPLE = """\
for example:
  casewright shelves studio.toml    every shelf: its load, how far it sags, and by whose figure it is judged

What shelves hold is said in the job file, under [loads], for a kind of case, a case or a single shelf.

exit codes: 0 every shelf meets its figure, 1 some do not or are in doubt, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    add_json(parser)
