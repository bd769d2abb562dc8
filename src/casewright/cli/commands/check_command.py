"""`casewright check JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...findings import Weight, refusals
from ..job_input import add_job_argument, read_job_text
from ..printing import add_json, add_progress, as_entry, print_json, reporter

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


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    tell = reporter(arguments)
    if tell and worked.project:
        tell(f"building solid models of {len(worked.project.parts)} parts")
    found = worked.all_findings
    refused = bool(refusals(found))
    code = 2 if refused else int(any(one.weight is not Weight.NOTE for one in found))
    if arguments.json:
        status = "refused" if refused else "warned" if code else "fine"
        print_json({"status": status, "findings": [as_entry(finding) for finding in found]})
        return code
    for finding in found:
        print(finding)
    if worked.project is not None and not refused:
        cases, parts = len(worked.project.cases), len(worked.project.parts)
        print(f"{cases} cases, {parts} parts: the job can be built as written.")
    return code
