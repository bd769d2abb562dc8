"""`casewright parts JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.views.parts_page import lines
from ..job_input import read_job_text
from ..printing import print_json, print_table


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
