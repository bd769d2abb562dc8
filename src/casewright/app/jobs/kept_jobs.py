"""Jobs in the shop's file: opened, changed, saved. Every change adds a revision."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import count
from pathlib import Path as FilePath

from ...errors import JobError
from ...findings import Finding, refusals
from ...store import job_rows as jobs
from ...store.job_rows import NoSuchJob, Overtaken
from ...store.shop_file import StoreFile, open_file
from ..editing.text_edits import Edit, Path, apply_edits, look_up, shaped_values_of, values_of
from .worked_job import WorkedJob, open_job

__all__ = ["KeptJobs", "NoSuchJob", "OpenedRevision", "Overtaken", "RefusedChange", "now"]

LONGEST_ID = 40


def now() -> str:
    """The time, as the store keeps it."""
    return datetime.now(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")


@dataclass(frozen=True)
class OpenedRevision:
    """A job at one of its revisions, opened as a worked job."""

    id: str
    name: str
    revision: jobs.Revision
    newest: int
    worked: WorkedJob

    @property
    def is_newest(self) -> bool:
        return self.revision.number == self.newest


@dataclass(frozen=True)
class RefusedChange:
    """A change that was not saved, and why. The job is unchanged."""

    text: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class KeptJobs:
    """The jobs of one shop file and what can be done with them. `clock` gives the time as text, `device` is
    the paired device that does it, empty for the machine that keeps the file."""

    file: StoreFile
    clock: Callable[[], str] = now
    device: str = ""

    @classmethod
    def open(cls, path: FilePath) -> KeptJobs:
        """Open the shop's file, creating it if missing. Raises StoreError when it cannot be used."""
        return cls(open_file(path))

    def list(self) -> tuple[jobs.JobRow, ...]:
        """Every job, the one changed last first."""
        return jobs.list_jobs(self.file)

    def take(self, job: str, number: int | None = None) -> OpenedRevision:
        """A job at its newest revision or another. Raises NoSuchJob when there is none."""
        row = jobs.get_job(self.file, job)
        revision = jobs.get_revision(self.file, job, row.version if number is None else number)
        return OpenedRevision(job, row.name, revision, row.version, open_job(revision.text))

    def history(self, job: str) -> tuple[jobs.Revision, ...]:
        """Every revision, the newest first."""
        return jobs.list_revisions(self.file, job)

    def start(self, text: str, note: str = "new") -> OpenedRevision:
        """Keep a new job, under an id made from its name. Any text is kept, sound or not.

        Raises JobError for what no file could hold.
        """
        _check_text(text)
        name = _name_in(text)
        stem = _id_from(name)
        for number in count(1):
            job = stem if number == 1 else f"{stem}-{number}"
            try:
                jobs.add_job(self.file, job, name, text, note, self.clock(), self.device)
            except jobs.JobIdTaken:
                continue
            break
        return self.take(job)

    def change(
        self, job: str, edits: Sequence[Edit], note: str, based_on: int
    ) -> OpenedRevision | RefusedChange:
        """Make `edits` on a job and keep the result, unless it could not be built.

        Another's revision in between is kept too: the edits are made on it, so long as they
        still mean the same cases and runs. Raises Overtaken when they do not.
        """
        while True:
            newest = jobs.newest_revision(self.file, job)
            if newest.number != based_on:
                seen = jobs.get_revision(self.file, job, based_on)
                if not _mean_the_same(edits, seen.text, newest.text):
                    raise Overtaken(job, newest.number, based_on)
            try:
                text = apply_edits(newest.text, edits)
            except JobError as refused:
                return RefusedChange(newest.text, refused.findings)
            except LookupError as fault:
                if newest.number != based_on:
                    raise Overtaken(job, newest.number, based_on) from None
                return RefusedChange(newest.text, (_not_there(fault),))
            try:
                return self._keep(job, text, note, newest.number)
            except Overtaken:
                continue

    def rewrite(self, job: str, text: str, note: str, based_on: int) -> OpenedRevision | RefusedChange:
        """Keep a whole new text, unless it could not be built. Raises Overtaken."""
        return self._keep(job, text, note, based_on)

    def restore(self, job: str, number: int) -> OpenedRevision:
        """Make an earlier revision's text the newest again; nothing in between is lost."""
        while True:
            wanted = jobs.get_revision(self.file, job, number)
            newest = jobs.newest_revision(self.file, job)
            try:
                self._add(job, wanted.text, f"back to revision {number}", newest.number)
            except Overtaken:
                continue
            return self.take(job)

    def put_away(self, job: str) -> None:
        """Take a job off the list; its revisions stay in the file."""
        jobs.put_away(self.file, job, self.clock())

    def _keep(self, job: str, text: str, note: str, based_on: int) -> OpenedRevision | RefusedChange:
        _check_text(text)
        before = jobs.get_revision(self.file, job, based_on).text
        result = open_job(text)
        # A job that could not be built before may be corrected one error at a time.
        if result.project is None and open_job(before).project is not None:
            return RefusedChange(text, refusals(result.findings))
        if text != before or based_on != jobs.get_job(self.file, job).version:
            self._add(job, text, note, based_on)
        return self.take(job)

    def _add(self, job: str, text: str, note: str, based_on: int) -> None:
        jobs.add_revision(self.file, job, based_on, _name_in(text), text, note, self.clock(), self.device)


def _not_there(fault: LookupError) -> Finding:
    place = str(fault.args[0]) if fault.args else "job"
    text = f"this job has no entry “{place}”."
    return Finding("no-such-entry", place, text, "Check its name on the Text page.")


def _check_text(text: str) -> None:
    """Refuse text with an incomplete character, which no file could store."""
    try:
        text.encode("utf-8")
    except UnicodeEncodeError as fault:
        line = text.count("\n", 0, fault.start) + 1
        finding = Finding(
            "not-text",
            "text",
            "the text contains an incomplete character.",
            "Retype that part of the line.",
            line=line,
        )
        raise JobError((finding,)) from None


def _name_in(text: str) -> str:
    try:
        name = values_of(text).get("job")
    except JobError:
        name = None
    return name if isinstance(name, str) and name.strip() else "untitled job"


def _id_from(name: str) -> str:
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_ID].strip("-") or "job"


def _mean_the_same(edits: Sequence[Edit], seen: str, newest: str) -> bool:
    """Whether the edits' paths lead to the same runs, cases and bays in both texts."""
    before, after = shaped_values_of(seen), shaped_values_of(newest)
    return all(_called(edit.path, before) == _called(edit.path, after) for edit in edits)


def _called(path: Path, values: object) -> list[object]:
    """What the list entries along a path are called, or how many there are where they have no name."""
    names: list[object] = []
    for length, step in enumerate(path):
        if isinstance(step, int):
            entries = look_up(values, path[:length])
            entry = look_up(values, path[: length + 1])
            name = (entry.get("mark") or entry.get("name")) if isinstance(entry, dict) else None
            names.append(name or len(entries or ()))
    return names
