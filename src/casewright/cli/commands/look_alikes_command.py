"""`casewright look-alikes JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.prevention import alike_lines
from ..job_input import add_job_argument, read_job_text
from ..printing import add_json, print_json

EXAMPLE = """\
for example:
  casewright look-alikes studio.toml    17 1/4 beside 18 1/4, and how to tell them apart

exit codes: 0 no two sizes are easily confused, 1 some are, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    add_json(parser)


def run(arguments: argparse.Namespace) -> int:
    found = alike_lines(open_job(read_job_text(arguments.job)))
    if arguments.json:
        print_json([line.plain() for line in found])
    elif not found:
        print("No two sizes are easily confused.")
    else:
        for line in found:
            print(f"{line.dimension} {line.sizes[0]} and {line.sizes[1]}, {line.why}:")
            print(f"   {line.advice}")
    return 1 if found else 0
