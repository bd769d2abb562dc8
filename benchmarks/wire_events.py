"""25,000 events from the wire, sound, nearly sound and hostile, and every page that reads the record."""

from __future__ import annotations

import re
from itertools import islice
from pathlib import Path
from tempfile import TemporaryDirectory

from record.reading_back import SentFloor
from record.wire_events import Sort, wire_events

TITLE = "Wire events"
EVENTS = 25_000
SEED = 20261129
AT_ONCE = 100
READ_EVERY = 500
SEARCH_EVERY = 5_000


def run(quick: bool = False) -> str:
    """The table, as Markdown."""
    with TemporaryDirectory() as folder:
        floor = SentFloor(Path(folder))
        events = wire_events(SEED, floor.world)
        reads = 0
        for sent in range(AT_ONCE, (1_000 if quick else EVENTS) + 1, AT_ONCE):
            floor.send(islice(events, AT_ONCE))
            if sent % READ_EVERY == 0:
                floor.read_all()
                reads += 1
            if sent % SEARCH_EVERY == 0:
                floor.look_for_ways()
        return _table(floor, reads)


def fails(text: str) -> bool:
    """Whether a later reading failed, or an entry that was kept cannot be read."""
    return not re.search(r"0 entries set aside, 0 failures", text)


def _table(floor: SentFloor, reads: int) -> str:
    rows = ["| sort | sent | kept | refused |", "|---|---|---|---|"]
    for sort in Sort:
        counts = (floor.sent[sort], floor.kept[sort], floor.refused[sort])
        rows.append(f"| {sort.value} | {' | '.join(f'{count:,}' for count in counts)} |")
    ends = f"{floor.set_aside} entries set aside, {len(floor.failures)} failures of later readings"
    told = [f"- {failure}" for failure in floor.failures[:10]]
    return "\n".join([*rows, "", f"Every page that reads the record was asked {reads} times: {ends}.", *told])
