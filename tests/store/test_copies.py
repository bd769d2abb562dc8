"""Copies taken and put back while the file is in use."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest

from casewright.errors import StoreError
from casewright.store import job_rows as jobs
from casewright.store.copies import contents, copy_to, put_copy_back
from casewright.store.event_rows import NewEvent, append_events, events_after
from casewright.store.shop_file import open_file

WHEN = "2026-11-29T10:00:00Z"


def test_a_copy_is_one_file_with_everything_in_it(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop")
    jobs.add_job(file, "k", "kitchen", "one", "new", WHEN)
    append_events(file, [NewEvent("e", "k", "saw", WHEN, "cut", "{}", "blue phone")])
    copy_to(file, tmp_path / "copy")
    assert sorted(path.name for path in tmp_path.glob("copy*")) == ["copy"]
    there = open_file(tmp_path / "copy")
    assert contents(there) == contents(file)
    assert [event.device for event in events_after(there, "k")] == ["blue phone"]


def test_a_copy_taken_while_others_write_is_whole(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop")
    jobs.add_job(file, "k", "kitchen", "0", "new", WHEN)
    stop = threading.Event()

    def write() -> None:
        number = 1
        while not stop.is_set():
            jobs.add_revision(file, "k", number, f"kitchen {number}", "x" * 5000, "", WHEN)
            number += 1

    writer = threading.Thread(target=write)
    writer.start()
    try:
        for turn in range(10):
            copy_to(file, tmp_path / f"copy{turn}")
            there = open_file(tmp_path / f"copy{turn}")  # which looks for damage
            row = jobs.get_job(there, "k")
            assert row.version == len(jobs.list_revisions(there, "k"))
    finally:
        stop.set()
        writer.join()


def test_what_is_put_back_is_there_for_those_who_have_the_file_open(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop")
    jobs.add_job(file, "k", "kitchen", "one", "new", WHEN)
    copy_to(file, tmp_path / "copy")
    jobs.add_revision(file, "k", 1, "kitchen", "two", "", WHEN)
    with file.writing() as connection:
        connection.execute("INSERT INTO device VALUES ('d', 'phone', 'h', ?, NULL)", (WHEN,))
    put_copy_back(file, open_file(tmp_path / "copy"))
    assert jobs.newest_revision(file, "k").text == "one"
    with file.reading() as connection:
        assert [row["id"] for row in connection.execute("SELECT * FROM device")] == ["d"]
    jobs.add_revision(file, "k", 1, "kitchen", "three", "", WHEN)
    assert jobs.newest_revision(open_file(file.path), "k").text == "three"


def test_a_copy_that_cannot_be_written_leaves_nothing(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop")
    with pytest.raises(StoreError, match="nowhere"):
        copy_to(file, tmp_path / "nowhere" / "copy")
    assert not (tmp_path / "nowhere").exists()
