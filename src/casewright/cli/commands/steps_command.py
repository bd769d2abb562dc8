"""`casewright steps JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import SECONDS, open_job
from ...app.shop.step_list import known_part, steps_json, steps_words
from ..job_input import add_job_argument, read_job_text
from ..number_arguments import seconds
from ..printing import add_json, add_progress, print_json, reporter

EXAMPLE = """\
for example:
  casewright steps studio.toml
  casewright steps studio.toml --part B1-L

exit codes: 0 every part has a place on a sheet, 1 some part fits no sheet, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument("--part", metavar="MARK", help="only the steps of this part")
    parser.add_argument(
        "--seconds", type=seconds, default=SECONDS, metavar="N", help=f"how long to plan sheets ({SECONDS:g})"
    )
    add_json(parser)
    add_progress(parser)


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    known_part(worked.needed(), arguments.part)
    planned = worked.planned(arguments.seconds, progress=reporter(arguments))
    if arguments.json:
        print_json(steps_json(planned, arguments.part))
    else:
        print(steps_words(planned, arguments.part))
    return 0 if planned.made.complete else 1
