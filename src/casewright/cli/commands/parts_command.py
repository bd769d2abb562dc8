"""`casewright parts JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.views.parts_page import lines, movement
from ..job_input import read_job_text
from ..printing import print_json, print_table


def run(arguments: argparse.Namespace) -> int:
    worked = open_job(read_job_text(arguments.job))
    rows = lines(worked)
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
    shown = worked.needed_shown()
    print()
    print_table(("case", "weight"), [(mark, shown.case(mark).weight) for mark in worked.needed().cases])
    if (moving := movement(worked)) is not None:
        print(f"\n{moving.basis}")
        print_table(
            ("wood", "width", "shrinks", "swells", "marks"),
            [(one.words, one.width, one.shrinks, one.swells, " ".join(one.marks)) for one in moving.lines],
        )
    return 0
