"""What every command and page would ask of a job, whatever its text says."""

from __future__ import annotations

import re
from contextlib import suppress

from fastapi.routing import APIRoute

from casewright.app.jobs.worked_job import WorkedJob, open_job
from casewright.errors import LengthError
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.write_job import write_job
from casewright.web import routes
from web_bench import Client

FILLED = {"mark": "B1", "index": "0", "kind": "base", "number": "1", "name": "B1.width", "path": "B1"}


def pages() -> list[str]:
    """Every address of a job that can be looked at; `{job}` stands for its number."""
    found = [route for module in routes.modules() for route in module.router.routes]
    paths = [one.path for one in found if isinstance(one, APIRoute) and "GET" in (one.methods or ())]
    return [
        re.sub(r"{(\w+)(?::path)?}", lambda step: FILLED.get(step[1], "{job}"), path)
        for path in paths
        if "{job}" in path
    ]


def core_answers(text: str) -> WorkedJob:
    """The job with every answer worked out that the commands print without a plan or a solid.

    Each finding must be a sentence with a fix and, in a file, a line.
    """
    worked = open_job.__wrapped__(text)
    for finding in worked.findings:
        assert finding.place and finding.text and finding.fix, finding
        assert finding.line and finding.column and "\n" not in str(finding), finding
    if worked.job is not None:
        with suppress(LengthError):  # a figure of twenty digits, which no job file of ours writes
            assert read_job(write_job(worked.job)) == worked.job
    if worked.project is not None:
        assert worked.parts_list and worked.hardware and worked.needed_shown()
        assert worked.joinings is not None and worked.look_alikes is not None and worked.sticks is not None
    else:
        assert worked.findings
    return worked


def failing_pages(client: Client, job: object, addresses: list[str]) -> list[str]:
    """The addresses of these that answer with a fault of the server."""
    answers = {address: client.get(address.format(job=job)).status_code for address in addresses}
    return [address for address, status in answers.items() if status >= 500]
