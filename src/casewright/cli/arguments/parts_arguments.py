"""The arguments of `casewright parts JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json

EXAMPLE = """\
for example:
  casewright parts studio.toml
  casewright parts studio.toml --json | jq '.[] | select(.material == "maple")'

A size marked ~ is rounded to the shop's rule; --json also prints the exact size.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    add_json(parser)
