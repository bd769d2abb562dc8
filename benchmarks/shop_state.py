"""What the state of a large shop weighs, and what it costs to tell it to the tablets."""

from __future__ import annotations

import gzip
import json
import random
import time
from collections.abc import Callable
from fractions import Fraction
from functools import partial
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.app.shop.told_tablets import told_after
from casewright.lengths.length import Unit
from web_bench import JOB

TITLE = "The state of the shop"
MOST_FIRST_POLL = 10.0
"""Milliseconds of processor time that the first answer after an event may take, whoever asks."""

AT_ONCE = 200
POLLS = 20
BAYS = (
    "bays = [{ fixed = [10], adjustable = 1 }]",
    "bays = [{ adjustable = 1 }, { adjustable = 2 }]",
    "bays = [{ adjustable = 2 }]",
)


def run(quick: bool = False) -> str:
    """The table, as Markdown."""
    cases, most = (12, 600) if quick else (60, 3_000)
    with TemporaryDirectory() as folder:
        shop = _Shop(Path(folder) / "shop.sqlite3", cases)
        shop.fill(most)
        return shop.table()


def fails(text: str) -> bool:
    """Whether the first answer after an event took longer than it may."""
    row = next(line for line in text.splitlines() if line.startswith("| first answer after an event"))
    return float(row.split("|")[2].split()[0]) > MOST_FIRST_POLL


def _job_text(cases: int) -> str:
    text = JOB.split("[[runs]]")[0]
    for run_number in range(0, cases, 6):
        text += f'[[runs]]\nname = "r{run_number}"\nopening = 146\nwall = "w{run_number}"\n'
        text += 'left_filler = { width = 2, scribe = "1/2" }\n'
        for case in range(run_number, min(run_number + 6, cases)):
            text += f'[[runs.cases]]\nmark = "B{case + 1}"\nkind = "base"\nwidth = 24\n{BAYS[case % 3]}\n'
    return text


class _Shop:
    """A job of many cases in the shop, and events of its benches, seeded."""

    def __init__(self, file: Path, cases: int) -> None:
        text = _job_text(cases)
        self.saved = KeptJobs.open(file)
        self.job = self.saved.start(text).id
        hand_out(self.saved.file, self.job, 1, open_job(text).planned(0.5).plans, "1", self.saved.clock())
        floor = read_record(self.saved.file, self.job).floor
        assert floor is not None
        self.cases, self.floor = cases, floor
        self.steps = [step.key for batch in floor.ordered.batches for step in batch.operations]
        self.draw = random.Random(1)
        self.told = 0

    def event(self, **what: Any) -> dict[str, Any]:
        self.told += 1
        bench = self.draw.choice(("table saw", "assembly", "tablet in the shop"))
        return {"id": f"{self.draw.getrandbits(96):024x}", "bench": bench, "seq": self.told, **what}

    def send(self, *events: dict[str, Any]) -> None:
        refused = receive(self.saved.file, self.job, events, Unit.INCH, self.saved.clock()).refused
        assert not refused, refused[:1]

    def fill(self, most: int) -> None:
        """Ticks, settings, readings near the plan, claims, and twenty spoiled parts."""
        marks, sizes = list(self.floor.project.parts), self.floor.project.sizes
        events = [self.event(kind="done", steps=[step]) for step in self.steps[POLLS : most * 4 // 5]]
        events += [
            self.event(kind="setting", setting=batch.key, distance=str(batch.setting.distance))
            for batch in self.floor.ordered.batches[:200]
            if batch.setting is not None
        ]
        while len(events) < most - POLLS:
            mark = self.draw.choice(marks)
            name = f"{mark}.{self.draw.choice(('length', 'width'))}"
            value = sizes.of(name) + self.draw.choice((0, 0, 0, 1, -1)) * Fraction(1, 64)
            claimed = self.draw.random() < 0.5
            read = {"kind": "measured", "name": name, "value": str(value), "tool": "rule"}
            events.append(self.event(**({"kind": "claimed", "parts": [mark]} if claimed else read)))
        spoiled = self.draw.sample(marks, min(20, len(marks)))
        events += [self.event(kind="spoiled", part=mark, how="dado in the wrong face") for mark in spoiled]
        for first in range(0, len(events), AT_ONCE):
            self.send(*events[first : first + AT_ONCE])

    def table(self) -> str:
        """How large the state is and how long each answer takes."""
        file, job = self.saved.file, self.job
        whole = told_after(file, job, -1, "")
        assert whole is not None
        place, work = whole["place"], whole["work"]
        packed = json.dumps(whole, separators=(",", ":")).encode()
        after, sizes = [], []
        for step in self.steps[:POLLS]:
            self.send(self.event(kind="done", steps=[step]))
            taken, told = _timed(partial(told_after, file, job, place, work))
            assert told is not None
            place = told["place"]
            after.append(taken)
            sizes.append(len(json.dumps(told, separators=(",", ":"))))
        idle = [_timed(partial(told_after, file, job, place, work))[0] for _ in range(POLLS)]
        all_again = [_timed(lambda: json.dumps(told_after(file, job, -1, "")))[0] for _ in range(POLLS)]
        small = len(gzip.compress(packed))
        return "\n".join(
            (
                f"{self.cases} cases, {len(self.floor.project.parts)} parts, {len(self.steps)} steps, "
                f"{self.told} events. Processor time, the median of {POLLS}.",
                "",
                "| answer | ms | bytes |",
                "|---|---|---|",
                f"| first answer after an event | {median(after):.1f} | {median(sizes):.0f} |",
                f"| answer when nothing has changed | {median(idle):.1f} | 0 |",
                f"| the whole state | {median(all_again):.1f} | {len(packed)}, packed {small} |",
            )
        )


def _timed(work: Callable[[], Any]) -> tuple[float, Any]:
    begun = time.thread_time()
    told = work()
    return (time.thread_time() - begun) * 1000, told
