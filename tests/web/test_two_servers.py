"""Two servers of one file, as when casewright is started twice: neither undoes what the other did."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.store.plan_rows import newest_plan
from casewright.web.web_app import make_app
from web_bench import JOB, Client


def two_servers(tmp_path: Path) -> tuple[KeptJobs, Client, Client]:
    saved = KeptJobs.open(tmp_path / "shop")
    saved.start(JOB)
    one, other = (Client(make_app(KeptJobs.open(tmp_path / "shop"), 0.3)) for _ in range(2))
    return saved, one, other


def test_each_sees_what_the_other_changed_and_neither_overwrites_it(tmp_path: Path) -> None:
    saved, one, other = two_servers(tmp_path)
    change = {"entries": [{"path": "runs.0.opening", "value": 64}], "based_on": 1}
    assert one.ask("PATCH", "/api/jobs/larder", json=change).json()["revision"] == 2
    assert other.get("/api/jobs/larder/sizes").json()["run1.opening"] == "64"
    late = other.ask("PUT", "/api/jobs/larder/text", json={"text": JOB, "based_on": 1})
    assert late.status_code == 409 and saved.take("larder").newest == 2


def test_of_values_for_one_entry_sent_to_both_at_once_each_is_kept_or_refused(tmp_path: Path) -> None:
    saved, *both = two_servers(tmp_path)

    def note(number: int) -> int:
        entry = {"path": "notes", "value": f"note {number}"}
        sent = {"entries": [entry], "based_on": 1, "note": f"by {number}"}
        return both[number % 2].ask("PATCH", "/api/jobs/larder", json=sent).status_code

    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(note, range(16)))
    assert set(answers) <= {200, 409} and 200 in answers
    told = {f"by {number}" for number, answer in enumerate(answers) if answer == 200}
    kept = [one.note for one in saved.history("larder")]
    assert len(kept) == len(told) + 1 and set(kept[:-1]) == told


def test_both_show_one_plan(tmp_path: Path) -> None:
    saved, one, other = two_servers(tmp_path)
    one.get("/jobs/larder/sheets/progress")
    other.get("/jobs/larder/sheets/progress")
    plan = newest_plan(saved.file, "larder")
    assert plan is not None and plan.number == 1
    shown = [server.get("/jobs/larder/papers/plan.json").content for server in (one, other)]
    assert shown[0] == shown[1]
