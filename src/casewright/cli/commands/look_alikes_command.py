"""`casewright look-alikes JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.prevention import alike_lines
from ..job_input import read_job_text
from ..printing import print_json


def run(arguments: argparse.Namespace) -> int:
    found = alike_lines(open_job(read_job_text(arguments.job)))
    if arguments.json:
        print_json([line.plain() for line in found])
    elif not found:
        print("No two parts are easily confused.")
    else:
        for line in found:
            print(line.head())
            print(f"   {line.advice}")
    return 1 if found else 0
