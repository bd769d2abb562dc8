"""Working a job out: all of it, again after one change, its packet, and the start of the command line."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from fractions import Fraction
from functools import partial
from pathlib import Path
from statistics import median

from casewright.casework.project import Project, draw_up
from casewright.jobfile.read.read_job import read_job

TITLE = "Working a job out"
EXAMPLES = Path(__file__).parents[1] / "examples"
LARGE, SMALL = EXAMPLES / "school-workshop.toml", EXAMPLES / "pottery-studio.toml"


def run(quick: bool = False) -> str:
    """The tables, as Markdown. Times in processor seconds but for the commands, by the wall clock."""
    repeats = 3 if quick else 9
    return "\n".join([*_sizes(draw_up(read_job(LARGE.read_text())), repeats), "", *_commands(repeats)])


def _sizes(project: Project, repeats: int) -> list[str]:
    entries = len(project.sizes.ledger)
    rows = ["| what | median ms | least ms | entries worked out |", "|---|---|---|---|"]

    def row(what: str, work: Callable[[], object], worked: int) -> None:
        seconds = [_timed(work) for _ in range(repeats)]
        least = 1000 * min(seconds)
        rows.append(f"| {what} | {1000 * median(seconds):.1f} | {least:.1f} | {worked} of {entries} |")

    row(f"{len(project.cases)} cases, {len(project.parts)} parts", lambda: draw_up(project.job), entries)
    case = next(iter(project.cases))
    material = next(iter(project.job.sheets))
    for name in (f"{case}.depth", f"{material}.thickness"):
        again = partial(project.given, {name: project.sizes.of(name) + Fraction(1, 64)})
        row(f"again after {name} changed", again, again().sizes.worked)
    return rows


def _timed(work: Callable[[], object]) -> float:
    begun = time.process_time()
    work()
    return time.process_time() - begun


def _commands(repeats: int) -> list[str]:
    rows = ["| command | median s | least s |", "|---|---|---|"]
    with tempfile.TemporaryDirectory() as folder:
        job = shutil.copy(SMALL, folder)  # its plan is kept beside it, made by the first packet
        for words, times in (
            (["--help"], repeats),
            (["plan", "--help"], repeats),
            (["check", job], repeats),
            (["packet", job, "--only", "pdf", "--out", f"{folder}/pdf"], 3),
            (["packet", job, "--out", f"{folder}/all"], 3),
        ):
            command = [sys.executable, "-m", "casewright.cli", *words]
            seconds = []
            for _ in range(times):
                begun = time.perf_counter()
                subprocess.run(command, check=False, capture_output=True)
                seconds.append(time.perf_counter() - begun)
            said = " ".join(
                Path(word).name if word == job else word.replace(folder, "FOLDER") for word in words
            )
            rows.append(f"| casewright {said} | {median(seconds):.2f} | {min(seconds):.2f} |")
    return rows
