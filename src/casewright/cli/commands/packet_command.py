"""`casewright packet JOB --out FOLDER`."""

from __future__ import annotations

import argparse
from pathlib import Path

from ...app.papers.packet_files import FORMATS, WrittenPacket, write_packet
from ..job_input import add_job_argument, read_job_text
from ..number_arguments import seconds
from ..printing import add_json, add_progress, print_json, reporter

PLANNING = 1.5

EXAMPLE = """\
for example:
  casewright packet studio.toml                      into the folder studio-packet
  casewright packet studio.toml --out bench --only pdf csv

exit codes: 0 written, 1 written but something is missing, 2 the job cannot be built
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_job_argument(parser)
    parser.add_argument(
        "--out", metavar="FOLDER", help="the folder to write; by default named after the job file"
    )
    parser.add_argument(
        "--only",
        nargs="+",
        choices=FORMATS,
        default=FORMATS,
        metavar="FORMAT",
        help=f"of {', '.join(FORMATS)}",
    )
    parser.add_argument(
        "--seconds", type=seconds, default=PLANNING, metavar="N", help=f"how long to plan ({PLANNING:g})"
    )
    add_json(parser)
    add_progress(parser)


def run(arguments: argparse.Namespace) -> int:
    folder = arguments.out or ("packet" if arguments.job == "-" else f"{Path(arguments.job).stem}-packet")
    text = read_job_text(arguments.job)
    written = write_packet(text, folder, arguments.seconds, arguments.only, reporter(arguments))
    return print_written(written, as_json=arguments.json)


def print_written(written: WrittenPacket, *, as_json: bool) -> int:
    """Say what was written; gives the exit code."""
    complete = not written.missing and written.plan.complete
    if as_json:
        print_json(
            {
                "folder": written.folder,
                "files": list(written.files),
                "missing": [{"file": path, "why": why} for path, why in written.missing],
                "complete": complete,
            }
        )
        return 0 if complete else 1
    for material, plan in written.plan.plans.items():
        print(f"{written.plan.project.job.sheets[material].name}: {plan.statement()}")
    for path, why in written.missing:
        print(f"{path} was not written: {why}")
    bench = f"; print {written.folder}/packet.pdf for the bench" if "packet.pdf" in written.files else ""
    print(f"{len(written.files)} files in {written.folder}{bench}.")
    return 0 if complete else 1
