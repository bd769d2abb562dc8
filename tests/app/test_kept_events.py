"""Nothing the benches send, and nothing a file holds, stops the record from being read."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.shop.kept_events import LEAP
from casewright.app.shop.receiving import Receipt, receive
from casewright.app.shop.shop_floor import BenchRecord, hand_out, read_record
from casewright.app.shop.shop_work import work_json
from casewright.app.shop.state_format import state_json
from casewright.app.shop.work_handed_out import ISSUE
from casewright.lengths.length import Unit
from casewright.record.event_json import to_plain
from casewright.record.events import GREATEST_COUNT
from casewright.store.event_rows import NewEvent, append_events
from planned_once import planned_once
from record.happenings import records
from web_bench import JOB


class Floor:
    """A job whose work is handed out, and its record."""

    def __init__(self, folder: Path) -> None:
        self.saved = KeptJobs.open(folder / "shop.sqlite3")
        self.job = self.saved.start(JOB).id
        work = self.saved.take(self.job)
        plans = planned_once(work.revision.text).plans
        hand_out(self.saved.file, self.job, work.revision.number, plans, "issue-1", self.saved.clock())
        floor = self.heard().floor
        assert floor is not None
        self.steps = [step.key for step in floor.work.operations]

    def heard(self) -> BenchRecord:
        return read_record(self.saved.file, self.job)

    def send(self, *sent: Any) -> Receipt:
        return receive(self.saved.file, self.job, sent, Unit.INCH, self.saved.clock())

    def put_in(self, identity: str, payload: str, kind: str = "done") -> None:
        """An entry as an older or damaged program may have left it, past every check."""
        row = NewEvent(identity, self.job, "saw", "2026-11-25T10:00:00Z", kind, payload)
        append_events(self.saved.file, [row])

    def tick(self, identity: str, seq: int) -> dict[str, Any]:
        return {"id": identity, "bench": "saw", "seq": seq, "kind": "done", "steps": self.steps[:1]}


@pytest.fixture
def floor(tmp_path: Path) -> Floor:
    return Floor(tmp_path)


@pytest.fixture(scope="module")
def busy(tmp_path_factory: pytest.TempPathFactory) -> Floor:
    return Floor(tmp_path_factory.mktemp("busy"))


def codes(receipt: Receipt) -> list[str]:
    return [finding.code for _, finding in receipt.refused]


UNREADABLE = ("not JSON", "[" * 100_000, "{}", '{"id": "x", "bench": "saw", "seq": 1, "kind": "danced"}')


@pytest.mark.parametrize("payload", UNREADABLE, ids=lambda payload: payload[:10])
def test_an_entry_that_cannot_be_read_is_set_aside_and_shown(floor: Floor, payload: str) -> None:
    floor.put_in("odd", payload)
    assert floor.send(floor.tick("a", 1)).kept == ("a",)
    now = floor.heard()
    assert [event.id for event in now.events] == ["a"]
    shown = state_json(now)
    assert list(shown["ticks"]) == floor.steps[:1]
    (told,) = shown["findings"]
    assert (told["code"], told["place"]) == ("event-set-aside", "odd")
    assert "bench saw" in told["text"] and "Enter again at saw" in told["fix"]


DEEP = '{"revision": 1, "plans": {"ply": {"sheets": [[1, "ply", ' + "[[], " * 400 + "]" * 401 + "]]}}}"
HANDED_OUT = (
    "not JSON",
    "{}",
    "[" * 100_000,
    DEEP,
    '{"revision": 1, "plans": {"ply": {"sheets": [], "bound": "1e999999999"}}}',
    '{"revision": 1e999, "plans": {}}',
)


@pytest.mark.parametrize("payload", HANDED_OUT, ids=lambda payload: payload[:40])
def test_work_handed_out_that_cannot_be_read_is_set_aside_and_shown(floor: Floor, payload: str) -> None:
    """The work handed out before it counts on, and no number that was ticked since stands for another cut."""
    before = floor.heard().floor
    assert before is not None
    floor.put_in("odd", payload, ISSUE)
    assert floor.send({**floor.tick("a", 1), "steps": ["ply 41 cut 1"]}).kept == ("a",)
    now = floor.heard()
    assert now.floor is not None and now.floor.plans == before.plans
    told = state_json(now)["findings"][0]
    assert (told["code"], told["place"]) == ("event-set-aside", "odd")
    assert "(issue)" in told["text"] and "Hand the work out again" in told["fix"]
    ply = before.plans["ply"]
    turned = replace(ply, sheets=(replace(ply.sheets[0], bin="another"), *ply.sheets[1:]))
    hand_out(floor.saved.file, floor.job, 1, {**before.plans, "ply": turned}, "issue-2", floor.saved.clock())
    after = floor.heard().floor
    assert after is not None
    assert [sheet.number for sheet in after.plans["ply"].sheets if sheet.bin == "another"] == [42]


def test_a_number_far_beyond_the_newest_is_refused(floor: Floor) -> None:
    assert floor.send(floor.tick("a", 7)).kept == ("a",)
    assert floor.send(floor.tick("b", 7 + LEAP)).kept == ("b",)
    refused = floor.send(floor.tick("c", 8 + 2 * LEAP), floor.tick("d", 1))
    assert refused.kept == ("d",) and codes(refused) == ["number-too-far"]


def test_a_file_that_holds_the_last_number_can_be_ticked_again(floor: Floor) -> None:
    floor.put_in("last", json.dumps(floor.tick("last", GREATEST_COUNT)))
    assert floor.send(floor.tick("a", 1)).kept == ("a",)
    shown = state_json(floor.heard())
    assert shown["seq"] == 1 and [one["place"] for one in shown["findings"]] == ["last"]


def test_an_id_of_another_job_is_refused(floor: Floor) -> None:
    other = floor.saved.start(JOB).id
    floor.send(floor.tick("a", 1))
    refused = receive(floor.saved.file, other, [floor.tick("a", 1)], Unit.INCH, floor.saved.clock())
    assert refused.kept == () and codes(refused) == ["id-of-another-job"]


ODD = st.one_of(
    st.sampled_from(["1e3000", "1e10000000", "9" * 2000, "1/" + "9" * 1999, "\0", "\ud800", "²", ""]),
    st.sampled_from([GREATEST_COUNT, GREATEST_COUNT + 1, 10**30, -1, 0.5, float("nan"), float("inf")]),
    st.none() | st.booleans() | st.text(max_size=5) | st.lists(st.text(max_size=3), max_size=3),
    st.lists(st.lists(st.sampled_from(["B1.width", "1e3000", "24"]), max_size=3), max_size=2),
)


@settings(deadline=None, max_examples=60, suppress_health_check=list(HealthCheck))
@given(records(), st.data())
def test_no_event_that_is_kept_makes_a_later_reading_fail(
    busy: Floor, record: list[Any], data: st.DataObject
) -> None:
    sent = []
    for event in record:
        plain = to_plain(event)
        if "steps" in plain and data.draw(st.booleans()):
            plain["steps"] = data.draw(st.lists(st.sampled_from(busy.steps), max_size=3))
        if data.draw(st.booleans()):
            field = data.draw(st.sampled_from([*sorted(plain), "said"]))
            plain[field] = data.draw(ODD)
        sent.append(plain)
    before = len(busy.heard().events)
    receipt = busy.send(*sent)
    now = busy.heard()
    json.dumps([state_json(now), work_json(now)])
    assert not now.set_aside and before <= len(now.events) <= before + len(receipt.kept)
    assert set(receipt.kept) <= {event.id for event in now.events}
    assert all(finding.text and finding.fix for _, finding in receipt.refused)
