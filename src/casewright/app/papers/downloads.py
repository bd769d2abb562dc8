"""Every file of a job's packet, to be fetched one by one or all in one archive."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import chain

from ...errors import ExtraMissing
from ...packet.shop_packet import PART_ADDRESS
from ..jobs.worked_job import PlannedJob
from ..sheets.made_already import NOTHING_MADE, MadeAlready
from .leaf_files import leaf_documents
from .packet_files import documents

MEDIA = {
    "pdf": "application/pdf",
    "csv": "text/csv; charset=utf-8",
    "json": "application/json",
    "svg": "image/svg+xml",
    "dxf": "image/vnd.dxf",
    "glb": "model/gltf-binary",
    "step": "model/step",
    "toml": "application/toml",
    "zip": "application/zip",
}
JOB_FILE = "job.toml"
ARCHIVE = "everything.zip"

WORDS = {
    "packet.pdf": "Shop packet, to print",
    "parts.csv": "Parts list",
    "buying.csv": "Buying list",
    "costs.csv": "Money and hours, for the maker",
    "quote.pdf": "Quote for the customer",
    "plan.json": "Sheet plan",
    "job.glb": "Model",
    "job.step": "Exact model",
    JOB_FILE: "The job file",
    ARCHIVE: "Everything in one archive",
}
EPOCH = (1980, 1, 1, 0, 0, 0)


@dataclass(frozen=True)
class Download:
    """A file to fetch: its path in the packet, what it is, its format."""

    path: str
    words: str
    format: str


@dataclass(frozen=True)
class Downloads:
    """A packet's files: those for the whole job, its leaves one by one, those for single sheets and parts,
    and the lines at full size that parts are cut to."""

    whole: tuple[Download, ...]
    leaves: tuple[Download, ...]
    sheets: tuple[Download, ...]
    parts: tuple[Download, ...]
    scribes: tuple[Download, ...]


def list_downloads(planned: PlannedJob) -> Downloads:
    """What there is to fetch of a job. Nothing is made yet."""
    paths = [one.path for one in documents(planned)]
    found = [_paper(path) for path in chain(paths, (JOB_FILE, ARCHIVE))]
    return Downloads(
        tuple(paper for paper in found if "/" not in paper.path),
        tuple(Download(one.path, one.words, one.format) for one in leaf_documents(planned)),
        tuple(paper for paper in found if paper.path.startswith("sheets/")),
        tuple(paper for paper in found if paper.path.startswith("parts/")),
        tuple(paper for paper in found if paper.path.startswith("scribes/")),
    )


def download(
    planned: PlannedJob,
    path: str,
    unwanted: Callable[[], bool] = lambda: False,
    address: str = "",
    made: MadeAlready = NOTHING_MADE,
) -> tuple[bytes, str]:
    """A file's bytes and its media type; KeyError when the packet has none at that path.

    The labels' codes lead to `address` and a part's mark; without it they hold the mark for a reader of ours.
    `made` is what is cut already.
    The archive is given up, and then holds no file, as soon as it is `unwanted`. Raises ExtraMissing for a
    format whose library is not installed.
    """
    address = address or PART_ADDRESS
    media = MEDIA[path.rpartition(".")[2]]
    if path != ARCHIVE:
        return _kept(planned, path, address, made), media
    try:
        return _archive(_Packing(planned, address, made, unwanted)), media
    except _GivenUp:
        return b"", media


@lru_cache(maxsize=24)
def _kept(planned: PlannedJob, path: str, address: str, made: MadeAlready) -> bytes:
    if path == JOB_FILE:
        return planned.worked.text.encode("utf-8")
    every = chain(documents(planned, address, made), leaf_documents(planned, address, made))
    wanted: dict[str, Callable[[], bytes]] = {one.path: one.make for one in every}
    return wanted[path]()


@dataclass(frozen=True)
class _Packing:
    """An archive to be packed. Whoever asks for the same one again gets it, however long he stays."""

    planned: PlannedJob
    address: str
    made: MadeAlready
    unwanted: Callable[[], bool] = field(compare=False)


class _GivenUp(Exception):
    """Nobody waits for the archive any more; an exception, since those are not kept."""


@lru_cache(maxsize=2)
def _archive(packing: _Packing) -> bytes:
    planned, address, made = packing.planned, packing.address, packing.made
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        text = _kept(planned, JOB_FILE, address, made)
        archive.writestr(zipfile.ZipInfo(JOB_FILE, EPOCH), text, zipfile.ZIP_DEFLATED)
        for document in documents(planned, address, made):
            if packing.unwanted():
                raise _GivenUp
            name = document.path
            try:
                # What takes longest is kept for whoever asks for it by itself.
                content = document.make() if "/" in name else _kept(planned, name, address, made)
            except ExtraMissing as lacking:
                name, content = f"{name}.missing.txt", str(lacking).encode()
            archive.writestr(zipfile.ZipInfo(name, EPOCH), content, zipfile.ZIP_DEFLATED)
    return packed.getvalue()


def _paper(path: str) -> Download:
    stem, _, kind = path.rpartition(".")
    return Download(path, WORDS.get(path, stem.rpartition("/")[2]), kind)
