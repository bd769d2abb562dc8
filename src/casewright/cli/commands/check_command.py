"""`casewright check JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...findings import Weight, refusals
from ..job_input import read_job_text
from ..printing import print_json, reporter


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
        print_json({"status": status, "findings": [finding.plain for finding in found]})
        return code
    for finding in found:
        print(finding)
    if worked.project is not None and not refused:
        cases, parts = len(worked.project.cases), len(worked.project.parts)
        print(f"{cases} cases, {parts} parts: the job can be built as written.")
    return code
