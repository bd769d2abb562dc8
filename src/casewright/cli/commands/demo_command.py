"""`casewright demo`."""

from __future__ import annotations

import argparse
from pathlib import Path

from ...app.choices import FORMATS
from ...app.demo_job import put_in
from ...app.new_job.examples import example
from ...app.papers.packet_files import write_packet
from ..arguments.packet_arguments import PLANNING
from ..arguments.serve_arguments import FILE
from ..printing import reporter
from .packet_command import print_written
from .serve_command import open_shop


def run(arguments: argparse.Namespace) -> int:
    text = example(arguments.example)
    written = write_packet(text, arguments.out, PLANNING, FORMATS, reporter(arguments))
    # A format whose extra is not installed is named as left out; the demo is no less done for it.
    print_written(written, as_json=arguments.json)
    code = 0 if written.plan.complete else 1
    if arguments.no_serve:
        return code
    file = Path(arguments.out) / FILE
    open_shop(file, arguments, f"/jobs/{put_in(file, arguments.example)}")
    return code
