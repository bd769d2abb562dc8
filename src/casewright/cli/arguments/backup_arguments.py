"""The arguments of `casewright backup [FILE]`."""

from __future__ import annotations

import argparse

from .serve_arguments import FILE

EXAMPLE = f"""\
for example:
  casewright backup                           a copy of {FILE} beside it, with the time in its name
  casewright backup barn.casewright --out /media/stick/barn.casewright

It may be done while `casewright serve` is running.
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", nargs="?", default=FILE, help=f"the file that holds the jobs ({FILE})")
    parser.add_argument("--out", default="", metavar="BACKUP", help="the file to write (beside FILE)")
