"""The kernel compiles without a warning and runs random instances without undefined behaviour, its assertions
holding."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import casewright.planner.engine as engine

KERNEL = Path(engine.__file__).with_name("kernel")
SOURCES = sorted(str(path) for path in KERNEL.glob("*.c"))
WARNINGS = ["-Wall", "-Wextra", "-Wshadow", "-Wconversion", "-Wno-sign-conversion", "-Werror"]

RUN = """
import ctypes, sys
from casewright.planner.engine import kernel_binding as native
library = ctypes.CDLL(sys.argv[1])
for name, (result, arguments) in native.SIGNATURES.items():
    function = getattr(library, name)
    function.restype, function.argtypes = result, list(arguments)
from casewright.planner.engine import pricing, pricing_tables, ruin_recreate
ruin_recreate.kernel = pricing.kernel = pricing_tables.kernel = lambda: library
from casewright.planner.engine import FirstStage, Instance, LargeObject, MaxIterations, SmallItem
from casewright.planner.engine import solve_instance
for case in range(12):
    items = tuple(
        SmallItem(11 * i * (case + 3) % 47 + 3, 7 * i * (case + 5) % 41 + 4, 1 + i % 3, bool(i % 2))
        for i in range(1, 6 + case)
    )
    bins = (LargeObject(60, 50, None, 7), LargeObject(50, 70, case % 4, 5), LargeObject(90, 45, 1, 0))
    stages = None if case % 2 else 3
    plan = solve_instance(Instance(items, bins, stages, FirstStage(case % 3)), MaxIterations(4000), case)
    assert plan.patterns, case
    with ruin_recreate.RuinRecreate(Instance(items, bins), case) as alone:
        alone.pace(1_000_000)  # a longer history than there is room for
        alone.remember(0.0, 3000)
        alone.learn(plan.patterns[0])
        alone.goal(1)
        alone.run(20_000)
    with ruin_recreate.RuinRecreate(Instance(items, bins), case, restricted=True) as restricted:
        restricted.remember(0.0, 3000)
        restricted.goal(1)
        restricted.run(20_000)
small = Instance((SmallItem(3, 4, 120, True), SmallItem(5, 2, 90, False)), (LargeObject(60, 50),))
with ruin_recreate.RuinRecreate(small, 1) as crowded:  # layouts of more nodes than a word has bits
    crowded.goal(1)
    crowded.run(3000)
print("done")
"""


@pytest.mark.skipif(sys.platform == "win32", reason="the trapping sanitizer is tried on Linux and macOS")
def test_no_warning_and_no_undefined_behaviour(tmp_path: Path) -> None:
    pytest.importorskip("ziglang")
    library = tmp_path / "kernel.so"
    build = [sys.executable, "-m", "ziglang", "cc", "-O1", "-g", "-shared", "-fPIC", *WARNINGS]
    trap = ["-fsanitize=undefined", "-fsanitize-trap=undefined"]
    compiled = subprocess.run(
        [*build, *trap, "-o", str(library), *SOURCES], capture_output=True, text=True, check=False
    )
    assert compiled.returncode == 0, compiled.stderr
    ran = subprocess.run(
        [sys.executable, "-c", RUN, str(library)], capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stderr  # a trap ends the process by a signal
    assert ran.stdout.strip() == "done"
