"""`casewright schema [job | problem | answer]`."""

from __future__ import annotations

import argparse
import json

from ...app.jobs.job_file import schema
from ...app.sheets.any_problem import answer_schema, problem_schema

EXAMPLE = """\
for example, to have an editor help with job files:
  casewright schema > job.schema.json
"""

SCHEMAS = {"job": schema, "problem": problem_schema, "answer": answer_schema}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.description = (
        "Print the JSON schema of a job file, or of what the breakdown command reads or prints."
    )
    parser.add_argument(
        "form", nargs="?", choices=list(SCHEMAS), default="job", help="which schema to print (job)"
    )


def run(arguments: argparse.Namespace) -> int:
    print(json.dumps(SCHEMAS[arguments.form](), ensure_ascii=False, indent=2))
    return 0
