"""How long others wait for an answer while one client keeps the server busy."""

from __future__ import annotations

import os
import re
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory

import httpx

from casewright.app.choices import LONGEST_JOB_TEXT
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.jobfile.read.toml_text import DEEPEST, MOST_DOTS, MOST_FAULTS
from job_mutations import EXAMPLES
from web_bench import JOB

from .served import served

TITLE = "Answers while the server is busy"
LONGEST_WAIT = 1.0
"""Seconds that an answer to others may take."""

AT_LEAST = 8.0
"""Seconds for which each load goes on, the same again where it is over sooner."""

PAGES = ("/", "/jobs/larder", "/jobs/larder/shop/state", "/static/css/ink.css")


@dataclass
class _Waits:
    """Seconds that each answer took, by page."""

    seconds: dict[str, list[float]] = field(default_factory=lambda: {page: [] for page in PAGES})
    failed: list[str] = field(default_factory=list)

    def all(self) -> list[float]:
        return sorted(one for waits in self.seconds.values() for one in waits)


def run(quick: bool = False) -> str:
    """The table, as Markdown."""
    seconds = AT_LEAST / 4 if quick else AT_LEAST
    rows = [
        "| meanwhile | answers | median ms | 99 % within ms | longest ms | page |",
        "|---|---|---|---|---|---|",
    ]
    failed: list[str] = []
    with TemporaryDirectory() as folder:
        file = Path(folder) / "shop.sqlite3"
        saved = KeptJobs.open(file)
        saved.start(JOB)
        jobs = [saved.start(text).id for text in sorted(EXAMPLES, key=_parts)]
        with served(file) as address:
            _waits_during(address, lambda: time.sleep(1), 0)  # the first answer loads what all others need
            for name, load in _loads(address, jobs).items():
                waits = _waits_during(address, load, seconds)
                rows.append(_row(name, waits))
                failed += waits.failed
    busy = f"Machine load at the end: {os.getloadavg()[0]:.1f}, {os.cpu_count()} cores."
    ends = f"{busy} {len(failed)} answers failed."
    return "\n".join([*rows, "", ends, *(f"- {one}" for one in failed[:3])])


def fails(text: str) -> bool:
    """Whether anybody waited too long or was not answered."""
    longest = [float(row.split("|")[5]) for row in text.splitlines() if re.match(r"\| [^|]+ \| \d", row)]
    return max(longest) > 1000 * LONGEST_WAIT or " 0 answers failed" not in text


def worst_texts() -> dict[str, str]:
    """Texts at the limits of what is read: each was slow once, or is as long as may be."""
    cases = "".join(
        f'[[runs.cases]]\nmark = "B{number}"\nwidth = 20\nbays = [{{ fixed_shelves = 2 }}]\n'
        for number in range(2_500)
    )
    head = JOB.partition("[[runs.cases]]")[0]
    fault = 'a = "b" c\n'
    return {
        "faults": fault * (MOST_FAULTS - 1) + "# x\n" * ((LONGEST_JOB_TEXT - 10 * MOST_FAULTS) // 4),
        "clashes": "a = 1\n" * (LONGEST_JOB_TEXT // 6),
        "dots": "".join(f"a.b{number} = 1\n" for number in range(MOST_DOTS)),
        "depth": ".".join("a" * DEEPEST * 100) + " = 1\n",
        "brackets": "a = " + "[" * (LONGEST_JOB_TEXT - 4),
        "quotes": 'a = "' * (LONGEST_JOB_TEXT // 5),
        "cases": (head + cases)[:LONGEST_JOB_TEXT].rpartition("[[runs.cases]]")[0],
    }


def _loads(address: str, jobs: list[str]) -> dict[str, Callable[[], None]]:
    """What one client does, again and again."""

    def planned(*which: str) -> Callable[[], None]:
        def plan() -> None:
            for job in which:
                _post(f"{address}/jobs/{job}/sheets", {"choice": "again"})
            for job in which:
                with suppress(httpx.HTTPError):
                    httpx.get(f"{address}/jobs/{job}/sheets/progress", timeout=120)

        return plan

    def sent(text: str) -> Callable[[], None]:
        def send() -> None:
            _post(f"{address}/jobs/larder/text", {"text": text, "based_on": "1"})

        return send

    largest = jobs[-1]
    loads: dict[str, Callable[[], None]] = {"nothing": lambda: time.sleep(0.1)}
    loads |= {f"text: {name}": sent(text) for name, text in worst_texts().items()}
    loads["jobs of 700 parts, opened"] = lambda: _opened(address)
    loads["one plan, the largest example"] = planned(largest)
    loads["three plans"] = planned(*jobs)
    return loads


def _parts(text: str) -> int:
    return len(open_job(text).needed().parts)


def _opened(address: str) -> None:
    """A new job from the largest example, its text another each time so that nothing is known of it."""
    text = max(EXAMPLES, key=_parts) + f"# {time.monotonic()}\n"
    files = {"file": ("a.toml", text.encode(), "text/plain")}
    with suppress(httpx.HTTPError):
        httpx.post(f"{address}/jobs/file", files=files, timeout=120, follow_redirects=True)


def _post(path: str, form: dict[str, str]) -> None:
    with suppress(httpx.HTTPError):
        httpx.post(path, data=form, timeout=120)


def _waits_during(address: str, load: Callable[[], None], seconds: float) -> _Waits:
    """How long each page takes while the load goes on in another thread."""
    waits, end = _Waits(), time.monotonic() + seconds
    over = threading.Event()

    def work() -> None:
        while time.monotonic() < end:
            load()
        over.set()

    def ask(page: str, client: httpx.Client) -> None:
        while not over.is_set():
            begun = time.monotonic()
            try:
                if (answer := client.get(f"{address}{page}")).status_code != 200:
                    waits.failed.append(f"{page}: {answer.status_code}")
            except httpx.HTTPError as fault:
                waits.failed.append(f"{page}: {fault!r}")
            waits.seconds[page].append(time.monotonic() - begun)
            over.wait(0.05)

    askers = [threading.Thread(target=ask, args=(page, httpx.Client(timeout=60))) for page in PAGES]
    loading = threading.Thread(target=work)
    for thread in (*askers, loading):
        thread.start()
    for thread in (*askers, loading):
        thread.join()
    return waits


def _row(name: str, waits: _Waits) -> str:
    every = waits.all()
    slowest = max(PAGES, key=lambda page: max(waits.seconds[page]))
    median, most = every[len(every) // 2], every[len(every) * 99 // 100]
    figures = " | ".join(f"{1000 * one:.0f}" for one in (median, most, every[-1]))
    return f"| {name} | {len(every)} | {figures} | {slowest} |"
