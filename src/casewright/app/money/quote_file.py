"""The quote for the customer as a file."""

from __future__ import annotations

from ...packet.quote import quote_pdf
from ..jobs.worked_job import PlannedJob
from ..papers.write_whole import write_whole


def write_quote(planned: PlannedJob, out: str, *, over: bool) -> None:
    """Write the quote as PDF into the file `out`, which is replaced only with `over`.

    Raises JobError where something has no price, CasewrightError for a file that cannot be written.
    """
    write_whole(out, quote_pdf(planned.project, planned.costs), over=over)
