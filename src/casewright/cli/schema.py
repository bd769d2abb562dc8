"""`casewright schema`."""

from __future__ import annotations

import argparse
import json

from ..app.jobs import schema

EXAMPLE = """\
for example, to have an editor help with job files:
  casewright schema > job.schema.json
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.description = "Print the JSON schema of a job file."


def run(arguments: argparse.Namespace) -> int:
    print(json.dumps(schema(), ensure_ascii=False, indent=2))
    return 0
