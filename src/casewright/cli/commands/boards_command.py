"""`casewright boards JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.sheets.board_buying import wood_to_buy
from ...errors import CasewrightError
from ..job_input import read_job_text
from ..printing import print_json, reporter


def run(arguments: argparse.Namespace) -> int:
    if not 1 <= arguments.lots <= 10_000:
        raise CasewrightError(f"--lots {arguments.lots}: enter a number from 1 to 10,000.")
    if arguments.seed < 0:
        raise CasewrightError(f"--seed {arguments.seed}: enter zero or more.")
    worked = open_job(read_job_text(arguments.job))
    found = wood_to_buy(worked, arguments.lots, arguments.seed, reporter(arguments))
    if arguments.json:
        print_json([one.plain() for one in found])
    elif not found:
        print("No wood of this job is bought as boards; the table [materials.KEY.boards] says which is.")
    for one in () if arguments.json else found:
        print("\n".join(one.words()))
    return 0 if found and all(one.feet is not None for one in found) else 1
