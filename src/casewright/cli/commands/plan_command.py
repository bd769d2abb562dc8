"""`casewright plan JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.sheets.plan_file import plan_json
from ...app.sheets.plan_text import plan_words
from ..job_input import read_job_text
from ..planned_job import planned_job, shelf_of
from ..printing import print_json


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    planned = planned_job(worked, arguments, may_make=True)
    if arguments.json:
        print_json(plan_json(planned, shelf_of(arguments).made()))
    else:
        print(f"Plan {planned.plan_name}\n\n{plan_words(planned)}")
    return 0 if planned.made.complete else 1
