"""Running the web app on the maker's own machine, and beside it for paired devices on the shop's network."""

from __future__ import annotations

import asyncio
import signal
import socket
import threading
import webbrowser
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import uvicorn

from ..app.devices.pairing_links import code_for_terminal
from ..app.jobs.kept_jobs import KeptJobs
from ..errors import StoreError
from .address import EVERYWHERE, HOST, PORT
from .opened_network import open_network
from .web_app import make_app

# Of who asks, only the connection itself is believed, never a header: this machine is let in unasked.
SETTINGS: dict[str, Any] = {
    "log_level": "warning",
    "timeout_graceful_shutdown": 2,
    "proxy_headers": False,
    "server_header": False,
}


class _Server(uvicorn.Server):
    """One of two servers in one process, which end together."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Leave the signals to `_stopped_together`."""
        yield


def serve(
    file: Path,
    *,
    network: bool = False,
    port: int = PORT,
    path: str = "/",
    browser: bool = False,
    say: Callable[[str], None] = print,
) -> None:
    """Serve the jobs in `file` until interrupted; `browser` opens `path` there once it runs.

    With `network`, paired devices on the shop's network are served too, at the next port. Port 0, or a port
    that is taken, gives any free one. Raises StoreError when the file cannot be used or nothing can listen.
    """
    # Whoever mistypes the name would else think that all his jobs are gone.
    new = "" if file.exists() else ", a new file"
    app = make_app(KeptJobs.open(file))
    listening = listen(HOST, port, say)
    address = f"http://{HOST}:{listening.getsockname()[1]}"
    say(f"casewright is running at {address} (press Ctrl-C to stop). Jobs are kept in {file}{new}.")
    servers = [(_Server(uvicorn.Config(app, **SETTINGS)), listening)]
    if network:
        outside = listen(EVERYWHERE, port + 1 if port else 0, say)
        opened = open_network(file, outside.getsockname()[1])
        app.state.network = opened
        config = uvicorn.Config(app, **SETTINGS)
        config.load()
        config.ssl = opened.tls
        servers.append((_Server(config), outside))
        code = app.state.desk.code
        say(code_for_terminal(opened.pairing_address(code)))
        say(f"A phone or tablet scans this, or opens {opened.address} and enters the code {code}.")
        say(f"Devices are listed, and put out again, at {address}/devices.")
    if browser:
        opener = threading.Timer(0.6, webbrowser.open, (f"{address}{path}",))
        opener.daemon = True
        opener.start()
    with _stopped_together([server for server, _ in servers]):
        asyncio.run(_all(servers))


def listen(host: str, port: int, say: Callable[[str], None] = lambda _: None) -> socket.socket:
    """A socket on the port, or on any free one where that is taken, which is said."""
    for wanted in dict.fromkeys((port, 0)):
        listening = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET, socket.SOCK_STREAM)
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((host, wanted))
            listening.listen()  # whoever follows the address at once waits, and is not turned away
        except OSError as fault:
            listening.close()
            if wanted:
                continue
            raise StoreError(f"nothing can listen on {host} ({fault.strerror}).") from fault
        if wanted != port:
            said = f"Port {port} is taken, perhaps by another casewright"
            say(f"{said}; port {listening.getsockname()[1]} is used instead.")
        return listening
    raise AssertionError("the loop ends above")


async def _all(servers: Sequence[tuple[uvicorn.Server, socket.socket]]) -> None:
    await asyncio.gather(*(server.serve(sockets=[listening]) for server, listening in servers))


@contextmanager
def _stopped_together(servers: Sequence[uvicorn.Server]) -> Iterator[None]:
    """Let an interrupt end every server; then it goes on to whoever waits for it."""
    caught: list[int] = []

    def stop(number: int, _: object) -> None:
        for server in servers:
            server.should_exit, server.force_exit = True, bool(caught)
        caught.append(number)

    before = {kind: signal.signal(kind, stop) for kind in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield
    finally:
        for kind, handler in before.items():
            signal.signal(kind, handler)
    for number in caught:
        signal.raise_signal(number)
