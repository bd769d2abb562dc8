"""The arguments of `casewright restore BACKUP [FILE]`."""

from __future__ import annotations

import argparse

from .serve_arguments import FILE

EXAMPLE = f"""\
for example:
  casewright restore shop-2026-11-29.casewright          list what would change; nothing is changed
  casewright restore shop-2026-11-29.casewright --yes    put the backup in the place of {FILE}

What the file held before is kept beside it, and the devices paired now stay paired.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("backup", help="a file that `casewright backup` wrote")
    parser.add_argument(
        "file", nargs="?", default=FILE, help=f"the file that holds the jobs, or is to hold them ({FILE})"
    )
    parser.add_argument("--yes", action="store_true", help="do it; without this, only list what would change")
