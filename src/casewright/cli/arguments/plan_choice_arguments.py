"""The arguments of every command that reads the plan of record."""

from __future__ import annotations

import argparse

from ...app.choices import SECONDS
from .common_arguments import add_progress
from .number_arguments import seconds

PLAN_HELP = """\
The sheets are cut by one plan, kept beside the job file (studio.plan.json for studio.toml). It is made
the first time it is needed. Where the job has changed since, the command says how and stops: --again
plans again from that plan, --keep carries it over as it is. Sheets and boards named with --begun stay
as they are.
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
        "--begun",
        action="append",
        default=[],
        metavar="SHEET",
        help="with --again or --keep: a sheet or board that is begun and stays as it is, "
        'such as "maple 2" or "oak board 2"',
    )
    parser.add_argument(
        "--seconds",
        type=seconds,
        metavar="N",
        help=f"about how long to look where a plan is made ({SECONDS:g})",
    )
    add_progress(parser)
