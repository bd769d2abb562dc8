"""The plan of record for the commands: read beside the job file, or made and kept there, and said."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..app.jobs.job_plan import SECONDS
from ..app.jobs.worked_job import PlannedJob, WorkedJob
from ..app.sheets.plan_keeping import Choice, FileShelf, NoShelf, PlanShelf, SearchEffort, plan_on_record
from ..errors import CasewrightError
from .number_arguments import seconds
from .printing import add_progress, reporter

PLAN_HELP = """\
The sheets are cut by one plan, kept beside the job file (studio.plan.json for studio.toml). It is made
the first time it is needed. Where the job has changed since, the command says how and stops: --again
plans again from that plan, --keep carries it over as it is.
"""


def add_plan_arguments(parser: argparse.ArgumentParser) -> None:
    """The arguments of every command that reads the plan."""
    parser.add_argument("--plan", metavar="FILE", help="the plan file, where it is not beside the job file")
    choice = parser.add_mutually_exclusive_group()
    choice.add_argument(
        "--again", action="store_true", help="plan again, starting from the plan there is; says what moved"
    )
    choice.add_argument(
        "--keep",
        action="store_true",
        help="carry the plan over to the changed job, moving as little as can be",
    )
    parser.add_argument(
        "--seconds",
        type=seconds,
        default=SECONDS,
        metavar="N",
        help=f"about how long to look where a plan is made ({SECONDS:g})",
    )
    add_progress(parser)


def shelf_of(arguments: argparse.Namespace) -> PlanShelf:
    """Where the job's plan of record lies."""
    if arguments.plan:
        return FileShelf(Path(arguments.plan))
    return NoShelf() if arguments.job == "-" else FileShelf.beside(arguments.job)


def planned_job(worked: WorkedJob, arguments: argparse.Namespace, *, may_make: bool = False) -> PlannedJob:
    """The job with its plan of record. What is made or moved is said on standard error.

    A plan file that was named must be there, unless one `may_make` it.
    """
    if arguments.plan and not may_make and not Path(arguments.plan).exists():
        raise CasewrightError(f"--plan {arguments.plan}: there is no such file; give a plan file's path.")
    choice = Choice.AGAIN if arguments.again else Choice.KEEP if arguments.keep else Choice.ASK
    effort = SearchEffort(arguments.seconds, getattr(arguments, "seed", 0), getattr(arguments, "cores", 1))
    found = plan_on_record(worked, shelf_of(arguments), choice, effort, reporter(arguments))
    for line in found.news:
        print(line, file=sys.stderr)
    return found.planned
