"""Do the tests notice a fault? Each is planted in the core by itself and put to the tests that run it."""

from __future__ import annotations

import contextlib
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from benchmarks.mutation.covering import PLAIN, Covering, covering_of
from benchmarks.mutation.planted import planted_faults
from cosmic_ray.mutating import mutate_and_test
from cosmic_ray.work_item import MutationSpec

TITLE = "Tests that notice"
ROOT = Path(__file__).parents[1]
SETTINGS = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["cosmic-ray"]
COPIED = ("src", "tests", "benchmarks", "docs", "examples")
TEST_FAILED = re.compile("^(FAILED|ERROR) ", re.MULTILINE)
BELOW = "below the floor"


@dataclass(frozen=True)
class Tried:
    """One planted fault and whether a test failed."""

    fault: MutationSpec
    noticed: bool
    diff: str


def run(quick: bool = False) -> str:
    """The table, as Markdown: faults planted and noticed in each package, and every one that went unseen."""
    begun = time.monotonic()
    number = SETTINGS["faults"] // (8 if quick else 1)
    tried: dict[str, list[Tried]] = {}
    with _copy_of_the_tree():
        tests = _every_covering()
        for package in SETTINGS["packages"]:
            modules = _modules(package)
            faults = planted_faults(modules, number, SETTINGS["seed"])
            tried[package] = [_tried(fault, package, tests) for fault in faults]
    return "\n".join(_table(tried, round(time.monotonic() - begun)))


def fails(text: str) -> bool:
    """Whether this table says that the score is too low."""
    return BELOW in text


@contextlib.contextmanager
def _copy_of_the_tree() -> Iterator[None]:
    """Works in a copy: a run that is broken off leaves no fault behind.

    No plugin of pytest is needed here, and to load them takes longer than most tests.
    """
    before = dict(os.environ)
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder).resolve()
        for name in COPIED:
            shutil.copytree(ROOT / name, copy / name)
        shutil.copy(ROOT / "pyproject.toml", copy)
        searched = [str(copy / "src"), str(copy), *os.environ.get("PYTHONPATH", "").split(os.pathsep)]
        os.environ.update(PYTHONPATH=os.pathsep.join(searched), PYTEST_DISABLE_PLUGIN_AUTOLOAD="1")
        try:
            with contextlib.chdir(copy):
                yield
        finally:
            os.environ.clear()
            os.environ.update(before)


def _modules(package: str) -> list[Path]:
    place = Path("src/casewright", package)
    return sorted(place.rglob("*.py")) if place.is_dir() else [place.with_suffix(".py")]


def _every_covering() -> list[Covering]:
    found = []
    for place in SETTINGS["tests"]:
        for test_file in sorted(Path().glob(place)):
            command = [sys.executable, "-m", "benchmarks.mutation.covering", str(test_file), "covering.json"]
            if subprocess.run(command, stdout=subprocess.DEVNULL, check=False).returncode:
                raise SystemExit(f"{test_file} fails with no fault planted; mend it first")
            found += covering_of(Path("covering.json"))
    return found


def _tried(fault: MutationSpec, package: str, tests: list[Covering]) -> Tried:
    names = _those_that_could_notice(fault, package, tests)
    arguments = Path("arguments.txt")
    arguments.write_text("\n".join(names))
    command = shlex.join([sys.executable, "-m", "pytest", "-x", *PLAIN, f"@{arguments}"])
    result = mutate_and_test([fault], command, SETTINGS["timeout"])
    output = result.output or ""
    if result.is_killed and output != "timeout" and not TEST_FAILED.search(output):
        raise RuntimeError(f"pytest ended badly, but no test failed: {output}")
    return Tried(fault, result.is_killed, result.diff or "")


def _those_that_could_notice(fault: MutationSpec, package: str, tests: list[Covering]) -> list[str]:
    """The tests to run, most telling first, as many as the time allowed for one fault holds.

    First those that run the very line, then those that run any line of its module, then the others: a line
    may have run when the module was imported, or once for a value that several tests share. Of each, the
    package's own first, and the quick before the slow.
    """
    module = fault.module_path
    own = f"tests/{package.split('/')[0]}/"
    first, last = fault.start_pos[0], fault.end_pos[0]

    def least_telling(test: Covering) -> tuple[bool, bool, bool, float]:
        elsewhere = str(module) not in test.lines
        return not test.runs(module, first, last), elsewhere, not test.name.startswith(own), test.seconds

    chosen, left = [], SETTINGS["seconds_a_fault"]
    for test in sorted(tests, key=least_telling):
        if test.seconds <= left:
            chosen.append(test.name)
            left -= test.seconds
    return chosen


def _table(tried: dict[str, list[Tried]], seconds: int) -> list[str]:
    every = [one for of_package in tried.values() for one in of_package]
    score = _score(every)
    floor = SETTINGS["floor"]
    return [
        "| package | faults planted | noticed | unseen | score |",
        "|---|---|---|---|---|",
        *(_row(package, of_package) for package, of_package in tried.items()),
        _row("all", every),
        "",
        f"Floor {floor}%: {'kept' if score >= floor else BELOW}. Seed {SETTINGS['seed']}, one process, "
        f"{seconds} s by the clock.",
        "",
        "Unseen:",
        "",
        "```diff",
        *(line for one in every if not one.noticed for line in _shown(one)),
        "```",
    ]


def _row(name: str, tried: list[Tried]) -> str:
    noticed = sum(one.noticed for one in tried)
    return f"| {name} | {len(tried)} | {noticed} | {len(tried) - noticed} | {_score(tried):.1f}% |"


def _score(tried: list[Tried]) -> float:
    return 100 * sum(one.noticed for one in tried) / max(1, len(tried))


def _shown(one: Tried) -> list[str]:
    place = f"{one.fault.module_path.relative_to('src/casewright')}:{one.fault.start_pos[0]}"
    lines = one.diff.splitlines()
    changed = [line for line in lines if line[:1] in ("-", "+") and line[:3] not in ("---", "+++")]
    return [f"@@ {place} {one.fault.operator_name.removeprefix('core/')}", *changed]
