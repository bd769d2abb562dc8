"""Whatever else one process does, at once or before, each answer is the one given alone."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from pathlib import Path

import pytest
from fastapi import FastAPI

import every_answer
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.web.web_app import make_app
from web_bench import JOB, Client

SEED = 15
THREADS = 4


def told_by_a_process(*threads: str, hash_seed: int) -> dict[str, str]:
    """The answers' hashes as a fresh process gives them, after solves with these numbers of threads."""
    ended = subprocess.run(
        [sys.executable, str(Path(every_answer.__file__)), *threads],
        check=True,
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONHASHSEED": str(hash_seed)},
    )
    hashes: dict[str, str] = json.loads(ended.stdout.splitlines()[-1])
    return hashes


@pytest.fixture(scope="module")
def alone() -> dict[str, str]:
    return told_by_a_process(hash_seed=1)


def test_the_job_has_an_answer_of_every_kind(alone: dict[str, str]) -> None:
    endings = {name.rpartition(".")[2] for name in alone}
    assert {"pdf", "dxf", "svg", "glb", "json", "csv"} <= endings
    assert {"plan", "bins", "order", "settings", "measures", "cures", "proof", "ways"} <= set(alone)
    assert all(len(make()) > 10 for name, make in every_answer.solved_answers().items() if name == "cures")


@pytest.mark.parametrize(("threads", "hash_seed"), [("default", 4), ("4", 2)])
def test_a_solve_elsewhere_before_changes_nothing(
    alone: dict[str, str], threads: str, hash_seed: int
) -> None:
    """HiGHS refuses a solve on one thread where another solve has begun with more, and gives nothing."""
    after = told_by_a_process(threads, hash_seed=hash_seed)
    assert {name for name in after if name.endswith(".dxf")} and "proof" in after
    assert {name for name, said in after.items() if said != alone[name]} == set()


def test_answers_in_any_order_are_those_given_alone(alone: dict[str, str]) -> None:
    answers = list(every_answer.every_answer().items())
    random.Random(SEED).shuffle(answers)
    assert {name for name, make in answers if sha256(make()).hexdigest() != alone[name]} == set()


def test_answers_in_threads_are_those_given_alone(alone: dict[str, str]) -> None:
    answers = [*every_answer.every_answer().items()]
    answers += [
        one for one in answers if one[0].endswith((".dxf", ".pdf")) or one[0] in ("proof", "settings")
    ]
    random.Random(SEED).shuffle(answers)
    with ThreadPoolExecutor(THREADS) as threads:
        made = list(threads.map(lambda one: (one[0], sha256(one[1]()).hexdigest()), answers))
    assert len(made) > len(alone)
    assert {name for name, said in made if said != alone[name]} == set()


def test_two_packets_at_once_are_the_same_packet(tmp_path: Path) -> None:
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    saved.start(JOB)
    app: FastAPI = make_app(saved, planning_seconds=0.3)
    client = Client(app)
    while client.get("/jobs/larder/papers/parts.csv").status_code == 303:
        threading.Event().wait(0.05)
    for path in ("packet.pdf", "parts/B1-L.dxf"):
        begin = threading.Barrier(2)

        def fetch(_: int, path: str = path, begin: threading.Barrier = begin) -> tuple[int, bytes]:
            begin.wait()
            answer = Client(app).get(f"/jobs/larder/papers/{path}")
            return answer.status_code, answer.content

        with ThreadPoolExecutor(2) as threads:
            (status, one), (other_status, other) = threads.map(fetch, range(2))
        assert (status, other_status) == (200, 200), path
        assert one == other and len(one) > 1000
