"""Use cases over the shop's file: nothing that was kept is ever lost, nothing half right is kept."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from casewright.app.editing.text_edits import DropEntry, MoveEntry, SetEntry
from casewright.app.jobs.kept_jobs import KeptJobs, NoSuchJob, OpenedRevision, Overtaken, RefusedChange
from casewright.jobfile.read.toml_text import values_of
from casewright.store import job_rows as jobs
from web_bench import JOB

OPENING = ("runs", 0, "opening")
WIDTH = ("runs", 0, "cases", 0, "width")


@pytest.fixture
def saved(tmp_path: Path) -> KeptJobs:
    times = iter(f"2026-11-25T10:00:{second:02}Z" for second in range(60))
    saved = KeptJobs(KeptJobs.open(tmp_path / "shop.sqlite3").file, lambda: next(times))
    saved.start(JOB)
    return saved


def test_a_change_is_a_revision_with_its_note_and_time(saved: KeptJobs) -> None:
    done = saved.change("larder", [SetEntry(OPENING, 64)], "wider", 1)
    assert isinstance(done, OpenedRevision)
    assert (done.revision.number, done.revision.parent, done.revision.note) == (2, 1, "wider")
    assert done.revision.created == "2026-11-25T10:00:01Z"


def test_a_change_that_changes_nothing_makes_no_revision(saved: KeptJobs) -> None:
    saved.change("larder", [SetEntry(OPENING, "62 1/2")], "the same", 1)
    assert len(saved.history("larder")) == 1


def test_a_change_that_cannot_be_built_is_refused_with_every_finding(saved: KeptJobs) -> None:
    refused = saved.change("larder", [SetEntry(OPENING, "wide"), SetEntry(WIDTH, -1)], "", 1)
    assert isinstance(refused, RefusedChange)
    assert {finding.place for finding in refused.findings} == {"runs.north.opening", "cases.B1.width"}
    assert saved.take("larder").revision.number == 1


def test_a_change_on_an_older_revision_joins_what_was_done_since(saved: KeptJobs) -> None:
    saved.change("larder", [SetEntry(OPENING, 64)], "", 1)
    saved.change("larder", [SetEntry(WIDTH, 23)], "", 1)
    run = values_of(saved.take("larder").revision.text)["runs"][0]
    assert (run["opening"], run["cases"][0]["width"]) == (64, 23)


def test_a_change_to_a_case_that_is_another_by_now_is_turned_away(saved: KeptJobs) -> None:
    saved.change("larder", [DropEntry(("runs", 0, "cases", 0))], "", 1)
    with pytest.raises(Overtaken):
        saved.change("larder", [SetEntry(WIDTH, 23)], "", 1)
    assert "width" not in values_of(saved.take("larder").revision.text)["runs"][0]["cases"][0]


def test_a_save_that_comes_in_between_is_taken_up(saved: KeptJobs, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another bench saves after this one has read and before it writes."""
    write, others = jobs.add_revision, iter([("runs", 0, "ceiling")])

    def late(file, job, based_on, *rest):  # type: ignore[no-untyped-def]
        for path in others:
            monkeypatch.setattr(jobs, "add_revision", write)
            saved.change(job, [SetEntry(path, 96)], "the other bench", based_on)
        return write(file, job, based_on, *rest)

    monkeypatch.setattr(jobs, "add_revision", late)
    done = saved.change("larder", [SetEntry(OPENING, 64)], "", 1)
    assert isinstance(done, OpenedRevision) and done.revision.number == 3
    run = values_of(done.revision.text)["runs"][0]
    assert (run["opening"], run["ceiling"]) == (64, 96)


def test_going_back_keeps_what_came_between(saved: KeptJobs) -> None:
    saved.change("larder", [SetEntry(OPENING, 64)], "", 1)
    saved.restore("larder", 1)
    texts = [revision.text for revision in saved.history("larder")]
    assert texts[0] == texts[2] == JOB and texts[1] != JOB


def test_every_text_is_kept_even_one_that_is_no_job(saved: KeptJobs) -> None:
    work = saved.start("this is [ no TOML")
    assert work.worked.job is None and work.worked.findings
    assert saved.take(work.id).revision.text == "this is [ no TOML"
    assert work.name == "untitled job"


@pytest.mark.parametrize(
    ("name", "job"),
    [("Küche, Nord", "kuche-nord"), ("日本", "job"), ("../../etc", "etc"), ("a" * 80, "a" * 40)],
)
def test_a_job_gets_an_address_from_its_name(saved: KeptJobs, name: str, job: str) -> None:
    assert saved.start(JOB.replace("Larder", name)).id == job


def test_a_job_of_a_name_that_was_put_away_gets_another_address(saved: KeptJobs) -> None:
    saved.put_away("larder")
    assert saved.start(JOB).id == "larder-2"


def test_what_is_not_there_is_said(saved: KeptJobs) -> None:
    asked: tuple[Callable[[], object], ...] = (
        lambda: saved.take("attic"),
        lambda: saved.take("larder", 9),
        lambda: saved.restore("larder", 9),
    )
    for ask in asked:
        with pytest.raises(NoSuchJob):
            ask()


def test_an_edit_never_lands_on_a_case_that_has_come_into_anothers_place(saved: KeptJobs) -> None:
    """Two benches: one moves a case while the other has typed a width for the case that stood there."""
    moved = saved.change("larder", [MoveEntry(WIDTH[:-1], 1)], "moved", 1)
    assert isinstance(moved, OpenedRevision) and moved.revision.number == 2
    saved.change("larder", [SetEntry(WIDTH, "23")], "narrower", 1)
    saved.change("larder", [SetEntry(OPENING, "64")], "measured again", 1)
    run = values_of(saved.take("larder").revision.text)["runs"][0]
    assert [(case["mark"], case.get("width")) for case in run["cases"]] == [("B2", None), ("B1", "23")]
    assert run["opening"] == "64"


def test_of_two_values_for_one_entry_from_one_revision_the_second_is_not_taken_unseen(
    saved: KeptJobs,
) -> None:
    saved.change("larder", [SetEntry(OPENING, 64)], "one bench", 1)
    with pytest.raises(Overtaken, match=r"a change of runs\.north\.opening first"):
        saved.change("larder", [SetEntry(OPENING, 65)], "the other", 1)
    # The same value twice is no quarrel, and one who has seen the first may change it.
    saved.change("larder", [SetEntry(OPENING, 64)], "the same", 1)
    saved.change("larder", [SetEntry(OPENING, 65)], "seen", 2)
    assert values_of(saved.take("larder").revision.text)["runs"][0]["opening"] == 65


def test_a_case_that_another_has_changed_is_not_taken_out_unseen(saved: KeptJobs) -> None:
    saved.change("larder", [SetEntry(WIDTH, 23)], "one bench", 1)
    with pytest.raises(Overtaken):
        saved.change("larder", [DropEntry(WIDTH[:-1])], "the other", 1)
    saved.change("larder", [DropEntry(WIDTH[:-1])], "seen", 2)
