"""A tablet is told only what it has not heard, and what is told it adds up to the whole state."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from casewright.app.fit import fit_as_built
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.app.shop import shop_floor, told_tablets
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.app.shop.state_changes import begin_log, with_keys
from casewright.app.shop.state_format import SECTIONS
from casewright.app.shop.told_tablets import told_after
from casewright.app.shop.work_order import WorkOrder
from casewright.lengths.length import Unit
from casewright.record.fold import _Folding
from web_bench import JOB

names = st.sampled_from("abcd")
findings = st.lists(
    st.fixed_dictionaries({name: st.sampled_from("xy") for name in ("code", "place", "text", "fix")}),
    max_size=4,
)
states = st.fixed_dictionaries(
    {section: st.dictionaries(names, st.integers(0, 2), max_size=4) for section in SECTIONS}
    | {"findings": findings, "seq": st.integers(0, 9), "work": st.just("w")}
)


def merged(state: Mapping[str, Any], said: Mapping[str, Any]) -> dict[str, Any]:
    """What the tablet's script makes of an answer (`merged` in record.js)."""
    if "changes" not in said:
        return dict(said)
    after = {**state, "place": said["place"], "seq": said["seq"], "more": said["more"]}
    for section, entries in said["changes"].items():
        keyed = section == "findings"
        held = {one["key"]: one for one in state[section]} if keyed else dict(state[section])
        held |= entries
        kept = {key: entry for key, entry in held.items() if entry is not None}
        after[section] = list(kept.values()) if keyed else kept
    return after


def alike(state: Mapping[str, Any]) -> dict[str, Any]:
    return {**dict(state), "findings": sorted(json.dumps(one, sort_keys=True) for one in state["findings"])}


@given(st.lists(states, min_size=2, max_size=6), st.data())
def test_what_changed_since_any_place_adds_up_to_the_whole(
    drawn: list[dict[str, Any]], data: st.DataObject
) -> None:
    story = [{**state, "place": 3 * place} for place, state in enumerate(drawn)]
    log = begin_log(story[0], WorkOrder())
    for state in story[1:]:
        log = log.on(state, WorkOrder())
    known = data.draw(st.sampled_from(story))
    heard = merged(with_keys(known), log.after(known["place"], "w"))
    assert alike(heard) == alike(with_keys(story[-1]))


class Shop:
    def __init__(self, folder: Path) -> None:
        self.saved = KeptJobs.open(folder / "told.sqlite3")
        self.job = self.saved.start(JOB).id
        self.plans = open_job(JOB).planned(0.1).plans
        self.hand_out("issue-1")
        floor = read_record(self.saved.file, self.job).floor
        assert floor is not None
        self.steps = [step.key for step in floor.work.operations]
        self.parts = list(floor.project.parts)
        self.sent = 0

    def hand_out(self, issue: str) -> None:
        hand_out(self.saved.file, self.job, 1, self.plans, issue, self.saved.clock())

    def say(self, **what: Any) -> None:
        self.sent += 1
        event = {"id": f"e{self.sent}", "bench": "saw", "seq": self.sent, **what}
        assert not receive(self.saved.file, self.job, [event], Unit.INCH, self.saved.clock()).refused

    def told(self, place: int, work: str = "issue-1") -> Any:
        return told_after(self.saved.file, self.job, place, work)


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop(tmp_path)


def test_a_poll_hears_only_what_it_has_not_heard(shop: Shop) -> None:
    for step in shop.steps[:20]:
        shop.say(kind="done", steps=[step])
    whole = shop.told(-1)
    assert "changes" not in whole and whole["work"] == "issue-1" and len(whole["ticks"]) == 20
    assert shop.told(whole["place"]) is None
    shop.say(kind="done", steps=[shop.steps[20]])
    told = shop.told(whole["place"])
    assert list(told["changes"]["ticks"]) == [shop.steps[20]]
    assert len(json.dumps(told)) < 1_000
    assert alike(merged(whole, told)) == alike(shop.told(-1))
    shop.say(kind="undo", event="e21")
    assert shop.told(told["place"])["changes"]["ticks"] == {shop.steps[20]: None}


def test_a_tablet_that_knows_other_work_or_a_later_place_hears_all(shop: Shop) -> None:
    shop.say(kind="done", steps=shop.steps[:1])
    whole = shop.told(-1)
    for place, work in ((whole["place"], "issue-0"), (whole["place"] + 1, "issue-1"), (0, "issue-1")):
        assert shop.told(place, work) == whole
    shop.hand_out("issue-2")
    assert shop.told(whole["place"])["work"] == "issue-2" and "changes" not in shop.told(whole["place"])


def test_however_many_ask_a_tick_is_folded_once_and_the_fit_is_left_alone(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """For 3,000 events a poll took a fifth of a second and 375 kB, and so did each after it."""
    shop.say(kind="measured", name=f"{shop.parts[0]}.length", value="30", tool="rule")
    for number in range(60):
        shop.say(kind="claimed", parts=[shop.parts[number % 3]])
    place = shop.told(-1)["place"]
    counted = dict.fromkeys(("take", "state", "fit"), 0)

    def count(owner: Any, name: str, counter: str) -> None:
        real = getattr(owner, name)

        def counting(*given: Any) -> Any:
            counted[counter] += 1
            return real(*given)

        monkeypatch.setattr(owner, name, counting)

    count(_Folding, "take", "take")
    count(told_tablets, "shop_state", "state")
    count(fit_as_built, "fit_as_built", "fit")
    shop.say(kind="done", steps=shop.steps[:1])
    for _ in range(20):
        assert shop.told(place)["changes"]["ticks"]
    # Once when it is judged, and once more when it is kept.
    assert counted == {"take": 2, "state": 1, "fit": 0}


@settings(deadline=None, max_examples=20, suppress_health_check=list(HealthCheck))
@given(st.data())
def test_the_record_read_further_is_the_record_read_anew(shop: Shop, data: st.DataObject) -> None:
    told_tablets._told.cache_clear()
    known = shop.told(-1)
    step = st.sampled_from(shop.steps[:6])
    event = st.one_of(
        st.fixed_dictionaries({"kind": st.just("done"), "steps": st.lists(step, max_size=3)}),
        st.fixed_dictionaries({"kind": st.just("undo"), "event": st.integers(1, 9).map("e{}".format)}),
        st.fixed_dictionaries({"kind": st.just("spoiled"), "part": st.sampled_from(shop.parts[:2])}),
    )
    for what in data.draw(st.lists(event, min_size=1, max_size=4)):
        shop.say(**what)
    heard = merged(known, shop.told(known["place"], known["work"]) or known)
    told_tablets._told.cache_clear()
    shop_floor._latest.cache_clear()
    assert alike(heard) == alike(shop.told(-1))
