"""`casewright guard JOB MARK DIMENSION LENGTH`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.prevention import DIMENSIONS, guard
from ..job_input import add_job_argument, read_job_text
from ..printing import add_json, as_entry, print_json

EXAMPLE = """\
for example:
  casewright guard studio.toml B1-L length "34 1/2"    before the cut: is the fence right?

exit codes: 0 the setting is right, 1 it is wrong, 2 unknown part or not a length
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument("mark", help="the part about to be cut")
    parser.add_argument("dimension", choices=DIMENSIONS, help="the dimension to be cut")
    parser.add_argument("length", help="the length measured from the fence to the near side of the blade")
    add_json(parser)


def run(arguments: argparse.Namespace) -> int:
    project = open_job(read_job_text(arguments.job)).needed()
    found = guard(project, arguments.mark, arguments.dimension, arguments.length)
    if arguments.json:
        print_json(as_entry(found))
    else:
        print(f"{found.text}{' ' + found.fix if found.fix else ''}")
    return 0 if found.code == "right" else 1
