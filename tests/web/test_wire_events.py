"""Whatever a bench sends, every page that reads the record answers afterwards."""

from __future__ import annotations

from itertools import islice
from pathlib import Path

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
