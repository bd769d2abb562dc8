"""A tablet is told only what it has not heard, and what is told it adds up to the whole state."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from casewright.app.fit import fit_as_built
from casewright.app.fit.closing_as_built import closing_as_built
from casewright.app.fit.fit_as_built import shop_state
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.shop import shop_floor, told_tablets
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import BenchRecord, hand_out, read_record
from casewright.app.shop.shop_work import work_json
from casewright.app.shop.state_changes import MOST_CHANGES, begin_log, with_keys
from casewright.app.shop.state_format import MOST_FINDINGS, SECTIONS, pack_column
from casewright.app.shop.tablet_order import TabletOrder, tablet_order
from casewright.app.shop.told_tablets import told_after
from casewright.lengths.length import Unit
from casewright.record.fold import _Folding
from planned_once import planned_once
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


def spread(packed: list[int]) -> list[int]:
    """The numbers of a column, written out."""
    numbers: list[int] = []
    for number in packed:
        numbers += [number] if number >= 0 else [numbers[-1]] * -number
    return numbers


def unpacked(said: Mapping[str, Any], order: TabletOrder) -> dict[str, Any]:
    """What the tablet's script makes of a whole state (`unpacked` in state_format.js)."""
    ticks: dict[str, Any] = {}
    parts: dict[str, Any] = {}
    place = 0
    far = iter(spread(said["places"]))
    for step, bench in zip(order.steps, spread(said["steps"]), strict=True):
        if bench:
            move = next(far)
            place += -(move + 1) // 2 if move % 2 else move // 2
            ticks[step] = {"bench": said["benches"][bench - 1], "place": place}
    standing, held = spread(said["standing"]), spread(said["held"])
    for mark, status, by in zip(order.marks, standing, held, strict=True):
        if status or by:
            how, event = said["events"].get(mark, ("", ""))
            holder = said["benches"][by - 1] if by else ""
            words = said["statuses"][status]
            parts[mark] = {"status": words, "bench": holder, "how": how, "event": event}
    readings = {
        name: [
            {"text": said["texts"][text], "tool": said["tools"][tool], "bench": said["benches"][bench]}
            for text, tool, bench in zip(*[iter(numbers)] * 3, strict=True)
        ]
        for name, numbers in said["readings"].items()
    }
    settings = {order.batches[number]: True for number in said["set"]}
    whole = {name: said[name] for name in ("place", "work", "seq", "findings", "more")}
    return {**whole, "ticks": ticks, "parts": parts, "readings": readings, "settings": settings}


def merged(state: Mapping[str, Any], said: Mapping[str, Any]) -> dict[str, Any]:
    """What the tablet's script makes of an answer (`merged` in state_format.js)."""
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
    log = begin_log(story[0], TabletOrder())
    for state in story[1:]:
        log = log.on(state, TabletOrder())
    known = data.draw(st.sampled_from(story))
    heard = merged(with_keys(known), log.after(known["place"], "w"))
    assert alike(heard) == alike(with_keys(story[-1]))


class Shop:
    def __init__(self, folder: Path) -> None:
        self.saved = KeptJobs.open(folder / "told.sqlite3")
        self.job = self.saved.start(JOB).id
        self.plans = planned_once(JOB).plans
        self.hand_out("issue-1")
        floor = self.heard().floor
        assert floor is not None
        self.order = tablet_order(floor)
        self.steps = [step.key for step in floor.work.operations]
        self.parts = list(floor.project.parts)
        self.number = 0

    def hand_out(self, issue: str) -> None:
        hand_out(self.saved.file, self.job, 1, self.plans, issue, self.saved.clock())

    def say(self, **what: Any) -> None:
        self.number += 1
        event = {"id": f"e{self.number}", "bench": "saw", "seq": self.number, **what}
        assert not receive(self.saved.file, self.job, [event], Unit.INCH, self.saved.clock()).refused

    def heard(self) -> BenchRecord:
        return read_record(self.saved.file, self.job)

    def sent(self, place: int, issue: str = "issue-1") -> Any:
        """What a tablet is sent, as it is sent."""
        return told_after(self.saved.file, self.job, place, self.order.name(issue))

    def told(self, place: int, issue: str = "issue-1") -> Any:
        """The same, a whole state written out."""
        said = self.sent(place, issue)
        return unpacked(said, self.order) if said and "changes" not in said else said


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop(tmp_path)


def test_a_poll_hears_only_what_it_has_not_heard(shop: Shop) -> None:
    for step in shop.steps[:20]:
        shop.say(kind="done", steps=[step])
    whole = shop.told(-1)
    assert "changes" not in whole and whole["work"].startswith("issue-1 ") and len(whole["ticks"]) == 20
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
    assert shop.told(whole["place"])["work"].startswith("issue-2 ")


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
    count(fit_as_built, "closing_as_built", "fit")
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
    heard = merged(known, shop.told(known["place"]) or known)
    told_tablets._told.cache_clear()
    shop_floor._latest.cache_clear()
    assert alike(heard) == alike(shop.told(-1))


@given(st.lists(st.integers(0, 3)))
def test_a_column_is_read_back_as_it_was(numbers: list[int]) -> None:
    packed = pack_column(numbers)
    assert spread(packed) == numbers and len(packed) <= len(numbers)


def test_the_whole_state_in_columns_is_the_state_entry_by_entry(shop: Shop) -> None:
    """Ticks that arrive in any order, at several benches, parts of every standing, readings, settings."""
    for number, step in enumerate(reversed(shop.steps[:30])):
        shop.say(kind="done", steps=[step], bench=f"bench {number % 3}")
    shop.say(kind="done", steps=shop.steps[40:44])
    shop.say(kind="claimed", parts=shop.parts[3:5], bench="assembly")
    shop.say(kind="spoiled", part=shop.parts[0], how="wrong face")
    shop.say(kind="lost", name=shop.parts[1])
    for value, tool in (("30", "rule"), ("30", "caliper"), ("481/16", "")):
        shop.say(kind="measured", name=f"{shop.parts[2]}.length", value=value, tool=tool)
    shop.say(kind="setting", setting=shop.order.batches[2], distance="23/4", sure=True)
    shop.say(kind="setting", setting="no batch", distance="23/4")
    whole = shop.told(-1)
    plain = with_keys(shop_state(shop.heard()))
    assert alike(whole) == alike(plain)
    assert whole["settings"] == {shop.order.batches[2]: True} and len(whole["ticks"]) == 34
    assert whole["parts"][shop.parts[0]]["how"] == "wrong face"


def test_each_entry_of_the_state_takes_a_few_letters(shop: Shop) -> None:
    """2,400 ticks in a job of 60 cases took 200 kB, each with its key, its bench and its id."""

    def letters() -> int:
        said = shop.sent(-1)
        return len(json.dumps([said["steps"], said["places"]], separators=(",", ":")))

    for step in shop.order.steps:
        shop.say(kind="done", steps=[step])
    assert letters() < 30
    for number in range(1, len(shop.steps) + 1):
        shop.say(kind="undo", event=f"e{number}")
    for number, step in enumerate(shop.steps):  # nearly as bad as can be: in another order, at two benches
        shop.say(kind="done", steps=[step], bench=f"bench {number % 2}")
    assert letters() < 8 * len(shop.steps)


def test_only_the_newest_findings_are_told_and_how_many_there_are(shop: Shop) -> None:
    for number in range(MOST_FINDINGS + 5):
        shop.say(kind="done", steps=[f"no step {number}"])
    whole = shop.told(-1)
    assert len(whole["findings"]) == MOST_FINDINGS and whole["more"] == 5
    assert "no step 24" in whole["findings"][-1]["text"]
    shop.say(kind="done", steps=["no step at all"])
    told = shop.told(whole["place"])
    assert told["more"] == 6 and len(told["changes"]["findings"]) == 2
    assert alike(merged(whole, told)) == alike(shop.told(-1))


def test_a_tablet_that_was_long_away_is_told_the_whole_which_is_shorter() -> None:
    steps = tuple(f"step {number}" for number in range(MOST_CHANGES + 1))
    order = TabletOrder(steps=steps)
    nothing: dict[str, Any] = {section: {} for section in SECTIONS} | {"findings": [], "seq": 1, "work": "w"}
    tick = {"bench": "saw", "place": 2}
    log = begin_log({**nothing, "place": 1}, order)
    some = log.on({**nothing, "place": 2, "ticks": dict.fromkeys(steps[:-1], tick)}, order)
    assert some.after(1, "w")["changes"]["ticks"] == dict.fromkeys(steps[:-1], tick)
    every = log.on({**nothing, "place": 2, "ticks": dict.fromkeys(steps, tick)}, order).after(1, "w")
    assert unpacked(every, order)["ticks"] == dict.fromkeys(steps, tick)
    assert len(json.dumps(every)) < len(json.dumps(some.after(1, "w"))) / 5


def test_work_in_another_order_has_another_name(shop: Shop) -> None:
    """A tablet that keeps the work as an older casewright told it must not count by this one's order."""
    turned = replace(shop.order, steps=shop.order.steps[::-1])
    assert turned.name("issue-1") != shop.order.name("issue-1")
    assert work_json(shop.heard())["work"] == shop.sent(-1)["work"] == shop.order.name("issue-1")
    steps = [step["key"] for batch in work_json(shop.heard())["batches"] for step in batch["steps"]]
    assert tuple(steps) == shop.order.steps


def test_what_an_event_leaves_alone_is_not_worked_out_again(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A claim has no bearing on the fit nor on any tick; a reading has."""
    fits: list[object] = []

    def counted(*given: Any) -> Any:
        fits.append(given)
        return closing_as_built(*given)

    monkeypatch.setattr(fit_as_built, "closing_as_built", counted)
    shop.say(kind="done", steps=shop.steps[:3])
    shop.say(kind="measured", name=f"{shop.parts[2]}.length", value="30", tool="rule", sure=True)
    before = shop_state(shop.heard())
    assert len(fits) == 1
    shop.say(kind="claimed", parts=shop.parts[3:5])
    after = shop_state(shop.heard())
    assert len(fits) == 1 and after["parts"] != before["parts"]
    assert all(after["ticks"][step] is before["ticks"][step] for step in before["ticks"])
    shop.say(kind="measured", name=f"{shop.parts[2]}.length", value="30", tool="rule", sure=True)
    shop_state(shop.heard())
    assert len(fits) == 2
