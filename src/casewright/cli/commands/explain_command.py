"""`casewright explain JOB NAME`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.views.parts_page import Reason, reasons
from ..job_input import read_job_text
from ..printing import print_json


def run(arguments: argparse.Namespace) -> int:
    found = reasons(open_job(read_job_text(arguments.job)).needed(), arguments.name, arguments.deep)
    if arguments.json:
        print_json([reason.plain() for reason in found])
        return 0
    for reason in found:
        _print(reason, "")
    return 0


def _print(reason: Reason, indent: str) -> None:
    print(f"{indent}{reason.name}: {reason.sentence}")
    for inner in reason.because:
        _print(inner, f"{indent}  ")
