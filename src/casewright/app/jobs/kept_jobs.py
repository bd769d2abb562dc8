"""Jobs in the shop's file: opened, changed, saved. Every change adds a revision."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from itertools import count
from pathlib import Path as FilePath
from typing import Any

from ...errors import JobError
from ...findings import Finding, refusals
from ...jobfile.read.schema_faults import place_of
from ...jobfile.read.toml_text import values_of
from ...store import job_rows as jobs
from ...store.job_rows import NoSuchJob, Overtaken, UnknownBase
from ...store.serving import serving
from ...store.shop_file import StoreFile, open_file
from ..editing.followed import follow_edit
from ..editing.text_edits import Edit, apply_edits, shaped_values_of
from ..history.undo_steps import HistoryStep, HistorySteps, history_steps
from .worked_job import WorkedJob, open_job

__all__ = ["KeptJobs", "NoSuchJob", "OpenedRevision", "Overtaken", "RefusedChange", "UnknownBase", "now"]

LONGEST_ID = 40
LONGEST_NOTE = 200
UNDONE_MOST = 200
"""Characters of an id and a note; revisions that are looked through for what can be undone."""


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

    def being_served(self) -> AbstractContextManager[None]:
        """Say, for as long as the block lasts, that this process serves the file."""
        return serving(self.file.path)

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

        Others' revisions since `based_on` are kept too: the edits are made on the newest, on the cases, runs
        and bays that they named. Raises Overtaken where one would replace a value that its maker has not
        seen, or its entry is no longer there.
        """
        while True:
            texts = jobs.texts_from(self.file, job, based_on)
            newest = based_on + len(texts) - 1
            now = _on_newest(job, edits, texts, newest) if len(texts) > 1 else edits
            try:
                text = apply_edits(texts[-1], now)
            except JobError as refused:
                return RefusedChange(texts[-1], refused.findings)
            except LookupError as fault:
                return RefusedChange(texts[-1], (_not_there(fault),))
            try:
                return self._keep(job, text, note, newest)
            except Overtaken:
                continue

    def values_since(self, job: str, number: int) -> tuple[Mapping[str, Any], ...]:
        """What the job's text says in each revision from `number` on; UnknownBase when it had none such."""
        return tuple(shaped_values_of(text) for text in jobs.texts_from(self.file, job, number))

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

    def steps(self, job: str) -> HistorySteps:
        """What undo and redo would do now."""
        return _steps_at(self.file, jobs.newest_revision(self.file, job))

    def undo(self, job: str, based_on: int) -> None:
        """Take the last step back. Raises Overtaken when another revision was saved since `based_on`."""
        self._go(job, based_on, self.steps(job).undo, "undone")

    def redo(self, job: str, based_on: int) -> None:
        """Make the step that was undone last again. Raises Overtaken as `undo` does."""
        self._go(job, based_on, self.steps(job).redo, "made again")

    def _go(self, job: str, based_on: int, step: HistoryStep | None, how: str) -> None:
        if step is not None:
            text = jobs.get_revision(self.file, job, step.to).text
            self._add(job, text, f"{how}: {step.change}"[:LONGEST_NOTE], based_on)

    def put_away(self, job: str) -> None:
        """Take a job off the list; its revisions stay in the file."""
        jobs.put_away(self.file, job, self.clock())

    def put_back(self, job: str) -> None:
        """Put a job on the list again."""
        jobs.put_back(self.file, job)

    def list_put_away(self) -> tuple[jobs.JobRow, ...]:
        """Every job that was taken off the list, the last first."""
        return jobs.list_put_away(self.file)

    def _keep(self, job: str, text: str, note: str, based_on: int) -> OpenedRevision | RefusedChange:
        _check_text(text)
        before = jobs.texts_from(self.file, job, based_on)[0]
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


@lru_cache(maxsize=32)
def _steps_at(file: StoreFile, newest: jobs.Revision) -> HistorySteps:
    """Every page of a job shows these, and no revision is ever changed: its texts are read once."""
    return history_steps(jobs.last_revisions(file, newest.job, UNDONE_MOST))


def _on_newest(job: str, edits: Sequence[Edit], texts: Sequence[str], newest: int) -> list[Edit]:
    """The edits of the first text as edits of the last. Raises Overtaken where one cannot be made unseen."""
    values = [shaped_values_of(text) for text in texts]
    now: list[Edit] = []
    for edit in edits:
        followed = follow_edit(edit, values)
        if followed is None:
            raise Overtaken(job, newest, newest - len(texts) + 1, place_of(edit.path, values[0]))
        now.append(followed)
    return now
