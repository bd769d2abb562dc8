"""Everything the bench needs of a job, as files in a folder."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from ...bearing.hanging_wording import scribe_file
from ...drawings.drawing_files import (
    part_dxf,
    part_svg,
    scribe_svg,
    sheet_dxf,
    sheet_svg,
    stick_dxf,
    stick_svg,
)
from ...errors import CasewrightError, ExtraMissing, RecordError
from ...packet.csv_tables import buying_csv, costs_csv, parts_csv
from ...packet.leaves import EVERY_LEAF, Leaves
from ...packet.quote import quote_pdf
from ...packet.scribe_paper import scribe_pdf
from ...packet.shop_packet import PART_ADDRESS, PacketContents, packet
from ...solids.step_export import step_file
from ...workshop.boards.board_wording import board_plan_proof
from ...workshop.boards.buying_wording import what_to_buy
from ...workshop.changed_cuts import told_with_changes
from ..choices import FORMATS
from ..jobs.job_plan import JobPlan, Report
from ..jobs.worked_job import PlannedJob, open_job
from ..sheets.board_buying import boards_left_to_buy
from ..sheets.made_already import NOTHING_MADE, MadeAlready
from ..sheets.plan_file import plan_bytes
from ..sheets.plan_keeping import FileShelf
from .notices import made_notice, matters, notices
from .write_whole import write_whole


@dataclass(frozen=True)
class Document:
    """A file of the packet: its path within the folder, what makes its bytes, and what a leaf is headed."""

    path: str
    make: Callable[[], bytes]
    words: str = ""

    @property
    def format(self) -> str:
        return self.path.rpartition(".")[2]


@dataclass(frozen=True)
class WrittenPacket:
    """What was written into `folder`. `missing` says which files could not be made and why, `boards` what is
    to say of each solid wood's boards."""

    folder: str
    files: tuple[str, ...]
    missing: tuple[tuple[str, str], ...]
    plan: JobPlan
    plan_name: str
    boards: tuple[str, ...] = ()


def packet_of(
    planned: PlannedJob,
    address: str = PART_ADDRESS,
    made: MadeAlready = NOTHING_MADE,
    leaves: Leaves = EVERY_LEAF,
) -> PacketContents:
    """All that goes into the packet for the bench. Its labels' codes lead to `address` and a part's mark;
    what is `made` already stands first among its notices."""
    worked = planned.worked
    return PacketContents(
        project=planned.project,
        plans=planned.made.plans,
        revision=worked.revision,
        plan=planned.plan_name,
        findings=planned.findings,
        groups=worked.parts_list,
        joinings=worked.joinings,
        weight=worked.weight,
        purchases=planned.purchases_left(made.begun(planned.made.plans)),
        hardware=worked.hardware,
        borne=worked.borne,
        boards=planned.board_plans,
        board_purchases=boards_left_to_buy(planned, made),
        work=planned.work,
        ordered=planned.ordered,
        told=told_with_changes(planned.told, planned.work, made.changes),
        notices=(*made_notice(planned, made), *notices(planned)),
        matters=matters(planned),
        address=address,
        leaves=leaves,
        done=made.steps,
        costs=planned.costs if planned.project.job.prices.are_told else None,
    )


def documents(
    planned: PlannedJob, address: str = PART_ADDRESS, made: MadeAlready = NOTHING_MADE
) -> Iterator[Document]:
    """Every file of a packet, the one for the bench first. Nothing is made until it is asked for.

    Its labels' codes lead to `address` and a part's mark; `made` is what is cut already.
    """
    worked, project = planned.worked, planned.project
    left = planned.purchases_left(made.begun(planned.made.plans))
    yield Document("packet.pdf", lambda: packet(packet_of(planned, address, made)))
    yield Document("parts.csv", lambda: parts_csv(project))
    yield Document(
        "buying.csv",
        lambda: buying_csv(project, left, worked.hardware, boards_left_to_buy(planned, made)),
    )
    yield Document("costs.csv", lambda: costs_csv(project, planned.costs))
    if project.job.prices.are_told and planned.costs.is_complete:
        yield Document("quote.pdf", lambda: quote_pdf(project, planned.costs))
    yield Document("plan.json", lambda: plan_bytes(planned, made))
    for material, plan in planned.made.plans.items():
        for sheet in plan.sheets:
            stem = f"sheets/{material}-{sheet.number}"
            drawn = (project, material, sheet, planned.sheet_marks[material, sheet.number])
            yield Document(f"{stem}.svg", partial(sheet_svg, *drawn))
            yield Document(f"{stem}.dxf", partial(sheet_dxf, *drawn))
    for part in project:
        yield Document(f"parts/{part.mark}.svg", partial(part_svg, project, part))
        yield Document(f"parts/{part.mark}.dxf", partial(part_dxf, project, part))
    for number, stick in enumerate(worked.sticks, 1):
        yield Document(f"sticks/{number}.svg", partial(stick_svg, project, stick))
        yield Document(f"sticks/{number}.dxf", partial(stick_dxf, project, stick))
    for scribed in worked.borne.scribed:
        yield Document(scribe_file(scribed.part, "pdf"), partial(scribe_pdf, project, scribed))
        yield Document(scribe_file(scribed.part, "svg"), partial(scribe_svg, scribed))
    yield Document("job.glb", lambda: worked.model)
    yield Document("job.step", lambda: step_file(worked.bodies, project.job.name))


def write_packet(
    text: str,
    folder: str,
    seconds: float,
    formats: Collection[str] = FORMATS,
    progress: Report | None = None,
) -> WrittenPacket:
    """Plan the job of a job file and write its packet into a folder, as `write_planned` does.

    Raises JobError when no parts can be made of the job.
    """
    return write_planned(open_job(text).planned(seconds, progress=progress), folder, formats, progress)


def write_planned(
    planned: PlannedJob,
    folder: str,
    formats: Collection[str] = FORMATS,
    progress: Report | None = None,
    made: MadeAlready = NOTHING_MADE,
) -> WrittenPacket:
    """Write the packet of a planned job into a folder, made if it is not there. What is `made` already stands
    first among the packet's notices.

    Files of the packet's own names are replaced, all others left alone; the job file is put
    beside them. A file that needs an extra that is not installed is left out and named. Raises
    CasewrightError when a file cannot be written.
    """
    files: list[str] = []
    missing: list[tuple[str, str]] = []
    every = list(documents(planned, made=made))
    wanted = [one for one in every if one.format in formats]
    told = ""
    for path in _stale_files(folder, formats, {one.path for one in every}):
        Path(folder, path).unlink(missing_ok=True)
    for document in wanted:
        kind = document.path.partition("/")[0]
        if progress and kind != told:
            progress(f"writing {document.path if kind == document.path else kind}")
        told = kind
        try:
            content = document.make()
        except ExtraMissing as lacking:
            missing.append((document.path, str(lacking)))
            continue
        write_in_folder(folder, document.path, content)
        files.append(document.path)
    write_in_folder(folder, "job.toml", planned.worked.text.encode("utf-8"))
    said = tuple(board_statements(planned, made))
    return WrittenPacket(folder, (*files, "job.toml"), tuple(missing), planned.made, planned.plan_name, said)


def board_statements(planned: PlannedJob, made: MadeAlready = NOTHING_MADE) -> Iterator[str]:
    """How much of each solid wood to buy, how many boards its plan takes and what is proved, a line each."""
    for wood in boards_left_to_buy(planned, made):
        proof = board_plan_proof(planned.board_plans[wood.material])
        yield f"{wood.name}: {what_to_buy(planned.project, wood)} {proof}"


def _stale_files(folder: str, formats: Collection[str], current: Collection[str]) -> Iterator[str]:
    """Drawings of parts and sheets that the packet before had and this one has not: somebody might cut them.

    The packet before is known by its plan.json; any other file in the folder is left alone.
    """
    try:
        before = FileShelf(Path(folder, "plan.json")).read()
    except RecordError:
        return
    if before is None:
        return
    for material, plan in before.plans.items():
        for sheet in plan.sheets:
            stems = [f"sheets/{material}-{sheet.number}", *(f"parts/{part.item}" for part in sheet.parts)]
            stems += [f"scribes/{part.item}" for part in sheet.parts]
            kinds = [kind for kind in ("svg", "dxf", "pdf") if kind in formats]
            for path in (f"{stem}.{kind}" for stem in stems for kind in kinds):
                if path not in current:
                    yield path


def write_in_folder(folder: str, path: str, content: bytes) -> None:
    """Write one file of a folder, which is made if it is not there; CasewrightError when it cannot be."""
    name = f"{folder}/{path}"
    try:
        Path(name).parent.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as fault:
        why = fault.strerror if isinstance(fault, OSError) else "its name is not valid"
        raise CasewrightError(f"{name} cannot be written: {why}; choose another folder.") from None
    write_whole(name, content, fix="choose another folder")
