"""Running the web app on the maker's own machine, or for the shop's network."""

from __future__ import annotations

import socket
import threading
import webbrowser
from collections.abc import Callable
from pathlib import Path

import uvicorn

from ..app.jobs.kept_jobs import KeptJobs
from ..errors import StoreError
from .address import HOST, PORT
from .web_app import make_app

OPEN_NETWORK = (
    "Anyone on this network can now see and change these jobs. There is no password. "
    "Press Ctrl-C to stop it when the shop closes."
)


def serve(
    file: Path,
    *,
    host: str = HOST,
    port: int = PORT,
    path: str = "/",
    browser: bool = False,
    say: Callable[[str], None] = print,
) -> None:
    """Serve the jobs in `file` until interrupted; `browser` opens `path` there once it runs.

    Port 0, or a port that is taken, gives any free one. Raises StoreError when the file cannot
    be used or nothing can listen on `host`.
    """
    app = make_app(KeptJobs.open(file))
    listening = listen(host, port)
    address = f"http://{'127.0.0.1' if host in ('0.0.0.0', '::') else host}:{listening.getsockname()[1]}"
    say(f"casewright is running at {address} (press Ctrl-C to stop). Jobs are kept in {file}.")
    if host not in ("127.0.0.1", "localhost", "::1"):
        say(OPEN_NETWORK)
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", timeout_graceful_shutdown=2))
    if browser:
        opener = threading.Timer(0.6, webbrowser.open, (f"{address}{path}",))
        opener.daemon = True
        opener.start()
    server.run(sockets=[listening])


def listen(host: str, port: int) -> socket.socket:
    """A socket on the port, or on any free one where that is taken."""
    for wanted in dict.fromkeys((port, 0)):
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        listening = socket.socket(family, socket.SOCK_STREAM)
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((host, wanted))
            listening.listen()  # whoever follows the address at once waits, and is not turned away
        except OSError as fault:
            listening.close()
            if wanted:
                continue
            raise StoreError(
                f"nothing can listen on {host} ({fault.strerror}); omit --host to serve this machine only."
            ) from fault
        return listening
    raise AssertionError("the loop ends above")
