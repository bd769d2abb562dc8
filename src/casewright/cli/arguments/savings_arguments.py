"""The arguments of `casewright savings JOB`."""

from __future__ import annotations

import argparse

from .common_arguments import add_job_argument, add_json
from .plan_choice_arguments import PLAN_HELP, add_plan_arguments

EXAMPLE = f"""\
for example:
  casewright savings studio.toml                                what a little less depth would save
  casewright savings studio.toml --choose 1 --out studio-2.toml     the job with the first of them made

Depths, heights, strips, trim, your carrying limits, one more offcut, another size of sheet and other widths
in a run are tried; each saving is that of a plan that was found. With --choose, that plan is kept beside the
new job, so that it gives what was promised.

{PLAN_HELP}
exit codes: 0 something was found that saves, 1 nothing was, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument("--choose", type=int, metavar="N", help="make this change; needs --out")
    parser.add_argument("--out", metavar="FILE", help="where to write the changed job")
    parser.add_argument("--force", action="store_true", help="replace an existing file")
    add_plan_arguments(parser)
    add_json(parser)
