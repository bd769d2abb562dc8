"""The API under requests made from its own schema: whatever is asked, nothing ends as a fault of ours."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis import Case
from schemathesis.core.result import Ok
from starlette.types import ASGIApp, Receive, Scope, Send

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.web.web_app import make_app
from web_bench import JOB

BROKEN = 'job = "Broken"\nunit = "in"\nruns = [1, { cases = 3 }]\n'
JOBS = st.sampled_from(["larder", "broken", "attic"])
PER_OPERATION = settings(
    max_examples=6, deadline=None, database=None, suppress_health_check=list(HealthCheck)
)


def on_this_computer(app: ASGIApp) -> ASGIApp:
    """The app as asked from the computer it runs on: other devices must pair first."""

    async def asked(scope: Scope, receive: Receive, send: Send) -> None:
        await app({**scope, "client": ("127.0.0.1", 1)}, receive, send)

    return asked


def operations(folder: Path) -> list[Any]:
    saved = KeptJobs.open(folder / "shop.sqlite3")
    saved.start(JOB)
    saved.start(BROKEN)
    app = on_this_computer(make_app(saved, planning_seconds=0.1))
    schema = schemathesis.openapi.from_asgi("/api/openapi.json", app)
    return [found.ok() for found in schema.get_all_operations() if isinstance(found, Ok)]


def test_no_request_that_the_schema_allows_or_forbids_ends_in_a_500(tmp_path: Path) -> None:
    """Drawn by the schema, sound and unsound; half of them for a job whose file has the wrong shape."""
    found = operations(tmp_path)
    assert len(found) >= 12
    statuses: set[int] = set()
    for operation in found:
        strategies = [operation.as_strategy(generation_mode=mode) for mode in schemathesis.GenerationMode]

        @settings(PER_OPERATION)
        @given(case=st.one_of(*strategies), job=JOBS)
        def ask(case: Case[Any], job: str) -> None:
            if "job" in case.path_parameters:
                case.path_parameters["job"] = job
            answer = case.call()
            statuses.add(answer.status_code)
            assert answer.status_code < 500, (case.method, case.path, case.body, answer.text)

        ask()
    assert {200, 404, 422} <= statuses
