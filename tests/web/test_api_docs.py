"""The page for programs says every call, asks no other host for anything, and is under the content policy."""

from __future__ import annotations

import re

from fastapi import FastAPI

from web_bench import Client


def test_every_call_is_described(client: Client, app: FastAPI) -> None:
    page = client.get("/api/docs").text
    calls = [(method, path) for path, methods in app.openapi()["paths"].items() for method in methods]
    assert len(calls) > 10
    for method, path in calls:
        assert f"<code>{method.upper()} {path}</code>" in page
    assert "based_on" in page and "$ref" not in page
    assert client.get("/api/openapi.json").json() == app.openapi()


def test_it_loads_nothing_from_elsewhere_and_is_guarded_like_every_page(client: Client) -> None:
    answer = client.get("/api/docs")
    assert answer.headers["content-security-policy"].startswith("default-src 'self'")
    assert re.findall(r'(?:src|href)="(?!/|#)([^"]*)"', answer.text) == []
    for path in ("/docs", "/redoc", "/openapi.json"):
        assert client.get(path).status_code == 404, "FastAPI's own pages load scripts from other hosts"
