"""Which test runs which line, and how long each test takes.

`python -m benchmarks.mutation.covering TEST_FILE RESULT.json` runs one file of tests; one process a file, so
that what an earlier file left in a cache hides no line from a later one.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import coverage
import pytest

PLAIN = ["-q", "-p", "no:cacheprovider", "-p", "benchmarks.mutation.first_example"]


@dataclass(frozen=True)
class Covering:
    """One test: its name for pytest, its seconds, and the lines of each module that it runs."""

    name: str
    seconds: float
    lines: dict[str, frozenset[int]]

    def runs(self, module: Path, first: int, last: int) -> bool:
        return not self.lines.get(str(module), frozenset()).isdisjoint(range(first, last + 1))


def covering_of(result: Path) -> list[Covering]:
    """The tests of one file, as `main` wrote them down."""
    return [
        Covering(name, seconds, {module: frozenset(lines) for module, lines in modules.items()})
        for name, (seconds, modules) in json.loads(result.read_text()).items()
    ]


class _Clock:
    def __init__(self, measured: coverage.Coverage) -> None:
        self.measured = measured
        self.seconds: dict[str, float] = {}

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        self.measured.switch_context(item.nodeid)
        begun = time.process_time()
        try:
            return (yield)
        finally:
            self.seconds[item.nodeid] = time.process_time() - begun
            self.measured.switch_context("")


def main(test_file: str, result: str) -> int:
    """Runs the file and writes down what it found; gives pytest's exit code."""
    measured = coverage.Coverage(data_file=None, source=["src/casewright"], config_file=False)
    clock = _Clock(measured)
    measured.start()
    code = pytest.main([*PLAIN, test_file], [clock])
    measured.stop()
    data = measured.get_data()
    here = Path.cwd()
    modules = [Path(name) for name in data.measured_files()]
    lines: dict[str, dict[str, list[int]]] = {name: {} for name in clock.seconds}
    for module in modules:
        for line, tests in data.contexts_by_lineno(str(module)).items():
            for test in tests:
                if test:
                    lines[test].setdefault(str(module.relative_to(here)), []).append(line)
    found = {name: (round(clock.seconds[name], 3), lines[name]) for name in clock.seconds}
    Path(result).write_text(json.dumps(found))
    return int(code)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
