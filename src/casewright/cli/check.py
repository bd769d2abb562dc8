"""`casewright check JOB`."""

from __future__ import annotations

import argparse

from ..app.jobs import check
from ..findings import Weight
from .files import add_job, read_job_text
from .shown import add_json, add_progress, as_entry, print_json, reporter

EXAMPLE = """\
for example:
  casewright check studio.toml
  line 41, cases.B2.bays[0].fixed: above the fixed shelves -2 1/4" of height would be left. Lower or drop ...

exit codes: 0 nothing to say, 1 something to look at, 2 no parts can be made of it
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    add_json(parser)
    add_progress(parser)


def run(arguments: argparse.Namespace) -> int:
    checked = check(read_job_text(arguments.job), reporter(arguments))
    code = 2 if checked.refused else int(any(one.weight is not Weight.NOTE for one in checked.findings))
    if arguments.json:
        status = "refused" if checked.refused else "warned" if code else "fine"
        print_json({"status": status, "findings": [as_entry(finding) for finding in checked.findings]})
        return code
    for finding in checked.findings:
        print(finding)
    if checked.project is not None and not checked.refused:
        cases, parts = len(checked.project.cases), len(checked.project.parts)
        print(f"{cases} cases, {parts} parts: they can be built as written.")
    return code
