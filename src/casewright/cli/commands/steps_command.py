"""`casewright steps JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.shop.step_list import known_part, steps_json, steps_words
from ..job_input import read_job_text
from ..planned_job import planned_job, shelf_of
from ..printing import print_json


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    known_part(worked.needed(), arguments.part)
    planned = planned_job(worked, arguments)
    done = shelf_of(arguments).made().steps
    if arguments.json:
        print_json(steps_json(planned, arguments.part, done))
    else:
        print(steps_words(planned, arguments.part, done))
    return 0 if planned.made.complete else 1
