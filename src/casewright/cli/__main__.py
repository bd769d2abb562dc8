"""The program `casewright`. Ctrl-C at any moment ends it with one line and exit code 130.

This file imports only what Python itself has loaded by then. While the rest is imported, an interrupt
would show the traceback of whichever library was just loading, or be taken by it for a missing module and
forgotten. Nothing is half written at that stage, so the process ends on the spot. Once the command works,
the interrupt is raised as KeyboardInterrupt, so that half-written files are removed. Even then the process
ends without Python's own closing down, which may send it the interrupt again (if that came while a library
compiled some text), or trip over a solver still at work in its thread.
"""

from __future__ import annotations

import os
import signal
import sys

from .stopping import STOPPED, stopped


def program() -> int:
    """Run the command line of this process; gives its exit code."""
    # Where interrupts are ignored, as in a job that a script runs in the background, they stay so.
    heeded = signal.getsignal(signal.SIGINT) is signal.default_int_handler
    if heeded:
        signal.signal(signal.SIGINT, _end_at_once)
    try:
        from .main import main

        code = main(at_work=_raise_interrupts if heeded else None)
    except KeyboardInterrupt:
        code = stopped()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # all that is left is to close down
    if code == STOPPED:
        os._exit(code)
    return code


def _end_at_once(*_: object) -> None:
    os._exit(stopped())


def _raise_interrupts() -> None:
    signal.signal(signal.SIGINT, signal.default_int_handler)


if __name__ == "__main__":
    sys.exit(program())
