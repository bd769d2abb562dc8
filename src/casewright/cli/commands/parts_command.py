"""`casewright parts JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.views.parts_page import lines
from ..job_input import add_job_argument, read_job_text
from ..printing import add_json, print_json, print_table

EXAMPLE = """\
for example:
  casewright parts studio.toml
  casewright parts studio.toml --json | jq '.[] | select(.material == "maple")'

A size marked ~ is rounded to the shop's rule; --json also prints the exact size.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    add_json(parser)


def run(arguments: argparse.Namespace) -> int:
    rows = lines(open_job(read_job_text(arguments.job)))
    if arguments.json:
        print_json([row.plain() for row in rows])
        return 0
    print_table(
        ("part", "count", "length", "width", "thick", "material", "marks"),
        [
            (row.words, str(row.count), row.length, row.width, row.thickness, row.name, " ".join(row.marks))
            for row in rows
        ],
    )
    return 0
