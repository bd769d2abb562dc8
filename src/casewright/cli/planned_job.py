"""The plan of record for the commands: read beside the job file, or made and kept there, and said."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..app.choices import SECONDS
from ..app.jobs.worked_job import PlannedJob, WorkedJob
from ..app.sheets.plan_keeping import Choice, FileShelf, NoShelf, SearchEffort, plan_on_record
from ..errors import CasewrightError
from .printing import reporter


def shelf_of(arguments: argparse.Namespace) -> FileShelf | NoShelf:
    """Where the job's plan of record lies."""
    begun = tuple(arguments.begun)
    if arguments.plan:
        return FileShelf(Path(arguments.plan), begun)
    return NoShelf() if arguments.job == "-" else FileShelf.beside(arguments.job, begun)


def planned_job(worked: WorkedJob, arguments: argparse.Namespace, *, may_make: bool = False) -> PlannedJob:
    """The job with its plan of record. What is made or moved is said on standard error.

    No sheet is planned or cut for a job that cannot be built: JobError says what is in the way.

    A plan file that was named must be there, unless one `may_make` it.
    """
    worked.needed_sound()
    if arguments.plan and not may_make and not Path(arguments.plan).exists():
        raise CasewrightError(f"--plan {arguments.plan}: there is no such file; give a plan file's path.")
    if arguments.begun and not (arguments.again or arguments.keep):
        raise CasewrightError("--begun: add --again or --keep; a plan that stands changes no sheet.")
    choice = Choice.AGAIN if arguments.again else Choice.KEEP if arguments.keep else Choice.ASK
    given = {"seconds": arguments.seconds, "seed": getattr(arguments, "seed", None)}
    asked = {name: value for name, value in given.items() if value is not None}
    effort = SearchEffort(asked.get("seconds", SECONDS), asked.get("seed", 0), getattr(arguments, "cores", 1))
    found = plan_on_record(worked, shelf_of(arguments), choice, effort, reporter(arguments))
    for line in found.news:
        print(line, file=sys.stderr)
    if asked and not found.news:
        said = " and ".join(f"--{name}" for name in asked)
        print(f"Plan {found.planned.plan_name} stands; for {said} to count, add --again.", file=sys.stderr)
    return found.planned
