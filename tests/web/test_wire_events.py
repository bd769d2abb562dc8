"""Whatever a bench sends, every page that reads the record answers afterwards."""

from __future__ import annotations

from itertools import islice
from pathlib import Path
from typing import Any

from record.reading_back import SentFloor
from record.wire_events import Sort, wire_events


def test_no_event_that_is_kept_makes_a_later_reading_fail(tmp_path: Path) -> None:
    floor = SentFloor(tmp_path)
    events = wire_events(20261129, floor.world)
    for _ in range(3):
        floor.send(islice(events, 130))
        floor.read_all()
    floor.look_for_ways()
    assert not floor.failures
    assert floor.set_aside == 0
    assert all(floor.kept[sort] for sort in (Sort.SOUND, Sort.NEARLY))
    assert floor.refused[Sort.NEARLY] and floor.refused[Sort.HOSTILE]


TICK: dict[str, Any] = {"id": "a", "bench": "saw", "seq": 1, "kind": "done", "steps": []}
HOSTILE: list[Any] = [
    {**TICK, "id": "half \ud800"},
    {**TICK, "bench": "\udfff"},
    {**TICK, "id": "x" * 1_000_000},
    {**TICK, "id": ["a"]},
    {**TICK, "steps": ["x"] * 100_000},
    {**TICK, "seq": 2**53},
    {**TICK, "seq": 10**400},
    {**TICK, "seq": float("nan")},
    {**TICK, "at": "9999-12-31T24:00:00Z"},
    {**TICK, "kind": "issue"},
    {**TICK, "kind": "time", "minutes": float("inf")},
    {**TICK, "kind": "measured", "name": "B1-L.length", "value": "1e10000000"},
    {**TICK, "kind": "measured", "name": "B1-L.length", "said": "1e3000"},
    {**TICK, "kind": "measured", "name": "\0", "value": "1/" + "9" * 400},
    {**TICK, "kind": "measured", "name": "B1-L.length", "value": "-12000", "tool": "\x1b[2J"},
    {**TICK, "kind": "found", "name": "=1+1", "material": "gold", "length": "0", "width": "-1"},
    "\ud800",
    [[[]]],
    None,
]


def test_each_hostile_event_alone_is_kept_or_refused_in_words(tmp_path: Path) -> None:
    """Half a character in an event was answered with 500, so that its tablet sent it for ever."""
    floor = SentFloor(tmp_path)
    for number, sent in enumerate(HOSTILE):
        plain = {**sent, "id": f"a{number}"} if isinstance(sent, dict) and sent["id"] == "a" else sent
        answer = floor.post(floor.job, [plain])
        assert answer is not None, floor.failures
        assert len(answer["kept"]) + len(answer["refused"]) == 1
        for refused in answer["refused"]:
            assert not isinstance(plain, dict) or refused["id"] == str(plain["id"])
    floor.read_all()
    assert not floor.failures and floor.set_aside == 0
