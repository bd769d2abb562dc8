"""Events survive the way to another bench and back; anything else is refused by field."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.errors import RecordError
from casewright.record.event_json import KINDS, from_plain, to_plain
from casewright.record.events import Event
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
    ("value", 23.5),
    ("value", "1/0"),
    ("value", "wide"),
    ("name", None),
]


@pytest.mark.parametrize(("field", "value"), REFUSED)
def test_the_field_at_fault_is_named(field: str, value: object) -> None:
    plain = {"id": "a", "bench": "saw", "seq": 1, "kind": "measured", "name": "ply.thickness", "value": "1/2"}
    assert from_plain(plain).seq == 1
    with pytest.raises(RecordError) as raised:
        from_plain(plain | {field: value})
    assert [finding.place for finding in raised.value.findings] == [field]


def test_every_fault_is_told_in_one_go() -> None:
    with pytest.raises(RecordError) as raised:
        from_plain({"kind": "measured", "seq": "x"})
    assert {finding.place for finding in raised.value.findings} == {"id", "bench", "seq", "name", "value"}


def test_every_kind_has_its_words() -> None:
    assert len(set(KINDS.values())) == len(KINDS) == 13
