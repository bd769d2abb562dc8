"""The arguments of `casewright demo`."""

from __future__ import annotations

import argparse

from ...app.choices import EXAMPLE_SHOWN
from .common_arguments import add_json, add_progress
from .serve_arguments import add_address

FOLDER = "casewright-demo"

EXAMPLE = f"""\
for example:
  casewright demo                            the packet into {FOLDER}, and the job in the browser
  casewright demo --no-serve --out packet    the packet alone, in every format
  casewright demo --example ferry-canteen    the example in millimetres
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--example", default=EXAMPLE_SHOWN, metavar="NAME", help=f"which example ({EXAMPLE_SHOWN})"
    )
    parser.add_argument(
        "--out", default=FOLDER, metavar="FOLDER", help=f"where to write the packet and keep jobs ({FOLDER})"
    )
    parser.add_argument(
        "--no-serve", action="store_true", help="write the packet and do not start the web app"
    )
    add_address(parser)
    add_json(parser)
    add_progress(parser)
