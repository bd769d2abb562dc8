"""The shop record: in order, once each, never changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from casewright.errors import StoreError
from casewright.store.event_rows import NewEvent, append_events, events_after
from casewright.store.job_rows import NoSuchJob, add_job
from casewright.store.shop_file import StoreFile, open_file

WHEN = "2026-11-25T10:00:00Z"


@pytest.fixture
def file(tmp_path: Path) -> StoreFile:
    file = open_file(tmp_path / "shop.sqlite3")
    add_job(file, "k", "kitchen", "", "", WHEN)
    add_job(file, "p", "pantry", "", "", WHEN)
    return file


def tick(name: str, job: str = "k", payload: str = "{}") -> NewEvent:
    return NewEvent(name, job, "saw", WHEN, "tick", payload)


def test_events_come_back_in_the_order_they_were_kept(file: StoreFile) -> None:
    append_events(file, [tick("a"), tick("x", "p"), tick("b")])
    append_events(file, [tick("c")])
    assert [event.id for event in events_after(file, "k")] == ["a", "b", "c"]
    second = events_after(file, "k")[1]
    assert [event.id for event in events_after(file, "k", second.place)] == ["c"]


def test_an_event_sent_twice_is_kept_once_as_first_sent(file: StoreFile) -> None:
    (first,) = append_events(file, [tick("a", payload='{"cut": 1}')])
    (again,) = append_events(file, [tick("a", payload='{"cut": 2}')])
    assert again == first
    assert len(events_after(file, "k")) == 1


def test_a_batch_with_an_unknown_job_is_kept_not_at_all(file: StoreFile) -> None:
    with pytest.raises(NoSuchJob, match="'attic'"):
        append_events(file, [tick("a"), tick("b", "attic")])
    assert events_after(file, "k") == ()


def test_no_event_can_be_changed_or_deleted(file: StoreFile) -> None:
    append_events(file, [tick("a")])
    for statement in ("UPDATE event SET kind = 'undo'", "DELETE FROM event"):
        with pytest.raises(StoreError, match="never"), file.writing() as connection:
            connection.execute(statement)
    assert events_after(file, "k")[0].kind == "tick"


def test_a_place_beyond_any_has_nothing_after_it(file: StoreFile) -> None:
    """SQLite's integers end at 2**63 - 1; a page that asked beyond them was answered with a fault of ours."""
    append_events(file, [tick("a")])
    assert events_after(file, "k", 10**20) == () == events_after(file, "k", 2**63 - 1)
    assert len(events_after(file, "k", -1)) == 1
