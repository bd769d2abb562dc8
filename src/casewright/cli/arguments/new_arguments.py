"""The arguments of `casewright new FILE`."""

from __future__ import annotations

import argparse

from ...app.choices import KINDS
from ...lengths.length import Unit
from .common_arguments import add_json
from .number_arguments import count

EXAMPLE = """\
for example:
  casewright new studio.toml                            asks the questions it needs answered
  casewright new studio.toml --opening "10' 4 1/2"
  casewright new mess.toml --unit mm --opening 2620 --kind wall --cases 3
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", help="the job file to write")
    parser.add_argument("--name", help="name of the job; by default the file's name")
    parser.add_argument(
        "--unit", choices=[unit.value for unit in Unit], help="unit of a number without one (in)"
    )
    parser.add_argument("--opening", help="the measured width to fill")
    parser.add_argument("--kind", choices=KINDS, help="kind of cases (base)")
    parser.add_argument(
        "--cases", type=count, metavar="N", help="number of cases; by default as many as fit well"
    )
    parser.add_argument("--force", action="store_true", help="replace an existing file")
    add_json(parser)
