"""`casewright boards JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.sheets.board_buying import wood_to_buy_json, wood_to_buy_lines
from ...app.sheets.boards_of_record import with_boards_of_record
from ...app.sheets.plan_keeping import FileShelf, NoShelf
from ...errors import CasewrightError
from ..job_input import read_job_text
from ..printing import print_json, reporter


def run(arguments: argparse.Namespace) -> int:
    if not 1 <= arguments.lots <= 10_000:
        raise CasewrightError(f"--lots {arguments.lots}: enter a number from 1 to 10,000.")
    if arguments.seed < 0:
        raise CasewrightError(f"--seed {arguments.seed}: enter zero or more.")
    worked = open_job(read_job_text(arguments.job))
    project, tell = worked.needed_sound(), reporter(arguments)
    if tell and worked.board_problems:
        tell(f"drawing {arguments.lots} lots of boards")
    shelf = NoShelf() if arguments.job == "-" else FileShelf.beside(arguments.job)
    found = with_boards_of_record(worked, shelf).boards_to_buy(arguments.lots, arguments.seed)
    if arguments.json:
        print_json([wood_to_buy_json(one) for one in found])
    elif not found:
        print("No wood of this job is bought as boards; the table [materials.KEY.boards] says which is.")
    for one in () if arguments.json else found:
        print("\n".join(wood_to_buy_lines(project, one)))
    return 0 if found and all(one.sure_feet is not None for one in found) else 1
