"""The arguments of `casewright check JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json, add_progress

EXAMPLE = """\
for example:
  casewright check studio.toml
  line 41, cases.B2.bays[0].fixed: above the fixed shelves -2 1/4" of height would be left. Lower or drop ...

exit codes: 0 no findings, 1 findings to look at, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    add_json(parser)
    add_progress(parser)
