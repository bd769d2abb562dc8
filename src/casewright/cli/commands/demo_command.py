"""`casewright demo`."""

from __future__ import annotations

import argparse
from pathlib import Path

from ...app.choices import FORMATS
from ...app.demo_job import demo_in_folder, demo_in_shop, put_in
from ...app.papers.packet_files import write_planned
from ..arguments.serve_arguments import FILE
from ..printing import reporter
from .packet_command import print_written
from .serve_command import open_shop


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
