"""One request, however long or however often sent, leaves the server answering all others."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import AsyncIterator
from inspect import iscoroutinefunction
from threading import Event, Lock
from typing import Any
from unittest.mock import Mock

import httpx
import pytest
from fastapi import FastAPI
from starlette.requests import ClientDisconnect

from casewright.app.background.planning import Planning
from casewright.app.background.waiting import AT_ONCE, InTurn, Waiting
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.papers.downloads import download
from casewright.app.papers.packet_files import Document
from casewright.web.body_limit import LONGEST
from casewright.web.routes import modules, papers_routes, sheets_routes
from casewright.web.turns import MAKING, FewAtOnce
from web_bench import Client

FORM = {"content-type": "application/x-www-form-urlencoded"}
TOO_LONG = "The request is longer than 4 million bytes, so it was not read."


def request_over(app: FastAPI) -> httpx.AsyncClient:
    return httpx.AsyncClient(transport=httpx.ASGITransport(app), base_url="http://bench")


@pytest.mark.parametrize("path", ["/jobs/larder/cases/B1", "/jobs/larder/text", "/jobs", "/api/jobs"])
def test_a_request_that_says_it_is_too_long_is_refused_unread(client: Client, path: str) -> None:
    kind = {"content-type": "application/json"} if path.startswith("/api") else FORM
    answer = client.post(path, content=b"a=" + b"b" * LONGEST, headers=kind)
    assert answer.status_code == 413 and TOO_LONG in answer.text
    assert answer.headers["connection"] == "close"
    assert "content-security-policy" in answer.headers


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/jobs/larder/cases/B1", FORM["content-type"]),
        ("/jobs/larder/text", FORM["content-type"]),
        ("/api/jobs", "application/json"),
        ("/jobs/file", "multipart/form-data; boundary=x"),
        ("/jobs/larder/shop/events", "application/json"),
    ],
)
def test_one_sent_in_pieces_is_broken_off_where_it_becomes_too_long(
    client: Client, path: str, kind: str
) -> None:
    taken, piece = 0, b"b" * 100_000
    head = (
        b'--x\r\nContent-Disposition: form-data; name="file"; filename="a"\r\n\r\n'
        if "multipart" in kind
        else b"a="
    )

    async def pieces() -> AsyncIterator[bytes]:
        nonlocal taken
        yield head
        for _ in range(3000):
            taken += len(piece)
            yield piece

    answer = client.post(path, content=pieces(), headers={"content-type": kind})
    if kind in FORM.values():  # the form's reader stops even sooner, at a million bytes of one entry
        assert answer.status_code == 413 and "longer than" in answer.text
    else:
        assert answer.status_code == 413 and TOO_LONG in answer.text
    assert taken <= LONGEST + 2 * len(piece)


def test_files_are_made_a_few_at_a_time_and_other_pages_are_answered_meanwhile(
    app: FastAPI, client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    client.get("/jobs/larder/sheets/progress")
    finish, lock, at_work, most = Event(), Lock(), 0, 0

    def slow(*_: Any) -> tuple[bytes, str]:
        nonlocal at_work, most
        with lock:
            at_work += 1
            most = max(most, at_work)
        finish.wait()
        with lock:
            at_work -= 1
        return b"", "application/pdf"

    monkeypatch.setattr(papers_routes, "download", slow)

    async def many() -> None:
        async with request_over(app) as sender:
            asked = [asyncio.create_task(sender.get("/jobs/larder/papers/packet.pdf")) for _ in range(60)]
            while at_work < MAKING:
                await asyncio.sleep(0.01)
            try:
                assert (await asyncio.wait_for(sender.get("/jobs/larder"), 60)).status_code == 200
            finally:
                finish.set()
            assert {answer.status_code for answer in await asyncio.gather(*asked)} == {200}

    asyncio.run(many())
    assert most == MAKING


def test_no_handler_works_in_the_thread_that_answers_everybody() -> None:
    """FastAPI runs `def` in a thread of its own, `async def` where all requests are taken."""
    blocking = [
        f"{module.__name__}.{route.endpoint.__name__}"
        for module in modules()
        for route in module.router.routes
        if iscoroutinefunction(route.endpoint)
    ]
    assert blocking == []


def test_pages_left_open_on_a_search_hold_no_thread(
    app: FastAPI, client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    planning = Planning()
    monkeypatch.setattr(sheets_routes, "planning_of", lambda *_: planning)

    async def many() -> None:
        async with request_over(app) as sender:
            asked = [asyncio.create_task(sender.get("/jobs/larder/sheets/progress")) for _ in range(60)]
            await asyncio.sleep(0.1)
            try:
                assert (await asyncio.wait_for(sender.get("/"), 60)).status_code == 200
            finally:
                planning.say("2 sheets")
                planning._end()
            told = {answer.text for answer in await asyncio.gather(*asked)}
            assert told == {'data: "2 sheets"\n\nevent: done\ndata: {}\n\n'}

    asyncio.run(many())


def client_that(leaves: asyncio.Event) -> Mock:
    async def receive() -> dict[str, str]:
        await leaves.wait()
        return {"type": "http.disconnect"}

    return Mock(receive=receive)


def test_whoever_leaves_before_his_turn_has_none_and_holds_up_nobody() -> None:
    async def three() -> None:
        turns, leaves, stays = FewAtOnce(1), asyncio.Event(), asyncio.Event()
        first = turns.take(client_that(stays))
        held = await anext(first)
        waits = asyncio.create_task(anext(turns.take(client_that(leaves))))
        await asyncio.sleep(0.01)
        assert not waits.done()
        leaves.set()
        with pytest.raises(ClientDisconnect):
            await waits
        await first.aclose()
        assert not held.is_set()
        await asyncio.wait_for(anext(turns.take(client_that(stays))), 10)

    asyncio.run(three())


def test_whoever_leaves_during_his_turn_is_known_to_have_left() -> None:
    async def one() -> None:
        leaves = asyncio.Event()
        left = await anext(FewAtOnce(1).take(client_that(leaves)))
        assert not left.is_set()
        leaves.set()
        await asyncio.sleep(0.01)
        assert left.is_set()

    asyncio.run(one())


def test_an_archive_nobody_waits_for_is_given_up(
    client: Client, saved: KeptJobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    client.get("/jobs/larder/sheets/progress")
    planned = Mock(worked=saved.take("larder").worked)
    asked = iter([False, False, True])
    made: list[str] = []
    document = "casewright.app.papers.downloads.documents"

    def drawing(number: str) -> Document:
        def make() -> bytes:
            made.append(number)
            return b""

        return Document(f"parts/{number}.svg", make)

    monkeypatch.setattr(document, lambda *_: map(drawing, "123456"))
    assert download(planned, "everything.zip", lambda: next(asked)) == (b"", "application/zip")
    assert made == ["1", "2"]


@pytest.mark.parametrize("path", ["/jobs/larder/text", "/jobs/file", "/api/jobs", "/jobs/larder/cases/B1"])
def test_a_client_that_leaves_while_it_sends_is_no_fault_of_ours(
    app: FastAPI, path: str, caplog: pytest.LogCaptureFixture
) -> None:
    kind = "application/json" if "api" in path else "application/x-www-form-urlencoded"
    messages = iter([{"type": "http.request", "body": b"text=", "more_body": True}])
    headers = [(b"host", b"bench"), (b"content-type", kind.encode()), (b"content-length", b"900")]
    scope = {
        "type": "http",
        "method": "POST",
        "path": path,
        "query_string": b"",
        "headers": headers,
        "server": ("bench", 80),
        "scheme": "http",
    }

    async def receive() -> dict[str, Any]:
        return next(messages, {"type": "http.disconnect"})

    async def send(_: object) -> None:
        return

    asyncio.run(app(scope, receive, send))
    assert [record for record in caplog.records if record.levelno >= logging.ERROR] == []


@pytest.mark.parametrize(
    "path",
    [
        "/",
        "/jobs/larder",
        "/nowhere",
        "/static/css/ink.css",
        "/static/none",
        "/api/jobs",
        "/api/docs",
        "/pair",
    ],
)
@pytest.mark.parametrize("host", ["bench", "elsewhere.example"])
def test_every_answer_has_the_headers_that_protect_it(client: Client, path: str, host: str) -> None:
    headers = client.get(path, headers={"host": host}).headers
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "same-origin"
    assert headers["cross-origin-resource-policy"] == headers["cross-origin-opener-policy"] == "same-origin"
    policy = headers["content-security-policy"]
    assert "default-src 'self'" in policy and "frame-ancestors 'none'" in policy
    assert "unsafe-inline" not in policy.partition("script-src")[2].partition(";")[0]


def test_a_bug_is_answered_with_the_headers_of_every_page(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(_: KeptJobs) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(KeptJobs, "list", fails)
    answer = client.get("/")
    assert answer.status_code == 500 and "because of a bug" in answer.text
    assert "nonce-" in answer.headers["content-security-policy"]


def test_long_work_is_begun_a_few_at_a_time_and_those_that_wait_say_so() -> None:
    in_turn, finish, lock, most, at_work = InTurn("test"), Event(), Lock(), 0, 0
    every = [Waiting() for _ in range(6)]

    def work(waiting: Waiting) -> None:
        nonlocal most, at_work
        with lock:
            at_work += 1
            most = max(most, at_work)
        finish.wait()
        with lock:
            at_work -= 1
        waiting._end()

    for waiting in every:
        in_turn.begin(waiting, work, waiting)
    while sum("Waiting until other jobs are done" in waiting.said for waiting in every) < 6 - AT_ONCE:
        every[-1].follow(99, 0.01)
    finish.set()
    for waiting in every:
        while not waiting.follow(99, 1)[1]:
            pass
    assert most == AT_ONCE
