"""Running the web app on the maker's own machine, and beside it for paired devices on the shop's network."""

from __future__ import annotations

import asyncio
import signal
import socket
import threading
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn

from ..app.devices.pairing_links import code_for_terminal
from ..app.jobs.kept_jobs import KeptJobs
from ..errors import StoreError
from .address import HOST, PORT
from .network_switch import NetworkSwitch, server_of
from .quiet_collection import collect_when_quiet
from .web_app import make_app


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

    With `network`, paired devices on the shop's network are served too from the start, at the next port;
    else once the maker opens it on the page. Port 0, or a port that is taken, gives any free one. Raises
    StoreError when the file cannot be used or nothing can listen.
    """
    # Whoever mistypes the name would else think that all his jobs are gone.
    new = "" if file.exists() else ", a new file"
    saved = KeptJobs.open(file)
    app = make_app(saved)
    listening = listen(HOST, port, say)
    address = f"http://{HOST}:{listening.getsockname()[1]}"
    say(f"casewright is running at {address} (press Ctrl-C to stop). Jobs are kept in {file}{new}.")
    switch = app.state.switch = NetworkSwitch(
        app, file, lambda host: listen(host, port + 1 if port else 0, say)
    )

    def opened() -> None:
        if network:
            outside, code = switch.open(), app.state.desk.code
            say(code_for_terminal(outside.pairing_address(code)))
            say(f"A phone or tablet scans this, or opens {outside.address} and enters the code {code}.")
            say(f"Devices are listed, and put out again, at {address}/devices.")

    if browser:
        opener = threading.Timer(0.6, webbrowser.open, (f"{address}{path}",))
        opener.daemon = True
        opener.start()
    server = server_of(app)
    with saved.being_served(), _stopped_together(server, switch):
        asyncio.run(_served(server, listening, switch, opened))


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


async def _served(
    server: uvicorn.Server, listening: socket.socket, switch: NetworkSwitch, at_first: Callable[[], None]
) -> None:
    switch.runs_on(asyncio.get_running_loop())

    def activity() -> tuple[int, int]:
        states = [one.server_state for one in (server, *switch.servers())]
        return sum(state.total_requests for state in states), sum(len(state.tasks) for state in states)

    await asyncio.to_thread(at_first)
    collecting = asyncio.create_task(collect_when_quiet(activity))
    await server.serve(sockets=[listening])
    collecting.cancel()
    await switch.ended()


@contextmanager
def _stopped_together(server: uvicorn.Server, switch: NetworkSwitch) -> Iterator[None]:
    """Let an interrupt end both servers; then it goes on to whoever waits for it."""
    caught: list[int] = []

    def stop(number: int, _: object) -> None:
        server.should_exit, server.force_exit = True, bool(caught)
        switch.stop(force=bool(caught))
        caught.append(number)

    before = {kind: signal.signal(kind, stop) for kind in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield
    finally:
        for kind, handler in before.items():
            signal.signal(kind, handler)
    for number in caught:
        signal.raise_signal(number)
