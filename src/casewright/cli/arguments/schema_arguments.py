"""The arguments of `casewright schema [job | problem | answer]`."""

from __future__ import annotations

import argparse

EXAMPLE = """\
for example, to have an editor help with job files:
  casewright schema > job.schema.json
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.description = (
        "Print the JSON schema of a job file, or of what the breakdown command reads or prints."
    )
    parser.add_argument(
        "form",
        nargs="?",
        choices=("job", "problem", "answer"),
        default="job",
        help="which schema to print (job)",
    )
