"""The web app over a fresh shop file, with one small job of our own in it."""

from __future__ import annotations

from pathlib import Path

import pytest
from fastapi import FastAPI

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.web.web_app import make_app
from web_bench import JOB, Client


@pytest.fixture
def saved(tmp_path: Path) -> KeptJobs:
    saved = KeptJobs.open(tmp_path / "shop.sqlite3")
    saved.start(JOB)
    return saved


@pytest.fixture
def app(saved: KeptJobs) -> FastAPI:
    return make_app(saved, planning_seconds=0.1)


@pytest.fixture
def client(app: FastAPI) -> Client:
    return Client(app)
