"""`casewright plan JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import SECONDS, open_job
from ...app.sheets.job_plan import plan_json, plan_words
from ..job_input import add_job_argument, read_job_text
from ..number_arguments import count, seconds, seed
from ..printing import add_json, add_progress, print_json, reporter

EXAMPLE = """\
for example:
  casewright plan studio.toml
  casewright plan studio.toml --seconds 30 --progress

exit codes: 0 every part has a place on a sheet, 1 some part fits no sheet, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--seconds", type=seconds, default=SECONDS, metavar="N", help=f"how long to search ({SECONDS:g})"
    )
    parser.add_argument(
        "--seed",
        type=seed,
        default=0,
        metavar="N",
        help="seed of the search: a different number may find a different plan (0)",
    )
    parser.add_argument("--cores", type=count, default=1, metavar="N", help="processor cores to use (1)")
    add_json(parser)
    add_progress(parser)


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    made = worked.planned(arguments.seconds, arguments.seed, arguments.cores, reporter(arguments)).made
    if arguments.json:
        print_json(plan_json(made))
    else:
        print(plan_words(made))
    return 0 if made.complete else 1
