"""Events survive the way to another bench and back; anything else is refused by field."""

from __future__ import annotations

import json
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.errors import RecordError
from casewright.record.event_json import KINDS, from_plain, to_plain
from casewright.record.events import Decided, Event, TimeTaken, Undo
from record.happenings import records

any_json = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=6,
)


@given(records())
def test_an_event_comes_back_as_it_went(record: list[Event]) -> None:
    for event in record:
        assert from_plain(json.loads(json.dumps(to_plain(event)))) == event


@given(any_json)
def test_garbage_is_refused_with_a_finding(plain: object) -> None:
    with pytest.raises(RecordError) as raised:
        from_plain(plain)
    assert all(finding.text and finding.fix for finding in raised.value.findings)


@given(records(), st.data())
def test_a_spoiled_event_is_read_or_refused_but_never_breaks(
    record: list[Event], data: st.DataObject
) -> None:
    for event in record[:3]:
        plain = to_plain(event)
        field = data.draw(st.sampled_from(sorted(plain)))
        plain[field] = data.draw(any_json)
        try:
            assert isinstance(from_plain(plain), Event)
        except RecordError as refused:
            assert refused.findings


REFUSED = [
    ("seq", -1),
    ("seq", True),
    ("id", " "),
    ("bench", 4),
    ("kind", "cut"),
    ("value", 18.875),
    ("value", "1/0"),
    ("value", "wide"),
    ("name", None),
    ("seq", 2**53 + 1),
    ("id", "a\ud800"),
    ("tool", "\udfff"),
    ("tool", "x" * 2_001),
    ("value", "1e3"),
    ("value", "1e3000"),
    ("value", "1e10000000"),
    ("value", "12000 1/64"),
    ("value", "12001"),
    ("value", "-24001/2"),
    ("value", "1/" + "3" * 2_000),
    ("value", "0." + "3" * 1_500),  # written back it would have twice the digits
]


@pytest.mark.parametrize(("field", "value"), REFUSED)
def test_the_field_at_fault_is_named(field: str, value: object) -> None:
    plain = {"id": "a", "bench": "saw", "seq": 1, "kind": "measured", "name": "ply.thickness", "value": "1/2"}
    assert from_plain(plain).seq == 1
    with pytest.raises(RecordError) as raised:
        from_plain(plain | {field: value})
    assert [finding.place for finding in raised.value.findings] == [field]


@pytest.mark.parametrize("minutes", [-1, True, "5", float("nan"), float("inf"), 1e308, 10**400, 10**7 + 1])
def test_minutes_are_a_number_a_sum_can_hold(minutes: object) -> None:
    plain = {"id": "a", "bench": "saw", "seq": 1, "kind": "time", "steps": [], "minutes": 90}
    assert from_plain(plain).what == TimeTaken((), 90.0)
    with pytest.raises(RecordError, match=r"minutes: .* from 0 to 10,000,000"):
        from_plain(plain | {"minutes": minutes})


digits = st.text("0123456789", min_size=1, max_size=30)
written = st.one_of(
    st.builds("{}/{}".format, digits, digits),
    st.builds("-{}.{}".format, digits, digits),
    st.builds("{}e{}".format, digits, st.integers(-5_000, 5_000)),
    st.builds("0.{}".format, st.integers(1, 1_990).map("7".__mul__)),
    st.sampled_from(["12000", "-12000", " 3/4 ", "1_0", "１２"]),
)


@given(written, st.text(), st.integers(0, 2**54))
def test_what_is_taken_can_be_read_again_for_good(length: str, name: str, seq: int) -> None:
    plain = {
        "id": "a",
        "bench": name,
        "seq": seq,
        "kind": "decided",
        "title": name,
        "inputs": [["x", length]],
    }
    try:
        event = from_plain(plain)
    except RecordError:
        return
    assert from_plain(json.loads(json.dumps(to_plain(event)).encode())) == event


def test_what_could_not_be_read_back_is_not_written() -> None:
    with pytest.raises(RecordError, match=r"seq: “9007199254740993” cannot be read"):
        to_plain(Event("a", "office", 2**53 + 1, Undo("b")))
    with pytest.raises(RecordError, match=r"inputs: .*at most 1000 ft"):
        to_plain(Event("a", "office", 1, Decided("wider", (("B1.width", F(12_001)),))))


def test_each_fault_says_what_to_send() -> None:
    plain = {"id": "a", "bench": "saw", "seq": 1, "kind": "done", "steps": ["x", " "]}
    with pytest.raises(RecordError) as raised:
        from_plain(plain)
    assert str(raised.value) == "steps: “ ” cannot be read. Send a list of names."
    with pytest.raises(RecordError, match=r"steps: It is missing. Send a list of names"):
        from_plain({name: value for name, value in plain.items() if name != "steps"})


def test_every_fault_is_told_in_one_go() -> None:
    with pytest.raises(RecordError) as raised:
        from_plain({"kind": "measured", "seq": "x"})
    assert {finding.place for finding in raised.value.findings} == {"id", "bench", "seq", "name", "value"}


def test_every_kind_has_its_words() -> None:
    assert len(set(KINDS.values())) == len(KINDS) == 16
