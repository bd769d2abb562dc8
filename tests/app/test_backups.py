"""What going back to a backup would cost is said, job by job, before it is done."""

from __future__ import annotations

from pathlib import Path

import pytest

from casewright.app.jobs.backups import back_up, backup_name, opened_copy, preview_restore, put_backup_back
from casewright.errors import StoreError
from casewright.store import job_rows as jobs
from casewright.store.event_rows import NewEvent, append_events
from casewright.store.plan_rows import add_plan
from casewright.store.shop_file import StoreFile, open_file

DAY = "2026-11-{:02}T10:00:00Z"
NOW = DAY.format(29)


@pytest.fixture
def shop(tmp_path: Path) -> StoreFile:
    file = open_file(tmp_path / "shop.casewright")
    jobs.add_job(file, "k", "Kitchen", "one", "new", DAY.format(1))
    append_events(file, [NewEvent("e1", "k", "saw", NOW, "cut", "{}")])
    return file


@pytest.fixture
def backup(shop: StoreFile, tmp_path: Path) -> Path:
    back_up(shop.path, tmp_path / "copy")
    return tmp_path / "copy"


def lost(shop: StoreFile, backup: Path) -> tuple[str, ...]:
    with opened_copy(backup) as copy:
        return preview_restore(shop.path, copy).loses


def test_nothing_is_lost_while_nothing_was_added(shop: StoreFile, backup: Path) -> None:
    assert lost(shop, backup) == ()


def test_each_kind_of_work_since_the_backup_is_counted(shop: StoreFile, backup: Path) -> None:
    jobs.add_revision(shop, "k", 1, "Kitchen", "two", "", DAY.format(2))
    assert lost(shop, backup) == ("Kitchen: 1 revision would be lost",)
    append_events(shop, [NewEvent(f"f{n}", "k", "saw", NOW, "cut", "{}") for n in range(3)])
    add_plan(shop, "k", "plan", "{}", NOW)
    assert lost(shop, backup) == (
        "Kitchen: 1 revision, 3 entries from the shop and 1 sheet plan would be lost",
    )
    jobs.add_job(shop, "l", "Larder", "text", "new", DAY.format(3))
    assert lost(shop, backup)[1] == "Larder: 1 revision would be lost, and with them the whole job"


def test_work_that_went_another_way_since_is_lost_too(shop: StoreFile, backup: Path) -> None:
    """The same revision number with another text is not the same revision."""
    with opened_copy(backup) as copy:
        jobs.add_revision(copy, "k", 1, "Kitchen", "theirs", "", DAY.format(2))
        jobs.add_revision(shop, "k", 1, "Kitchen", "ours", "", DAY.format(2))
        (job,) = preview_restore(shop.path, copy).jobs
    assert job.revisions_now == job.revisions_then == 2 and job.lost == "1 revision would be lost"


def test_looking_changes_neither_file_and_doing_it_keeps_what_was(shop: StoreFile, backup: Path) -> None:
    jobs.add_revision(shop, "k", 1, "Kitchen", "two", "", DAY.format(2))
    before = backup.read_bytes()
    with opened_copy(backup) as copy:
        preview_restore(shop.path, copy)
        assert jobs.newest_revision(shop, "k").text == "two"
        kept = put_backup_back(shop.path, copy, NOW)
    assert backup.read_bytes() == before
    assert jobs.newest_revision(shop, "k").text == "one"
    assert kept is not None and kept.name == "before-restore-shop-2026-11-29T10-00-00.casewright"
    assert jobs.newest_revision(open_file(kept), "k").text == "two"
    with opened_copy(kept) as undo:
        put_backup_back(shop.path, undo, DAY.format(30))
    assert jobs.newest_revision(shop, "k").text == "two"


def test_a_damaged_file_is_set_aside_for_the_backup(shop: StoreFile, backup: Path) -> None:
    for beside in shop.path.parent.glob("shop.casewright-*"):
        beside.unlink()
    shop.path.write_bytes(b"\xff" * 9000)
    with opened_copy(backup) as copy:
        found = preview_restore(shop.path, copy)
        assert f"{shop.path} is damaged" in found.damaged and "keeps the damaged file" in found.damaged
        # Nobody knows what it holds: to say "0 revisions" of it would be wrong.
        assert [(job.revisions_now, job.revisions_then) for job in found.jobs] == [(None, 1)]
        kept = put_backup_back(shop.path, copy, NOW)
    assert kept is not None and kept.read_bytes() == b"\xff" * 9000
    assert jobs.newest_revision(open_file(shop.path), "k").text == "one"


def test_a_file_that_is_gone_is_made_of_the_backup(shop: StoreFile, backup: Path, tmp_path: Path) -> None:
    with opened_copy(backup) as copy:
        assert preview_restore(tmp_path / "new", copy).loses == ()
        assert put_backup_back(tmp_path / "new", copy, NOW) is None
    assert jobs.newest_revision(open_file(tmp_path / "new"), "k").text == "one"


def test_a_backup_replaces_no_file(shop: StoreFile, backup: Path) -> None:
    with pytest.raises(StoreError, match="already exists; choose another name"):
        back_up(shop.path, backup)


def test_what_is_no_backup_is_named_and_nothing_is_made(shop: StoreFile, tmp_path: Path) -> None:
    (tmp_path / "letter").write_text("dear aunt " * 200)
    before = sorted(tmp_path.iterdir())
    for name, why in (("letter", "letter is damaged or is not"), ("nowhere", "there is no file .*nowhere")):
        with pytest.raises(StoreError, match=why), opened_copy(tmp_path / name):
            pass
        with pytest.raises(StoreError, match=why):
            back_up(tmp_path / name, tmp_path / "out")
    assert sorted(tmp_path.iterdir()) == before


def test_a_backup_is_called_after_its_file_and_the_time() -> None:
    assert backup_name(Path("barn.casewright"), NOW) == "barn-2026-11-29T10-00-00.casewright"
