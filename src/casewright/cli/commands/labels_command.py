"""`casewright labels JOB`."""

from __future__ import annotations

import argparse
from pathlib import Path

from ...app.jobs.worked_job import open_job
from ...app.papers.label_files import STOCKS, write_labels
from ...lengths.length import Unit
from ..job_input import add_job_argument, read_job_text
from ..plan_arguments import PLAN_HELP, add_plan_arguments, planned_job
from ..printing import add_json, print_json

EXAMPLE = f"""\
for example:
  casewright labels studio.toml
  casewright labels studio.toml --on "roll 62 x 29 mm" --part B1-L --out again.pdf

{PLAN_HELP}
exit codes: 0 written, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--on", choices=STOCKS, metavar="PAPER", help=f"what the printer holds: {', '.join(STOCKS)}"
    )
    parser.add_argument("--part", nargs="+", default=[], metavar="MARK", help="only these parts")
    parser.add_argument(
        "--out", metavar="FILE", help="the PDF file to write; by default named after the job file"
    )
    parser.add_argument(
        "--address",
        default="",
        metavar="ADDRESS",
        help="address behind each label's code, followed by the part's mark, as in http://192.168.1.20:8411/jobs/studio/shop#",
    )
    add_plan_arguments(parser)
    add_json(parser)


def run(arguments: argparse.Namespace) -> int:
    planned = planned_job(open_job(read_job_text(arguments.job)), arguments)
    project = planned.project
    usual = "letter 30" if project.job.unit is Unit.INCH else "a4 24"
    name = "labels.pdf" if arguments.job == "-" else f"{Path(arguments.job).stem}-labels.pdf"
    out = arguments.out or name
    count = write_labels(planned, arguments.on or usual, out, arguments.address, arguments.part)
    if arguments.json:
        print_json({"plan": planned.plan_name, "file": out, "labels": count, "on": arguments.on or usual})
    else:
        labels = f"{count} {'label' if count == 1 else 'labels'}"
        print(f"{labels} of plan {planned.plan_name} for {arguments.on or usual} in {out}")
    return 0
