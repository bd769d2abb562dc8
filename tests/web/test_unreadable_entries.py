"""An entry of the shop's record that cannot be read is shown, left out for good, or typed again."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from fastapi import FastAPI

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.shop.left_out import FIELD_WORDS, KIND_WORDS, NOT_RETYPED
from casewright.app.shop.shop_floor import BenchRecord, hand_out, read_record
from casewright.app.shop.work_handed_out import ISSUE
from casewright.record.event_json import KINDS, to_plain
from casewright.record.events import Event
from casewright.store.event_rows import NewEvent, append_events
from planned_once import planned_once
from record.test_fold_orders import ONE_OF_EACH
from web_bench import JOB, Client


class Broken:
    """A shop whose file holds entries past every check."""

    def __init__(self, saved: KeptJobs, app: FastAPI) -> None:
        self.saved, self.client = saved, Client(app)

    def hand_out(self) -> None:
        plans = planned_once(JOB).plans
        hand_out(self.saved.file, "larder", 1, plans, "issue-1", self.saved.clock())

    def put_in(self, kind: str, payload: str) -> int:
        row = NewEvent(f"odd {kind}", "larder", "saw", "2026-11-25T10:00:00Z", kind, payload)
        return append_events(self.saved.file, [row])[0].place

    def heard(self) -> BenchRecord:
        return read_record(self.saved.file, "larder")

    def page(self) -> str:
        return self.client.get("/jobs/larder/history").text

    def post(self, place: int, what: str, **typed: Any) -> Any:
        return self.client.post(f"/jobs/larder/history/entries/{place}/{what}", data=typed)


@pytest.fixture(params=[True, False], ids=["handed out", "not handed out"])
def broken(saved: KeptJobs, app: FastAPI, request: pytest.FixtureRequest) -> Broken:
    shop = Broken(saved, app)
    if request.param:
        shop.hand_out()
    return shop


MEASURED = {"id": "m", "bench": "saw", "seq": 1, "kind": "measured", "name": "B1-L.length", "tool": "rule"}


def test_nothing_is_said_while_all_can_be_read(broken: Broken) -> None:
    assert "cannot be read" not in broken.page()


def test_an_entry_is_left_out_for_good_and_listed_again(broken: Broken) -> None:
    place = broken.put_in("danced", '{"who": "<b>nobody</b>"}')
    text = broken.page()
    assert "Danced" in text and "bench saw" in text and "&lt;b&gt;nobody" in text
    assert "Enter it again" not in text and len(broken.heard().set_aside) == 1
    for _ in range(2):
        assert broken.post(place, "leave-out").status_code == 303
    assert broken.heard().set_aside == () and len(broken.heard().events) == 1
    assert "left out for good" in broken.page() and len(broken.heard().aside) == 1
    assert broken.post(place, "take-back").status_code == 303
    assert len(broken.heard().set_aside) == 1 and "left out for good" not in broken.page()


def test_an_entry_is_typed_again_and_counts_from_then_on(broken: Broken) -> None:
    place = broken.put_in("measured", json.dumps({**MEASURED, "value": "1e3000"}))
    assert 'value="1e3000"' in broken.page()
    refused = broken.post(place, "again", name="B1-L.length", value="soon", tool="rule")
    assert refused.status_code == 422 and 'value="soon"' in refused.text and "Type it again" in refused.text
    assert broken.heard().events == () and len(broken.heard().set_aside) == 1
    assert broken.post(place, "again", name="B1-L.length", value="34 1/2", tool="rule").status_code == 303
    heard = broken.heard()
    assert heard.set_aside == () and [event.bench for event in heard.events] == ["saw", "office"]
    assert to_plain(heard.events[0])["value"] == "69/2"


def test_an_entry_that_is_not_there_is_refused_in_words(broken: Broken) -> None:
    answer = broken.post(99, "leave-out")
    assert answer.status_code == 422 and "no unreadable entry" in answer.text


def test_work_handed_out_that_cannot_be_read_can_be_left_out(broken: Broken) -> None:
    place = broken.put_in(ISSUE, "{}")
    assert "Work handed out" in broken.page() and "Enter it again" not in broken.page()
    assert broken.post(place, "leave-out").status_code == 303
    assert broken.heard().set_aside == ()
    answer = broken.post(place, "again")
    assert answer.status_code == 422 and "cannot be typed again" in answer.text


@pytest.mark.parametrize("what", ONE_OF_EACH, ids=lambda what: type(what).__name__)
def test_each_kind_has_words_and_is_typed_again_from_what_it_holds(
    saved: KeptJobs, app: FastAPI, what: Any
) -> None:
    """All that is wrong with these is the missing bench."""
    shop = Broken(saved, app)
    plain = to_plain(Event("x", "saw", 1, what))
    kind = str(plain["kind"])
    place = shop.put_in(kind, json.dumps({**plain, "bench": 4}))
    text = shop.page()
    assert KIND_WORDS[kind][1:] in text
    fields = re.findall(r'<(?:input|textarea) name="(\w+)"(?: value="([^"]*)"| rows="4">([^<]*)<)', text)
    assert bool(fields) is (kind not in NOT_RETYPED)
    if fields:
        typed = {name: value or lines for name, value, lines in fields}
        assert shop.post(place, "again", **typed).status_code == 303
        assert shop.heard().events[0].what == what


def test_every_kind_and_field_has_words() -> None:
    assert {*KINDS, ISSUE} == {*KIND_WORDS}
    named = {name for made in KINDS.values() for name in made.__dataclass_fields__}
    assert named - {"event"} == {*FIELD_WORDS}
