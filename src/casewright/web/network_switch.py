"""The shop's network, opened and closed while casewright runs: a second server in the same process."""

from __future__ import annotations

import asyncio
import socket
import ssl
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import uvicorn
from fastapi import FastAPI, Request

from ..errors import StoreError
from .address import EVERYWHERE
from .opened_network import OpenedNetwork, open_network

# Of who asks, only the connection itself is believed, never a header: this machine is let in unasked.
SETTINGS: dict[str, Any] = {
    "log_level": "warning",
    "timeout_graceful_shutdown": 2,
    "proxy_headers": False,
    "server_header": False,
    "lifespan": "off",
}

CLOSED_WITHIN = 10.0
"""Seconds; those who still wait for an answer are cut off after two."""


class TogetherServer(uvicorn.Server):
    """One of two servers in one process, which end together."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Leave the signals to whoever runs both."""
        yield


def server_of(app: FastAPI, tls: ssl.SSLContext | None = None) -> TogetherServer:
    """A server of the app, encrypted with `tls` where that is given."""
    config = uvicorn.Config(app, **SETTINGS)
    config.load()
    config.ssl = tls
    return TogetherServer(config)


class NetworkSwitch:
    """Serves paired devices on the shop's network once `open` is called, and no longer after `close`. Closed
    at first. Both may be called from any thread but the event loop's own; each ends when it is done."""

    def __init__(self, app: FastAPI, file: Path, listen: Callable[[str], socket.socket]) -> None:
        self._app = app
        self._file = file
        self._listen = listen
        self._lock = threading.Lock()
        self._loop: asyncio.AbstractEventLoop | None = None
        self._server: TogetherServer | None = None
        self._served: Future[None] | None = None

    def runs_on(self, loop: asyncio.AbstractEventLoop) -> None:
        """Say on which loop to serve."""
        self._loop = loop

    def open(self) -> OpenedNetwork:
        """Open the network, or give what is open already. StoreError where there is no network to open."""
        with self._lock:
            network = self._app.state.network
            if isinstance(network, OpenedNetwork):
                return network
            assert self._loop is not None, "nothing is served yet"
            outside = self._listen(EVERYWHERE)
            try:
                opened = open_network(self._file, outside.getsockname()[1])
            except StoreError:
                outside.close()
                raise
            self._server = server_of(self._app, opened.tls)
            self._served = asyncio.run_coroutine_threadsafe(self._server.serve(sockets=[outside]), self._loop)
            self._app.state.network = opened
            return opened

    def close(self) -> None:
        """Close it to all devices. Those that are paired stay paired."""
        with self._lock:
            self._app.state.network = None
            if self._server is not None and self._served is not None:
                self._server.should_exit = True
                self._served.result(CLOSED_WITHIN)
            self._server = self._served = None

    def servers(self) -> tuple[TogetherServer, ...]:
        """The server of the network, while it is open."""
        return () if self._server is None else (self._server,)

    def stop(self, *, force: bool) -> None:
        """Let the server end, as the program does."""
        for server in self.servers():
            server.should_exit, server.force_exit = True, force

    async def ended(self) -> None:
        """Wait until it has ended."""
        if self._served is not None:
            await asyncio.wrap_future(self._served)


def switch_of(request: Request) -> NetworkSwitch | None:
    """The switch of the server that runs; None where the app is served in another way."""
    switch = request.app.state.switch
    assert switch is None or isinstance(switch, NetworkSwitch)
    return switch
