"""A file that is not ours, damaged, read-only or on a full disk is said to be so, and left as it is."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from casewright.errors import StoreError
from casewright.store import job_rows as jobs
from casewright.store.event_rows import NewEvent, append_events
from casewright.store.migrate import bring_up_to_date, migrations
from casewright.store.plain_faults import said_plainly
from casewright.store.shop_file import APPLICATION, StoreFile, open_file

WHEN = "2026-11-29T10:00:00Z"


def filled(path: Path) -> StoreFile:
    file = open_file(path)
    jobs.add_job(file, "k", "kitchen", "one", "new", WHEN)
    events = [NewEvent(f"e{n}", "k", "saw", WHEN, "cut", "x" * 400) for n in range(300)]
    append_events(file, events)
    return file


def test_a_new_file_says_whose_it_is(tmp_path: Path) -> None:
    open_file(tmp_path / "shop")
    with closing(sqlite3.connect(tmp_path / "shop")) as connection:
        assert connection.execute("PRAGMA application_id").fetchone() == (APPLICATION,)
        assert APPLICATION.to_bytes(4, "big") == b"CsWr"


@pytest.mark.parametrize("number", [0, 77])
def test_the_database_of_another_program_is_refused_and_unchanged(tmp_path: Path, number: int) -> None:
    path = tmp_path / "songs.db"
    with closing(sqlite3.connect(path)) as other:
        other.execute(f"PRAGMA application_id = {number}")
        other.execute("CREATE TABLE job (id)")
        other.commit()
    before = path.read_bytes()
    with pytest.raises(StoreError, match=r"songs\.db is the database of another program"):
        open_file(path)
    assert path.read_bytes() == before


def test_a_file_from_before_it_said_whose_it_is_still_opens(tmp_path: Path) -> None:
    path = tmp_path / "shop"
    with closing(sqlite3.connect(path, isolation_level=None)) as old:
        bring_up_to_date(old, path, migrations()[:3])
    open_file(path)
    assert [row.id for row in jobs.list_jobs(open_file(path))] == []


def test_damage_is_found_when_the_file_is_opened(tmp_path: Path) -> None:
    path = tmp_path / "shop"
    filled(path)
    whole = path.read_bytes()
    found = 0
    for place in range(4096, len(whole), 4096):
        path.write_bytes(whole[:place] + b"\xff" * 4096 + whole[place + 4096 :])
        with pytest.raises(StoreError, match=r"is damaged .* casewright restore BACKUP"):
            open_file(path)
        found += 1
    assert found > 20
    path.write_bytes(whole[: len(whole) // 2])
    with pytest.raises(StoreError, match="is damaged"):
        open_file(path)


def test_a_full_disk_is_said_to_be_full_and_nothing_is_lost(tmp_path: Path) -> None:
    file = filled(tmp_path / "shop")
    with pytest.raises(StoreError, match=r"the disk that holds .*shop is full; make room"):  # noqa: SIM117
        with file.writing() as connection:
            connection.execute("PRAGMA max_page_count = 1")
            connection.execute("UPDATE job SET name = ?", ("x" * 9_000_000,))
    assert jobs.get_job(file, "k").name == "kitchen"
    with pytest.raises(StoreError, match="is full"), said_plainly(tmp_path / "shop"):
        raise OSError(28, "No space left on device")


def test_a_file_that_can_only_be_read_is_said_to_be(tmp_path: Path) -> None:
    file = filled(tmp_path / "shop")
    with pytest.raises(StoreError, match="can be read but not written"), said_plainly(file.path):
        uri = f"file:{file.path}?mode=ro"
        with closing(sqlite3.connect(uri, uri=True)) as connection:
            connection.execute("DELETE FROM device")


def test_a_file_locked_too_long_is_said_to_be(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = filled(tmp_path / "shop")
    monkeypatch.setattr("casewright.store.shop_file.WAIT_SECONDS", 0.01)
    with file.writing(), pytest.raises(StoreError, match="locked by another program"), file.writing():
        pass


def test_what_the_disk_fails_at_is_laid_to_the_disk() -> None:
    fault = sqlite3.OperationalError("disk I/O error")
    fault.sqlite_errorcode = sqlite3.SQLITE_IOERR_WRITE
    with pytest.raises(StoreError, match="the disk failed"), said_plainly(Path("shop")):
        raise fault
