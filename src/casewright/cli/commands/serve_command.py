"""`casewright serve [FILE]`."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ...web.server import serve


def run(arguments: argparse.Namespace) -> int:
    open_shop(Path(arguments.file), arguments)
    return 0


def open_shop(file: Path, arguments: argparse.Namespace, path: str = "/") -> None:
    """Serve the jobs in `file` until stopped, and open `path` unless that is not wanted."""
    browser = not arguments.no_browser
    serve(file, network=arguments.network, port=arguments.port, path=path, browser=browser, say=_say)


def _say(line: str) -> None:
    """On standard error: what a command prints as its result may be piped on."""
    print(line, file=sys.stderr, flush=True)
