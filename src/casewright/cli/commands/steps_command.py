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
    made = shelf_of(arguments).made()
    if arguments.json:
        told = steps_json(planned, arguments.part, made.steps, made.changes)
        print_json({**told, "put_right": list(made.mends)})
    else:
        if made.mends:
            print("To put right, by the way that was chosen:")
            for mend in made.mends:
                print(f"   [ ] {mend}")
        print(steps_words(planned, arguments.part, made.steps, made.changes))
    return 0 if planned.made.complete else 1
