"""Everything the bench needs of a job, as files in a folder."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from ...drawings.drawing_files import part_dxf, part_svg, sheet_dxf, sheet_svg, stick_dxf, stick_svg
from ...errors import CasewrightError, ExtraMissing, JobError, RecordError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...packet.csv_tables import buying_csv, parts_csv
from ...packet.leaves import EVERY_LEAF, Leaves, Moment
from ...packet.shop_packet import PART_ADDRESS, PacketContents, packet
from ...solids.step_export import step_file
from ..choices import FORMATS
from ..jobs.job_plan import JobPlan, Report
from ..jobs.worked_job import PlannedJob, open_job
from ..sheets.plan_file import plan_bytes
from ..sheets.plan_keeping import FileShelf
from .notices import notices
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
    """What was written into `folder`. `missing` says which files could not be made and why."""

    folder: str
    files: tuple[str, ...]
    missing: tuple[tuple[str, str], ...]
    plan: JobPlan
    plan_name: str


def packet_of(planned: PlannedJob, address: str = PART_ADDRESS, leaves: Leaves = EVERY_LEAF) -> PacketContents:
    """All that goes into the packet for the bench. Its labels' codes lead to `address` and a part's mark."""
    worked = planned.worked
    return PacketContents(
        project=planned.project,
        plans=planned.made.plans,
        revision=worked.revision,
        plan=planned.plan_name,
        findings=planned.findings,
        groups=worked.parts_list,
        joinings=worked.joinings,
        weights=worked.weights,
        weight=worked.weight,
        purchases=planned.purchases,
        hardware=worked.hardware,
        work=planned.work,
        ordered=planned.ordered,
        told=planned.told,
        notices=notices(planned),
        address=address,
        leaves=leaves,
    )


def leaf_documents(planned: PlannedJob, address: str = PART_ADDRESS) -> Iterator[Document]:
    """The packet's leaves one by one: those of each moment of the day, then those of each case."""
    each = (*(Leaves((moment,)) for moment in Moment), *map(Leaves.of_case, planned.project.cases))
    for leaves in each:
        path, make = f"leaves/{leaves.stem}.pdf", partial(_leaf, planned, address, leaves)
        yield Document(path, make, leaves.words)


def _leaf(planned: PlannedJob, address: str, leaves: Leaves) -> bytes:
    return packet(packet_of(planned, address, leaves))


def chosen_leaves(moments: Collection[str], cases: Collection[str]) -> tuple[Leaves, ...]:
    """The leaves that are asked for by the names of moments, together, and by the marks of cases."""
    together = (Leaves(tuple(moment for moment in Moment if moment.value in moments)),) if moments else ()
    return (*together, *(Leaves.of_case(mark) for mark in dict.fromkeys(cases)))


def write_leaves(planned: PlannedJob, folder: str, chosen: Collection[Leaves]) -> WrittenPacket:
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
        write_in_folder(folder, path, _leaf(planned, PART_ADDRESS, leaves))
        files.append(path)
    return WrittenPacket(folder, tuple(files), (), planned.made, planned.plan_name)


def documents(planned: PlannedJob, address: str = PART_ADDRESS) -> Iterator[Document]:
    """Every file of a packet, the one for the bench first. Nothing is made until it is asked for.

    Its labels' codes lead to `address` and a part's mark.
    """
    worked, project, made = planned.worked, planned.project, planned.made
    yield Document("packet.pdf", lambda: packet(packet_of(planned, address)))
    yield Document("parts.csv", lambda: parts_csv(project))
    yield Document("buying.csv", lambda: buying_csv(project, planned.purchases, worked.hardware))
    yield Document("plan.json", lambda: plan_bytes(planned))
    for material, plan in made.plans.items():
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
    planned: PlannedJob, folder: str, formats: Collection[str] = FORMATS, progress: Report | None = None
) -> WrittenPacket:
    """Write the packet of a planned job into a folder, made if it is not there.

    Files of the packet's own names are replaced, all others left alone; the job file is put
    beside them. A file that needs an extra that is not installed is left out and named. Raises
    CasewrightError when a file cannot be written.
    """
    files: list[str] = []
    missing: list[tuple[str, str]] = []
    every = list(documents(planned))
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
    return WrittenPacket(folder, (*files, "job.toml"), tuple(missing), planned.made, planned.plan_name)


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
            for path in (f"{stem}.{kind}" for stem in stems for kind in ("svg", "dxf") if kind in formats):
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
