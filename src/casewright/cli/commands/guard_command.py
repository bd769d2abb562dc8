"""`casewright guard JOB MARK DIMENSION LENGTH`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.prevention import guard
from ..job_input import read_job_text
from ..printing import as_entry, print_json


def run(arguments: argparse.Namespace) -> int:
    project = open_job(read_job_text(arguments.job)).needed()
    found = guard(project, arguments.mark, arguments.dimension, arguments.length)
    if arguments.json:
        print_json(as_entry(found))
    else:
        print(f"{found.text}{' ' + found.fix if found.fix else ''}")
    return 0 if found.code == "right" else 1
