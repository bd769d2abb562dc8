"""What the benches cut and measure changes the fit at once, and the record of it is never lost."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest

from casewright.app.fit.fit_as_built import as_it_stands
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import PlannedJob
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.lengths.length import Unit
from casewright.web.web_app import make_app
from planned_once import planned_once
from web_bench import JOB, Client

Sent = dict[str, object]


@pytest.fixture
def saved(tmp_path: Path) -> KeptJobs:
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    saved.start(JOB)
    return saved


def floor_of(saved: KeptJobs) -> PlannedJob:
    work = saved.take("larder")
    plans = planned_once(work.revision.text).plans
    hand_out(saved.file, work.id, work.revision.number, plans, "issue-1", saved.clock())
    heard = read_record(saved.file, "larder")
    assert heard.floor is not None
    return heard.floor


def stands(saved: KeptJobs, *sent: Sent):  # type: ignore[no-untyped-def]
    received = receive(saved.file, "larder", list(sent), Unit.INCH, saved.clock())
    assert not received.refused
    found = as_it_stands(read_record(saved.file, "larder"))
    assert found is not None
    return found


def tick(number: int, floor: PlannedJob, *marks: str) -> Sent:
    """Every operation that has to do with these parts, and whatever comes before it."""
    wanted = [op for op in floor.work.operations if set(op.parts) & set(marks) and op.kind.value != "join"]
    keys = {op.key for op in wanted}
    grown = True
    while grown:
        before = {key for op in floor.work.operations if op.key in keys for key in op.after}
        grown = not before <= keys
        keys |= before
    steps = [op.key for op in floor.work.operations if op.key in keys]
    return {"id": f"t{number}", "bench": "saw", "seq": number, "kind": "done", "steps": steps}


def read(number: int, name: str, said: str, tool: str = "rule") -> Sent:
    what: Sent = {"kind": "measured", "name": name, "said": said, "tool": tool}
    return {"id": f"m{number}", "bench": "saw", "seq": number, **what}


def test_nothing_stands_before_work_is_handed_out(saved: KeptJobs) -> None:
    heard = read_record(saved.file, "larder")
    assert as_it_stands(heard) is None


def test_sides_cut_wide_are_told_with_what_mends_them_and_an_undo_takes_it_back(saved: KeptJobs) -> None:
    floor = floor_of(saved)
    wide = [read(2, "B1-L.width", "24 1/16"), read(3, "B1-R.width", "24 1/16")]
    found = stands(saved, tick(1, floor, "B1-L", "B1-R", "B1-B"), *wide)
    assert found.cut >= 3
    assert any("B1-K against the front wall of the groove in B1-B" in line for line in found.closing.broken)
    assert any(cure.startswith("trim 2 sides (B1-L, B1-R)") for cure in found.closing.cures)
    undo = [{"id": f"u{n}", "bench": "saw", "seq": 10 + n, "kind": "undo", "event": f"m{n}"} for n in (2, 3)]
    assert not stands(saved, *undo).closing.broken


def test_every_bench_s_screen_is_told_what_broke_and_how_to_mend_it(saved: KeptJobs) -> None:
    floor = floor_of(saved)
    client = Client(make_app(saved, planning_seconds=0.2))
    wide = [read(2, "B1-L.width", "24 1/16"), read(3, "B1-R.width", "24 1/16")]
    stands(saved, tick(1, floor, "B1-L", "B1-R", "B1-B"))
    assert client.ask("GET", "/jobs/larder/shop/state").json()["findings"] == []
    stands(saved, *wide)
    told = client.ask("GET", "/jobs/larder/shop/state").json()["findings"]
    broken = [one for one in told if one["code"] == "no-longer-closes"]
    assert broken and "Trim 2 sides (B1-L, B1-R)" in broken[-1]["fix"]
    # Both are too far off for saw and rule: the doubt comes first, and what it breaks is told as an "if".
    assert told[0]["code"] == "misread-or-miscut" and broken[-1]["fix"].startswith("Measure again before")
    assert all(one["text"].startswith("If the reading is right, ") for one in broken)


def test_two_readings_that_disagree_are_both_shown(saved: KeptJobs) -> None:
    floor_of(saved)
    found = stands(saved, read(1, "B1-L.length", "34 1/2"), read(2, "B1-L.length", "34 1/4"))
    (line,) = found.readings
    assert '34 1/2", 34 1/4", planned 34 1/2"' in line
    assert {finding.code for finding in found.closing.findings} == {"readings-disagree"}


def test_the_page_tells_how_it_stands(saved: KeptJobs) -> None:
    client = Client(make_app(saved, planning_seconds=0.2))
    before = client.ask("GET", "/jobs/larder/fit/shop", htmx=True).text
    assert "No work has been handed out yet" in before
    floor_of(saved)
    tools = client.ask("GET", "/jobs/larder/shop/work").json()["tools"]
    assert tools == ["rule", "tape", "caliper", "depth gauge"]
    stands(saved, read(1, "ply.thickness", "0.72", "caliper"))
    after = html.unescape(re.sub(r"\s+", " ", client.ask("GET", "/jobs/larder/fit/shop", htmx=True).text))
    assert "Everything still closes." in after and "thickness" in after
