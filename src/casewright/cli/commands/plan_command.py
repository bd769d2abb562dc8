"""`casewright plan JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.sheets.job_plan import plan_json, plan_words
from ..job_input import read_job_text
from ..printing import print_json, reporter


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    made = worked.planned(arguments.seconds, arguments.seed, arguments.cores, reporter(arguments)).made
    if arguments.json:
        print_json(plan_json(made))
    else:
        print(plan_words(made))
    return 0 if made.complete else 1
