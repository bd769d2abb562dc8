"""`casewright schema [job | problem | answer]`."""

from __future__ import annotations

import argparse
import json

from ...app.jobs.job_file import schema
from ...app.sheets.any_problem import answer_schema, problem_schema

SCHEMAS = {"job": schema, "problem": problem_schema, "answer": answer_schema}


def run(arguments: argparse.Namespace) -> int:
    print(json.dumps(SCHEMAS[arguments.form](), ensure_ascii=False, indent=2))
    return 0
