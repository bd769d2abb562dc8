"""The packet's leaves one by one: those of a moment of the day, those of a case."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import partial

from ...errors import JobError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...packet.leaves import Leaves, Moment
from ...packet.shop_packet import PART_ADDRESS, packet
from ..jobs.worked_job import PlannedJob
from ..sheets.made_already import NOTHING_MADE, MadeAlready
from .packet_files import Document, WrittenPacket, board_statements, packet_of, write_in_folder


def leaf_documents(
    planned: PlannedJob, address: str = PART_ADDRESS, made: MadeAlready = NOTHING_MADE
) -> Iterator[Document]:
    """The packet's leaves one by one: those of each moment of the day, then those of each case."""
    there = {
        Moment.BOARDS: bool(planned.board_plans),
        Moment.SHELVES: bool(planned.worked.borne.shelves),
        Moment.COSTS: planned.project.job.prices.are_told,
    }
    moments = [one for one in Moment if there.get(one, True)]
    each = (*(Leaves((moment,)) for moment in moments), *map(Leaves.of_case, planned.project.cases))
    for leaves in each:
        path, make = f"leaves/{leaves.stem}.pdf", partial(_leaf, planned, address, made, leaves)
        yield Document(path, make, leaves.words)


def _leaf(planned: PlannedJob, address: str, made: MadeAlready, leaves: Leaves) -> bytes:
    return packet(packet_of(planned, address, made, leaves))


def chosen_leaves(moments: Collection[str], cases: Collection[str]) -> tuple[Leaves, ...]:
    """The leaves that are asked for by the names of moments, together, and by the marks of cases."""
    together = (Leaves(tuple(moment for moment in Moment if moment.value in moments)),) if moments else ()
    return (*together, *(Leaves.of_case(mark) for mark in dict.fromkeys(cases)))


def write_leaves(
    planned: PlannedJob, folder: str, chosen: Collection[Leaves], made: MadeAlready = NOTHING_MADE
) -> WrittenPacket:
    """Write single leaves into a folder, a PDF for each of the `chosen`; nothing else there is touched.

    Raises JobError for a case that the job has not, CasewrightError when a file cannot be written.
    """
    project = planned.project
    unknown = [leaves.case for leaves in chosen if leaves.case and leaves.case not in project.cases]
    if unknown:
        text = "the job has no case with this mark."
        raise JobError(
            tuple(Finding("no-such-case", one, text, did_you_mean(one, project.cases)) for one in unknown)
        )
    files = []
    for leaves in chosen:
        path = f"{leaves.stem}.pdf"
        write_in_folder(folder, path, _leaf(planned, PART_ADDRESS, made, leaves))
        files.append(path)
    said = tuple(board_statements(planned, made))
    return WrittenPacket(folder, tuple(files), (), planned.made, planned.plan_name, said)
