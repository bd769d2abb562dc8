"""Labels for a job's parts, on whatever the label printer holds."""

from __future__ import annotations

from collections.abc import Collection

from ...casework.parts.part import Part
from ...casework.project import Project
from ...drawings.kit.pages import Paper
from ...errors import JobError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.fractions_text import quoted
from ...packet.cut_places import cut_places
from ...packet.labels.label_stock import STOCKS
from ...packet.labels.labels import USUAL_STOCK, labels_pdf
from ...packet.shop_packet import PART_ADDRESS
from ..jobs.worked_job import PlannedJob
from .write_whole import write_whole

LONGEST = 150
"""Signs a label's code holds at most: version 10 of the square code at level M has room for 213
(ISO/IEC 18004), and with more its modules grow too small to be read from a label."""


def usual_stock(project: Project) -> str:
    """The labels on a sheet of the paper that goes with the job's unit."""
    return USUAL_STOCK[Paper.for_unit(project.job.unit)]


def write_labels(
    planned: PlannedJob, stock: str, out: str, address: str = "", only: Collection[str] = ()
) -> int:
    """Write the labels as PDF into the file `out`; gives how many there are. The rest as for `make_labels`;
    raises CasewrightError for a file that cannot be written."""
    made = make_labels(planned, stock, address, only)
    write_whole(out, made)
    return len(frozenset(only)) or len(planned.project.parts)


def make_labels(planned: PlannedJob, stock: str, address: str = "", only: Collection[str] = ()) -> bytes:
    """The labels as PDF.

    `stock` is the name of one of STOCKS, `address` where a label's code leads (the shop screen's address and
    `#`), `only` the marks that get one. Raises JobError for an unknown mark or an address that will
    not do.
    """
    project = planned.project
    text = "the job has no part with this mark."
    unknown = [mark for mark in only if mark not in project.parts]
    if unknown:
        raise JobError(
            tuple(Finding("no-such-part", mark, text, did_you_mean(mark, project.parts)) for mark in unknown)
        )
    parts = [part for part in project if not only or part.mark in only]
    _check_address(address, parts)
    places = cut_places(planned.ordered)
    return labels_pdf(project, planned.plan_name, places, STOCKS[stock], address or PART_ADDRESS, parts)


def _check_address(address: str, parts: Collection[Part]) -> None:
    """JobError for an address that no square code on a label could hold."""
    held = len(address) + max((len(part.mark) for part in parts), default=0)
    if held > LONGEST:
        text = f"with a part's mark at its end it is {held} characters long."
        raise JobError(
            (Finding("address", "address", text, f"Use an address of at most {LONGEST - 10} characters."),)
        )
    if not address.isascii() or not address.isprintable():
        text = f"{quoted(address)} contains characters that an address cannot have."
        raise JobError((Finding("address", "address", text, "Copy it from the browser's address bar."),))
