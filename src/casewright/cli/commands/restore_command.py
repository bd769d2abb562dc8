"""`casewright restore BACKUP [FILE]`."""

from __future__ import annotations

import argparse
from pathlib import Path

from ...app.jobs.backups import RestorePreview, opened_copy, preview_restore, put_backup_back
from ...app.jobs.kept_jobs import now
from ..printing import print_table


def run(arguments: argparse.Namespace) -> int:
    file = Path(arguments.file)
    with opened_copy(Path(arguments.backup)) as copy:
        _show(preview_restore(file, copy))
        if not arguments.yes:
            print("Nothing was changed. To do it, add --yes.")
            return 1
        kept = put_backup_back(file, copy, now())
    before = f" What it held before is in {kept}." if kept else ""
    print(f"{file} is now as {arguments.backup} was.{before}")
    return 0


def _show(preview: RestorePreview) -> None:
    rows = [
        (
            job.name,
            "cannot be read" if job.revisions_now is None else str(job.revisions_now),
            job.changed_now[:10],
            str(job.revisions_then),
            job.changed_then[:10],
            job.lost,
        )
        for job in preview.jobs
    ]
    print_table(("job", "revisions now", "saved", "in the backup", "saved", ""), rows)
    if preview.damaged:
        print(preview.damaged)
