"""A shop floor that is sent wire events over HTTP and then read back by every reader of its record."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.web.web_app import make_app
from planned_once import planned_once
from record.wire_events import Sort, World
from web_bench import JOB, Client

READERS = ("/shop/state", "/shop/work", "/shop", "/fit", "/fit/shop", "/repair", "/history", "/sheets", "")
"""The pages of a job that read its record."""


class SentFloor:
    """A job whose work is handed out, another job beside it, and counts of what became of what was sent."""

    def __init__(self, folder: Path) -> None:
        self.saved = KeptJobs.open(folder / "wire.sqlite3")
        self.client = Client(make_app(self.saved, planning_seconds=0.1))
        plans = planned_once(JOB).plans
        self.job, self.other = (self.saved.start(JOB).id for _ in range(2))
        for job in (self.job, self.other):
            hand_out(self.saved.file, job, 1, plans, f"issue-{job}", self.saved.clock())
        floor = read_record(self.saved.file, self.job).floor
        assert floor is not None
        theirs = {"id": "theirs", "bench": "saw", "seq": 1, "kind": "lost", "name": "offcut 1"}
        self.post(self.other, [theirs])
        steps = tuple(step.key for step in floor.work.operations)
        self.world = World(steps, tuple(floor.project.parts), tuple(floor.project.sizes.ledger), ("theirs",))
        self.sent: Counter[Sort] = Counter()
        self.kept: Counter[Sort] = Counter()
        self.refused: Counter[Sort] = Counter()
        self.failures: list[str] = []

    def post(self, job: str, events: list[Any]) -> Any:
        """The answer to these events; None, and one more failure, where it is no answer."""
        body = json.dumps({"events": events}).encode()
        headers = {"content-type": "application/json", "accept": "application/json"}
        answer = self.client.post(f"/jobs/{job}/shop/events", content=body, headers=headers)
        if answer.status_code != 200:
            self.failures.append(f"events: {answer.status_code} {answer.text[:200]}")
            return None
        return answer.json()

    def send(self, sent: Iterable[tuple[Sort, Any]]) -> None:
        """Send these in one request, and note what became of each."""
        batch = list(sent)
        answer = self.post(self.job, [plain for _, plain in batch])
        if answer is None:
            return
        kept = set(answer["kept"])
        for sort, plain in batch:
            self.sent[sort] += 1
            mine = isinstance(plain, dict) and isinstance(plain.get("id"), str) and plain["id"] in kept
            (self.kept if mine else self.refused)[sort] += 1
        self.failures += [
            f"no reason: {one}" for one in answer["refused"] if not (one["text"] and one["fix"])
        ]

    def read_all(self) -> None:
        """Ask every page that reads the record; anything but an answer is a failure."""
        for page in READERS:
            answer = self.client.get(f"/jobs/{self.job}{page}")
            if answer.status_code >= 400:
                self.failures.append(f"{page}: {answer.status_code} {answer.text[-300:]}")

    def look_for_ways(self) -> None:
        """Wait for the search for ways to put right what is spoiled; an end without one is a failure."""
        searches = self.client.app.state.searches
        search = searches.search_for(self.job, read_record(self.saved.file, self.job))
        seen, finished = 0, False
        while not finished:
            said, finished = search.follow(seen, 60)
            seen += len(said)
        self.failures += [f"ways: {finding}" for finding in search.findings]

    @property
    def set_aside(self) -> int:
        """Entries kept that cannot be read again."""
        return len(read_record(self.saved.file, self.job).set_aside)
