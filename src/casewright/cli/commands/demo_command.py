"""`casewright demo`."""

from __future__ import annotations

import argparse
from pathlib import Path

from ...app.demo_job import USUAL, demo_in_folder, demo_in_shop, put_in
from ...app.papers.packet_files import FORMATS, write_planned
from ..printing import add_json, add_progress, reporter
from .packet_command import print_written
from .serve_command import FILE, add_address, open_shop

FOLDER = "casewright-demo"

EXAMPLE = f"""\
for example:
  casewright demo                            the packet into {FOLDER}, and the job in the browser
  casewright demo --no-serve --out packet    the packet alone, in every format
  casewright demo --example ferry-canteen    the example in millimetres
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--example", default=USUAL, metavar="NAME", help=f"which example ({USUAL})")
    parser.add_argument(
        "--out", default=FOLDER, metavar="FOLDER", help=f"where to write the packet and keep jobs ({FOLDER})"
    )
    parser.add_argument(
        "--no-serve", action="store_true", help="write the packet and do not start the web app"
    )
    add_address(parser)
    add_json(parser)
    add_progress(parser)


def run(arguments: argparse.Namespace) -> int:
    folder, told = Path(arguments.out), reporter(arguments)
    file = folder / FILE
    if arguments.no_serve:
        page, planned = "", demo_in_folder(folder, arguments.example, told)
    else:
        job = put_in(file, arguments.example)
        page, planned = f"/jobs/{job}", demo_in_shop(file, job, told)
    written = write_planned(planned, arguments.out, FORMATS, told)
    # A format whose extra is not installed is named as left out; the demo is no less done for it.
    print_written(written, as_json=arguments.json)
    if page:
        open_shop(file, arguments, page)
    return 0 if written.plan.complete else 1
