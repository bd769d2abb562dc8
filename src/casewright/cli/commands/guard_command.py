"""`casewright guard JOB MARK DIMENSION LENGTH`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.prevention import guard, source_sheet
from ..job_input import read_job_text
from ..planned_job import planned_job
from ..printing import print_json


def run(arguments: argparse.Namespace) -> int:
    planned = planned_job(open_job(read_job_text(arguments.job)), arguments)
    found = guard(planned.project, arguments.mark, arguments.dimension, arguments.length)
    source = source_sheet(planned, arguments.mark)
    if arguments.json:
        print_json({"plan": planned.plan_name, "from": source, **found.plain})
    else:
        print(f"{found.text}{' ' + found.fix if found.fix else ''}")
        print(f"It is cut from {source} (plan {planned.plan_name}).")
    return 0 if found.code == "right" else 1
