"""Every refusal a request is answered with, and the nearest request that is done."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.errors import CasewrightError, ExtraMissing, JobError, LengthError, LibraryError, StoreError
from casewright.findings import Finding
from finding_rows import Provoke, Row, check
from web_bench import JOB, Client

LIST = "GET /api/jobs"
FILE = "POST /jobs/file"
LARDER = "GET /api/jobs/larder"
ONE = {"path": "runs.0.cases.0.width", "value": 23}
FAULT = Finding("no-cases", "runs.north", "the run has no case.", "Give it one.")


@pytest.fixture
def asking(client: Client) -> Callable[..., Provoke]:
    def ask(request: str, away: bool = False, **sent: Any) -> Provoke:
        """What the answer to a program says is wrong, at the request it was sent from here or `away`."""
        method, path = request.split()
        headers = {"accept": "application/json", **sent.pop("headers", {})}

        def findings() -> list[Finding]:
            asks = Client(client.app, "192.168.1.9") if away else client
            answer = asks.ask(method, path, headers=headers, **sent)
            if answer.status_code < 400:
                return []
            error = answer.json()["error"]
            place = f"{answer.status_code} {request}"
            return [Finding(error["code"], place, error["text"], error["fix"])]

        return findings

    return ask


def test_each_is_said_of_the_wrong_request_and_not_of_its_neighbour(
    asking: Callable[..., Provoke],
) -> None:
    def file(content: bytes) -> Provoke:
        return asking(FILE, files={"file": ("loft.toml", content)})

    def from_(host: str) -> Provoke:
        return asking(LIST, headers={"host": host})

    def by(origin: str) -> Provoke:
        return asking("POST /jobs/larder/put-away", headers={"origin": origin})

    sound, text = asking(LIST), JOB.encode()
    filled = text + b"#" * (800_000 - len(text))
    for row in (
        Row(
            "no-such-job",
            "404 GET /api/jobs/ladder",
            "ladder",
            "list of jobs",
            asking("GET /api/jobs/ladder"),
            asking(LARDER),
        ),
        Row(
            "unknown-revision",
            "409 PATCH /api/jobs/larder",
            "revision 9 of job larder",
            "Reload the page",
            asking("PATCH /api/jobs/larder", json={"entries": [ONE], "based_on": 9}),
            asking("PATCH /api/jobs/larder", json={"entries": [ONE], "based_on": 1}),
        ),
        Row("not-found", "404 GET /api/job", "does not exist", "list of jobs", asking("GET /api/job"), sound),
        Row(
            "refused",
            "405 DELETE /api/jobs",
            "Method Not Allowed",
            "",
            asking("DELETE /api/jobs"),
            sound,
        ),
        Row(
            "bad-request",
            "422 PATCH /api/jobs/larder",
            "based_on",
            "submit the form again",
            asking("PATCH /api/jobs/larder", json={"entries": [ONE]}),
            asking("PATCH /api/jobs/larder", json={"entries": [ONE], "based_on": 1}),
        ),
        Row("empty", f"422 {FILE}", "file is empty", "Choose a job file", file(b" \n"), file(text)),
        Row("not-text", f"422 {FILE}", "loft.toml is not a text file", "UTF-8", file(b"\xff"), file(text)),
        Row("file-too-long", f"413 {FILE}", "800,000 bytes", "Split", file(filled + b"#"), file(filled)),
        Row(
            "too-long",
            "413 POST /api/jobs",
            "longer than 4 million bytes",
            "Send less",
            asking("POST /api/jobs", content=b"#" * 4_000_001, headers={"content-type": "application/json"}),
            asking("POST /api/jobs", json={"text": JOB}),
        ),
        Row(
            "entry-too-long",
            "413 POST /jobs",
            "longer than a million bytes",
            "as a file",
            asking("POST /jobs", data={"start": "opening", "name": "#" * 1_100_000}),
            asking("POST /jobs", data={"start": "opening", "name": "Loft", "opening": "60"}),
        ),
        Row(
            "fetched-from-elsewhere",
            f"403 {LIST}",
            "A page of another site asked",
            "casewright's own page",
            asking(LIST, headers={"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"}),
            asking(LIST, headers={"sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate"}),
        ),
        Row(
            "from-elsewhere",
            "403 POST /jobs/larder/undo",
            "another site",
            "own page",
            asking("POST /jobs/larder/undo", headers={"sec-fetch-site": "same-site"}),
            asking("POST /jobs/larder/undo", headers={"sec-fetch-site": "same-origin"}),
        ),
        Row(
            "not-paired",
            f"401 {LIST}",
            "not paired",
            "Pair it with the code",
            asking(LIST, away=True),
            sound,
        ),
        Row(
            "name-from-elsewhere",
            f"403 {LIST}",
            "bench.example",
            "address that casewright printed",
            from_("bench.example"),
            from_("bench.local"),
        ),
        Row(
            "from-elsewhere",
            "403 POST /jobs/larder/put-away",
            "another site",
            "own page",
            by("http://elsewhere.example"),
            by("http://bench"),
        ),
    ):
        check(row)


def test_each_fault_is_answered_by_its_own_refusal(asking: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    def meeting(fault: Exception) -> Provoke:
        """What a program hears when its request runs into this."""

        def fails(self: KeptJobs) -> tuple[()]:
            raise fault

        def findings() -> list[Finding]:
            with monkeypatch.context() as patch:
                patch.setattr(KeptJobs, "list", fails)
                return list(asking(LIST)())

        return findings

    job, step = JobError((FAULT,)), ExtraMissing("STEP needs the extra.")
    disk, font = StoreError("the disk is full; make room."), LibraryError("Typst", "typesetting", "no font")
    attic, ninth = CasewrightError("the attic is full."), LengthError("27 3/9 is no length.")
    ours = ZeroDivisionError("inside")
    built, done = "The job cannot be built as it is", asking(LIST)
    for row in (
        Row("cannot-be-built", f"422 {LIST}", built, "Correct each finding", meeting(job), done),
        Row("extra-missing", f"501 {LIST}", "STEP needs", "other formats", meeting(step), meeting(disk)),
        Row("store", f"503 {LIST}", "make room", "", meeting(disk), meeting(font)),
        Row("library-failed", f"500 {LIST}", "Typst failed", "Try again", meeting(font), meeting(ours)),
        Row("refused", f"422 {LIST}", "the attic is full", "", meeting(attic), meeting(job)),
        Row("refused", f"422 {LIST}", "27 3/9", "", meeting(ninth), meeting(job)),
        Row(
            "our-fault",
            f"500 {LIST}",
            "because of a bug",
            "Reload the page",
            meeting(ours),
            meeting(font),
        ),
    ):
        check(row)
