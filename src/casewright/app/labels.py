"""Labels for a job's parts, on whatever the label printer holds."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from ..casework.project import Project
from ..documents.label_stock import STOCKS, labels_pdf
from ..documents.packet import PART_ADDRESS
from ..errors import JobError
from ..findings import Finding

__all__ = ["STOCKS", "write_labels"]


def write_labels(
    project: Project, stock: str, out: str, address: str = "", only: Collection[str] = ()
) -> int:
    """Write the labels as PDF into the file `out`; gives how many there are.

    `stock` is one of STOCKS, `address` where a label's code leads (the shop screen's address and
    `#`), `only` the marks that get one. Raises JobError for an unknown mark or a file that cannot
    be written.
    """
    unknown = [mark for mark in only if mark not in project.parts]
    if unknown:
        text = f"the job has no part marked {', '.join(unknown)}."
        raise JobError((Finding("no-such-part", "part", text, "The parts list has every mark."),))
    parts = [part for part in project if not only or part.mark in only]
    made = labels_pdf(project, STOCKS[stock], address or PART_ADDRESS, parts)
    try:
        Path(out).write_bytes(made)
    except OSError as fault:
        text = f"it cannot be written: {fault.strerror}."
        raise JobError((Finding("file", out, text, "Give another file."),)) from None
    return len(parts)
