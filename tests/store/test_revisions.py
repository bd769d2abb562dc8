"""What is saved stays saved: revisions, conflicts, several processes at once, files that are not ours."""

from __future__ import annotations

import multiprocessing
import os
import sqlite3
from contextlib import closing
from itertools import pairwise
from pathlib import Path

import pytest

from casewright.errors import StoreError
from casewright.store import job_rows as jobs
from casewright.store.migrate import bring_up_to_date, migrations
from casewright.store.shop_file import open_file

WHEN = "2026-11-25T10:00:00Z"
PROCESSES, SAVES = 8, 12


def test_a_job_keeps_every_text_it_had(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop.sqlite3")
    jobs.add_job(file, "k", "kitchen", "one", "new", WHEN)
    jobs.add_revision(file, "k", 1, "kitchen", "two", "wider", WHEN)
    jobs.add_revision(file, "k", 2, "pantry", "one", "back to revision 1", WHEN)
    assert [(r.number, r.parent, r.text) for r in jobs.list_revisions(file, "k")] == [
        (3, 2, "one"),
        (2, 1, "two"),
        (1, None, "one"),
    ]
    assert jobs.newest_revision(file, "k").note == "back to revision 1"
    assert [(row.name, row.version) for row in jobs.list_jobs(file)] == [("pantry", 3)]


def test_a_save_on_an_old_revision_is_turned_away_and_changes_nothing(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop.sqlite3")
    jobs.add_job(file, "k", "kitchen", "one", "new", WHEN)
    jobs.add_revision(file, "k", 1, "kitchen", "mine", "", WHEN)
    with pytest.raises(jobs.Overtaken) as turned_away:
        jobs.add_revision(file, "k", 1, "kitchen", "theirs", "", WHEN)
    assert turned_away.value.newest == 2 and "make yours again" in str(turned_away.value)
    assert jobs.newest_revision(file, "k").text == "mine"


def test_a_save_that_breaks_leaves_the_last_revision(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop.sqlite3")
    jobs.add_job(file, "k", "kitchen", "one", "new", WHEN)
    with pytest.raises(RuntimeError, match="power cut"), file.writing() as connection:
        connection.execute("UPDATE job SET version = 2, name = 'half'")
        raise RuntimeError("power cut")
    assert jobs.newest_revision(file, "k").text == "one"
    assert jobs.get_job(file, "k").name == "kitchen"


def test_no_revision_can_be_changed_or_deleted(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop.sqlite3")
    jobs.add_job(file, "k", "kitchen", "one", "new", WHEN)
    for statement in ("UPDATE revision SET text = ''", "DELETE FROM revision"):
        with pytest.raises(StoreError, match="never"), file.writing() as connection:
            connection.execute(statement)
    assert jobs.newest_revision(file, "k").text == "one"


def test_a_job_put_away_leaves_the_list_but_not_the_file(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop.sqlite3")
    jobs.add_job(file, "k", "kitchen", "one", "new", WHEN)
    jobs.put_away(file, "k", WHEN)
    assert jobs.list_jobs(file) == ()
    assert jobs.newest_revision(file, "k").text == "one"


def test_unknown_jobs_are_named(tmp_path: Path) -> None:
    file = open_file(tmp_path / "shop.sqlite3")
    for ask in (jobs.newest_revision, jobs.list_revisions, jobs.get_job):
        with pytest.raises(jobs.NoSuchJob, match="'attic'"):
            ask(file, "attic")
    with pytest.raises(jobs.NoSuchJob, match="revision 7"):
        jobs.add_job(file, "k", "kitchen", "one", "new", WHEN)
        jobs.get_revision(file, "k", 7)
    with pytest.raises(StoreError, match="already"):
        jobs.add_job(file, "k", "other", "", "", WHEN)


def _save_many(path: Path, me: int) -> None:
    file = open_file(path)
    for turn in range(SAVES):
        while True:
            now = jobs.newest_revision(file, "k")
            try:
                jobs.add_revision(file, "k", now.number, "kitchen", f"{now.text}{me}.{turn} ", f"{me}", WHEN)
            except jobs.Overtaken:
                continue
            break


def test_eight_processes_saving_at_once_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "shop.sqlite3"
    file = open_file(path)
    jobs.add_job(file, "k", "kitchen", "", "new", WHEN)
    spawn = multiprocessing.get_context("spawn")
    workers = [spawn.Process(target=_save_many, args=(path, me)) for me in range(PROCESSES)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join(120)
    assert [worker.exitcode for worker in workers] == [0] * PROCESSES
    wanted = {f"{me}.{turn}" for me in range(PROCESSES) for turn in range(SAVES)}
    assert set(jobs.newest_revision(file, "k").text.split()) == wanted
    history = jobs.list_revisions(file, "k")
    assert len(history) == PROCESSES * SAVES + 1
    assert all(later.parent == earlier.number for later, earlier in pairwise(history))


def test_an_older_file_is_brought_up_to_date_with_its_work(tmp_path: Path) -> None:
    path = tmp_path / "old.sqlite3"
    with closing(sqlite3.connect(path, isolation_level=None)) as old:
        bring_up_to_date(old, path, migrations()[:1])
        old.execute("INSERT INTO job VALUES ('k', 'kitchen', ?, 1, NULL)", (WHEN,))
        old.execute("INSERT INTO revision VALUES ('k', 1, NULL, 'kept', '', ?)", (WHEN,))
    file = open_file(path)
    assert jobs.newest_revision(file, "k").text == "kept"
    with file.reading() as connection:
        assert [row[0] for row in connection.execute("SELECT number FROM layout")] == [
            step.number for step in migrations()
        ]
        assert connection.execute("SELECT count(*) FROM event").fetchone()[0] == 0


def test_steps_are_numbered_without_a_gap() -> None:
    assert [step.number for step in migrations()] == list(range(1, len(migrations()) + 1))


def test_a_file_of_a_newer_version_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "new.sqlite3"
    file = open_file(path)
    with file.writing() as connection:
        connection.execute("INSERT INTO layout VALUES (9999, 'tomorrow')")
    with pytest.raises(StoreError, match="newer version of casewright"):
        open_file(path)


def test_files_that_cannot_be_used_are_said_in_a_sentence(tmp_path: Path) -> None:
    note = tmp_path / "note.sqlite3"
    note.write_text("a letter to my aunt, which is no database at all " * 40)
    with pytest.raises(StoreError, match="not a casewright file"):
        open_file(note)
    assert note.read_text().startswith("a letter")
    with pytest.raises(StoreError, match="cannot be"):
        open_file(note / "below" / "shop.sqlite3")


@pytest.mark.skipif(os.name == "nt", reason="a folder stands in for the file")
def test_a_folder_in_the_files_place_is_said(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="is a folder; name a file in it"):
        open_file(tmp_path)
