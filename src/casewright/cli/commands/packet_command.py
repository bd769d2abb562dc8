"""`casewright packet JOB --out FOLDER`."""

from __future__ import annotations

import argparse
from collections.abc import Collection
from pathlib import Path

from ...app.choices import FORMATS
from ...app.jobs.worked_job import open_job
from ...app.papers.leaf_files import chosen_leaves, write_leaves
from ...app.papers.packet_files import WrittenPacket, write_planned
from ..job_input import read_job_text
from ..planned_job import planned_job, shelf_of
from ..printing import print_json, reporter


def run(arguments: argparse.Namespace) -> int:
    folder = arguments.out or ("packet" if arguments.job == "-" else f"{Path(arguments.job).stem}-packet")
    planned = planned_job(open_job(read_job_text(arguments.job)), arguments)
    made = shelf_of(arguments).made()
    chosen = chosen_leaves(arguments.moment, arguments.case)
    if chosen:
        written = write_leaves(planned, folder, chosen, made)
    else:
        written = write_planned(planned, folder, arguments.only, reporter(arguments), made)
    # A format whose extra is not installed is left out and named; only one asked for by name is missed.
    asked = () if arguments.only == FORMATS else arguments.only
    return print_written(written, as_json=arguments.json, asked=asked)


def print_written(written: WrittenPacket, *, as_json: bool, asked: Collection[str] = ()) -> int:
    """Say what was written; gives the exit code. `asked` are the formats that were asked for by name."""
    complete = not written.missing and written.plan.complete
    missed = any(Path(path).suffix.removeprefix(".") in asked for path, _ in written.missing)
    code = 0 if written.plan.complete and not missed else 1
    if as_json:
        print_json(
            {
                "plan": written.plan_name,
                "folder": written.folder,
                "files": list(written.files),
                "missing": [{"file": path, "why": why} for path, why in written.missing],
                "complete": complete,
            }
        )
        return code
    job = written.plan.project.job
    for material, plan in written.plan.plans.items():
        print(f"{job.sheets[material].name}: {plan.statement(job.money)}")
    for line in written.boards:
        print(line)
    for path, why in written.missing:
        print(f"{path} was not written: {why}")
    if all(path.startswith(("moment-", "case-")) for path in written.files):
        named = " and ".join(f"{written.folder}/{path}" for path in written.files)
        print(f"Leaves of plan {written.plan_name}: {named}.")
        return code
    bench = f"; print {written.folder}/packet.pdf for the bench" if "packet.pdf" in written.files else ""
    print(f"{len(written.files)} files of plan {written.plan_name} in {written.folder}{bench}.")
    return code
