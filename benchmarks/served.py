"""A server of a shop's file in a process of its own, as the benchmarks of the app need one."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

SERVE = (sys.executable, "-m", "casewright.cli", "serve")


@contextmanager
def served(file: Path) -> Iterator[str]:
    """The address of the server, which is killed without warning at the end."""
    command = [*SERVE, str(file), "--port", "0", "--no-browser"]
    server = subprocess.Popen(command, stderr=subprocess.PIPE, text=True)
    try:
        assert server.stderr is not None
        said = server.stderr.readline()
        found = re.search(r"http://\S+", said)
        assert found, f"the server said no address, but {said!r}"
        yield found[0]
    finally:
        server.kill()
        server.communicate()
