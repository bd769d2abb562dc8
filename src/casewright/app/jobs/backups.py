"""Backups of the shop's file: taken while it is in use, put back once the maker has seen what that costs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from os import getpid
from pathlib import Path
from tempfile import TemporaryDirectory

from ...errors import StoreError
from ...store.copies import JobContents, contents, copy_to, put_copy_back
from ...store.plain_faults import DamagedFile, said_plainly
from ...store.serving import served_by
from ...store.shop_file import StoreFile, check_file, open_file


@dataclass(frozen=True)
class RestoredJob:
    """A job before and after a restore: how many revisions it has and when the newest was saved, "" where the
    file has no such job; and what would be lost. `revisions_now` is None where the file cannot be read."""

    name: str
    revisions_now: int | None
    changed_now: str
    revisions_then: int
    changed_then: str
    lost: str


@dataclass(frozen=True)
class RestorePreview:
    """What a restore would do, job by job. `damaged` says why the present file cannot be read and what
    becomes of it; what would be lost is then not known."""

    jobs: tuple[RestoredJob, ...]
    damaged: str = ""

    @property
    def loses(self) -> tuple[str, ...]:
        """A line for each job that would lose something."""
        return tuple(f"{job.name}: {job.lost}" for job in self.jobs if job.lost)


def back_up(path: Path, to: Path) -> None:
    """Copy the shop's file to a new file. StoreError when it cannot be done, or something lies there."""
    check_file(path)
    if to.exists():
        raise StoreError(f"{to} already exists; choose another name for the backup.")
    copy_to(StoreFile(path), to)


def backup_name(path: Path, now: str) -> str:
    """What a backup of the file is called by default; `now` is the time as the store writes it."""
    stamp = "".join(sign if sign.isalnum() else "-" for sign in now[:19])
    return f"{path.stem}-{stamp}.casewright"


@contextmanager
def opened_copy(backup: Path, called: str = "") -> Iterator[StoreFile]:
    """A backup to look into, brought up to date; it is a copy of the backup that is opened, and it is gone
    afterwards. StoreError, under the name it is `called`, when it is not sound, not ours, or of a newer
    version."""
    check_file(backup, Path(called or backup))
    with TemporaryDirectory(prefix="casewright-") as folder:
        copy = Path(folder) / "copy"
        copy_to(StoreFile(backup), copy)
        yield open_file(copy)


def preview_restore(path: Path, copy: StoreFile) -> RestorePreview:
    """What putting the copy in the place of the shop's file would do. Nothing is done."""
    if not path.exists():
        return RestorePreview(compare({}, contents(copy)))
    try:
        check_file(path)
    except DamagedFile as fault:
        jobs = compare({}, contents(copy))
        return RestorePreview(tuple(replace(job, revisions_now=None) for job in jobs), _damaged(fault))
    return RestorePreview(compare(contents(open_file(path)), contents(copy)))


def _damaged(fault: DamagedFile) -> str:
    return (
        f"{fault.path} is damaged or is not a casewright file ({fault.how}), so its jobs cannot be listed, "
        "nor what would be lost of them. Going back puts the backup in its place and keeps the damaged file "
        "beside it. Enter again what was saved after the backup was made."
    )


def put_backup_back(path: Path, copy: StoreFile, now: str) -> Path | None:
    """Put the copy in the place of the shop's file. Gives where the file as it was is kept, None for no file.

    StoreError when it cannot be done, as while another process serves the file; the shop's file is then as
    it was.
    """
    if others := [number for number in served_by(path) if number != getpid()]:
        raise StoreError(
            f"casewright serves {path} now, as process {others[0]}: stop that first with Ctrl-C in its "
            "terminal, or go back to the backup on its own page Backup. Nothing was changed."
        )
    if not path.exists():
        copy_to(copy, path)
        return None
    kept = path.with_name(f"before-restore-{backup_name(path, now)}")
    try:
        back_up(path, kept)
    except DamagedFile:
        _set_aside(path, kept)
        copy_to(copy, path)
        return kept
    put_copy_back(open_file(path), copy)
    return kept


def _set_aside(path: Path, kept: Path) -> None:
    """Move a damaged file out of the way, with what SQLite keeps beside it."""
    with said_plainly(path):
        for ending in ("", "-wal", "-shm"):
            beside = path.with_name(path.name + ending)
            if beside.exists():
                beside.rename(kept.with_name(kept.name + ending))


def compare(now: Mapping[str, JobContents], then: Mapping[str, JobContents]) -> tuple[RestoredJob, ...]:
    """What becomes of each job when a file that holds `now` is made to hold `then`."""
    return tuple(_compared(now.get(job), then.get(job)) for job in sorted({*now, *then}))


def _compared(now: JobContents | None, then: JobContents | None) -> RestoredJob:
    newest = then or now
    assert newest is not None
    return RestoredJob(
        newest.name,
        len(now.revisions) if now else 0,
        now.changed if now else "",
        len(then.revisions) if then else 0,
        then.changed if then else "",
        _lost(now, then) if now else "",
    )


def _lost(now: JobContents, then: JobContents | None) -> str:
    revisions = len(now.revisions - (then.revisions if then else frozenset()))
    events = len(now.events - (then.events if then else frozenset()))
    plans = len(now.plans - (then.plans if then else frozenset()))
    counted = ((revisions, "revision"), (events, "entry from the shop"), (plans, "sheet plan"))
    lost = [f"{count} {_plural(what, count)}" for count, what in counted if count]
    if not lost:
        return ""
    said = lost[0] if len(lost) == 1 else f"{', '.join(lost[:-1])} and {lost[-1]}"
    return f"{said} would be lost{'' if then else ', and with them the whole job'}"


def _plural(what: str, count: int) -> str:
    if count == 1:
        return what
    return what.replace("entry", "entries") if "entry" in what else f"{what}s"
