"""`casewright labels JOB`."""

from __future__ import annotations

import argparse
from pathlib import Path

from ...app.jobs.worked_job import open_job
from ...app.papers.label_files import usual_stock, write_labels
from ..job_input import read_job_text
from ..planned_job import planned_job
from ..printing import print_json


def run(arguments: argparse.Namespace) -> int:
    planned = planned_job(open_job(read_job_text(arguments.job)), arguments)
    usual = usual_stock(planned.project)
    name = "labels.pdf" if arguments.job == "-" else f"{Path(arguments.job).stem}-labels.pdf"
    out = arguments.out or name
    count = write_labels(planned, arguments.on or usual, out, arguments.address, arguments.part)
    if arguments.json:
        print_json({"plan": planned.plan_name, "file": out, "labels": count, "on": arguments.on or usual})
    else:
        labels = f"{count} {'label' if count == 1 else 'labels'}"
        print(f"{labels} of plan {planned.plan_name} for {arguments.on or usual} in {out}")
    return 0
