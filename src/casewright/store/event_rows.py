"""The shop record: what happened at the benches, in the order in which it was kept."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import astuple, dataclass

from .job_rows import NoSuchJob
from .shop_file import GREATEST, StoreFile


@dataclass(frozen=True)
class NewEvent:
    """Something that happened. `id` is made by the bench, so sending it again changes nothing.

    `time` is the bench's own clock (ISO 8601), `payload` a JSON text, `device` the name of the paired device
    that sent it, empty for the machine that keeps the file.
    """

    id: str
    job: str
    bench: str
    time: str
    kind: str
    payload: str
    device: str = ""


@dataclass(frozen=True)
class KeptEvent:
    """An event in its `place`: places grow, and every reader sees the same order."""

    place: int
    id: str
    job: str
    bench: str
    time: str
    kind: str
    payload: str
    device: str


def append_events(file: StoreFile, events: Iterable[NewEvent]) -> tuple[KeptEvent, ...]:
    """Keep the events, all or none, and give each as it is kept.

    One whose id is kept already is given back as it was first sent. Raises NoSuchJob for an
    event of a job that is not in the file.
    """
    kept: list[KeptEvent] = []
    with file.writing() as connection:
        for event in events:
            if connection.execute("SELECT 1 FROM job WHERE id = ?", (event.job,)).fetchone() is None:
                raise NoSuchJob(f"This file has no job {event.job!r}; nothing was recorded.")
            connection.execute(
                "INSERT INTO event (id, job, bench, time, kind, payload, device) "
                "VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING",
                astuple(event),
            )
            row = connection.execute("SELECT * FROM event WHERE id = ?", (event.id,)).fetchone()
            kept.append(KeptEvent(**dict(row)))
    return tuple(kept)


def events_of_kind(file: StoreFile, job: str, kind: str) -> tuple[KeptEvent, ...]:
    """The events of a job of one kind, in order."""
    with file.reading() as connection:
        rows = connection.execute(
            "SELECT * FROM event WHERE job = ? AND kind = ? ORDER BY place", (job, kind)
        ).fetchall()
    return tuple(KeptEvent(**dict(row)) for row in rows)


def newest_event(file: StoreFile, job: str) -> tuple[int, str]:
    """The place and the id of the event of a job that was kept last; 0 and no id before the first."""
    with file.reading() as connection:
        row = connection.execute(
            "SELECT place, id FROM event WHERE job = ? ORDER BY place DESC LIMIT 1", (job,)
        ).fetchone()
    return (0, "") if row is None else (row["place"], row["id"])


def events_after(file: StoreFile, job: str, place: int = 0) -> tuple[KeptEvent, ...]:
    """The events of a job kept after `place`, in order; all of them by default."""
    if place > GREATEST:
        return ()
    with file.reading() as connection:
        rows = connection.execute(
            "SELECT * FROM event WHERE job = ? AND place > ? ORDER BY place", (job, place)
        ).fetchall()
    return tuple(KeptEvent(**dict(row)) for row in rows)
