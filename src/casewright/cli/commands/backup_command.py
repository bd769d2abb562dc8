"""`casewright backup [FILE]`."""

from __future__ import annotations

import argparse
from pathlib import Path

from ...app.jobs.backups import back_up, backup_name
from ...app.jobs.kept_jobs import now


def run(arguments: argparse.Namespace) -> int:
    file = Path(arguments.file)
    to = Path(arguments.out) if arguments.out else file.with_name(backup_name(file, now()))
    back_up(file, to)
    print(f"{to} is a whole copy of {file}. To go back to it: casewright restore {to} {file}")
    return 0
