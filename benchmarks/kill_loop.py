"""A server with many benches at it is killed in the middle of its work, again and again."""

from __future__ import annotations

import random
import threading
import time
from collections import Counter
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import httpx

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.store.shop_file import open_file
from web_bench import JOB

from .served import served

TITLE = "Kill loop"
KILLS = 200
BENCHES = 20
SEED = 20261129


def run(quick: bool = False) -> str:
    """The table, as Markdown."""
    kills = 20 if quick else KILLS
    rng = random.Random(SEED)
    with TemporaryDirectory() as folder:
        file = Path(folder) / "shop.sqlite3"
        saved = KeptJobs.open(file)
        job = saved.start(JOB).id
        hand_out(saved.file, job, 1, open_job(JOB).planned(0.1).plans, "issue-1", saved.clock())
        floor = read_record(saved.file, job).floor
        assert floor is not None
        steps = [step.key for step in floor.work.operations]
        shop = _Shop(job, steps)
        benches = [threading.Thread(target=shop.work_at, args=(number,)) for number in range(BENCHES)]
        for bench in benches:
            bench.start()
        for _ in range(kills):
            with served(file) as address:
                shop.open_at(address)
                time.sleep(rng.uniform(0.3, 2))
                shop.address = ""
        with served(file) as address:
            shop.open_at(address)
            shop.closing = True
            for bench in benches:
                bench.join()
        return _table(shop, file, kills)


def fails(text: str) -> bool:
    """Whether anything acknowledged was lost or doubled, or an answer was an error."""
    return "0 lost, 0 doubled, 0 changed, 0 set aside, 0 answers of 500" not in text


class _Shop:
    """Benches that tick and send again, under the same id, whatever they have no answer for."""

    def __init__(self, job: str, steps: list[str]) -> None:
        self.job = job
        self.steps = steps
        self.address = ""
        self.closing = False
        self.noted: dict[str, dict[str, Any]] = {}
        self.acknowledged: set[str] = set()
        self.cut_off = 0
        self.errors: list[str] = []

    def open_at(self, address: str) -> None:
        state = httpx.get(f"{address}/jobs/{self.job}/shop/state", timeout=30)
        if state.status_code != 200:
            self.errors.append(state.text)
        self.address = address

    def work_at(self, bench: int) -> None:
        rng = random.Random(SEED + bench)
        client = httpx.Client(timeout=10)  # a client of its own loads its certificates anew
        waiting: list[dict[str, Any]] = []
        number = seq = 0
        while not self.closing or waiting:
            if not waiting:
                for _ in range(rng.randint(1, 3)):
                    number, seq = number + 1, seq + 1
                    what = {"kind": "done", "steps": rng.sample(self.steps, 2)}
                    name = f"b{bench}-{number}"
                    plain = {"id": name, "bench": f"b{bench}", "seq": seq, "at": "", **what}
                    waiting.append(plain)
                    self.noted[name] = plain
            if not self._sent(client, waiting):
                time.sleep(0.05)

    def _sent(self, client: httpx.Client, waiting: list[dict[str, Any]]) -> bool:
        if not (address := self.address):
            return False
        try:
            path = f"{address}/jobs/{self.job}/shop/events"
            answer = client.post(path, json={"events": waiting})
        except httpx.HTTPError:
            self.cut_off += 1
            return False
        if answer.status_code != 200:
            self.errors.append(answer.text)
            return False
        self.acknowledged |= set(answer.json()["kept"])
        waiting[:] = [one for one in waiting if one["id"] not in self.acknowledged]
        return not waiting


def _table(shop: _Shop, file: Path, kills: int) -> str:
    heard = read_record(open_file(file), shop.job)
    kept = Counter(event.id for event in heard.events)
    lost = [name for name in shop.acknowledged if not kept[name]]
    doubled = [name for name, times in kept.items() if times > 1]
    changed = [
        event.id
        for event in heard.events
        if list(event.what.steps) != shop.noted[event.id]["steps"]  # type: ignore[union-attr]
    ]
    ends = (
        f"{len(lost)} lost, {len(doubled)} doubled, {len(changed)} changed, "
        f"{len(heard.set_aside)} set aside, "
        f"{len(shop.errors)} answers of 500"
    )
    rows = [
        "| kills | benches | events acknowledged | kept | requests cut off |",
        "|---|---|---|---|---|",
        f"| {kills} | {BENCHES} | {len(shop.acknowledged):,} | {len(kept):,} | {shop.cut_off:,} |",
    ]
    return "\n".join([*rows, "", f"{ends}.", *(f"- {error[:300]}" for error in shop.errors[:3])])
