"""What the tests of the web app share: a small job of our own, and a way to ask the app."""

from __future__ import annotations

import asyncio
from typing import Any

import httpx
from fastapi import FastAPI

JOB = """\
# measured on Tuesday, twice
job = "Larder"
unit = "in"

[materials.ply]
sheet = "hardwood ply 3/4"
readings = ["23/32"]

[materials.thin]
sheet = "hardwood ply 1/4"

[made_of]
case = "ply"
back = "thin"

[[runs]]
name = "north"
opening = "62 1/2"
left_filler = { width = 2, scribe = "1/2" }

[[runs.cases]]
mark = "B1"  # under the window
kind = "base"
width = 24
bays = [{ fixed = [10], adjustable = 1 }]

[[runs.cases]]
mark = "B2"
kind = "base"
bays = [{ adjustable = 1 }, { adjustable = 2 }]
"""


class Client:
    """Asks the app without a network. `htmx`: as the page's script does; `address`: from where."""

    def __init__(self, app: FastAPI, address: str = "127.0.0.1") -> None:
        self.app = app
        self.address = address

    def ask(self, method: str, path: str, *, htmx: bool = False, **sent: Any) -> httpx.Response:
        headers = {
            "accept": "text/html",
            **({"HX-Request": "true"} if htmx else {}),
            **sent.pop("headers", {}),
        }

        async def go() -> httpx.Response:
            transport = httpx.ASGITransport(self.app, False, client=(self.address, 50_000))
            async with httpx.AsyncClient(transport=transport, base_url="http://bench") as client:
                return await client.request(method, path, headers=headers, **sent)

        return asyncio.run(go())

    def get(self, path: str, **sent: Any) -> httpx.Response:
        return self.ask("GET", path, **sent)

    def post(self, path: str, **sent: Any) -> httpx.Response:
        return self.ask("POST", path, **sent)
