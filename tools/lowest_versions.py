"""Run tests with the lowest versions that `pyproject.toml` declares, so that no bound promises too much.

`python tools/lowest_versions.py [FOLDER] [TESTS ...]` makes an environment in FOLDER (`.lowest`) and installs
exactly the lowest version of each dependency and of each extra but `dev`, and with them what the tests need,
in the versions of `requirements.lock`. Then it runs TESTS, or the chosen ones below, and gives their code.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from venv import EnvBuilder

ROOT = Path(__file__).parents[1]

# What every dependency is used for, and the pages that hang on the web's libraries.
TESTS = [
    "tests/lengths",
    "tests/sizes",
    "tests/casework",
    "tests/jobfile",
    "tests/shop",
    "tests/record",
    "tests/store",
    "tests/solids",
    "tests/drawings",
    "tests/packet",
    "tests/web",
    "tests/test_libraries.py",
    "tests/test_solver.py",
    "tests/planner/test_verify.py",
]
FOR_TESTS = [
    "pytest",
    "hypothesis",
    "httpx",
    "playwright",
    "pypdf",
    "pytest-regressions",
    "beautifulsoup4",
    "jsonschema",
    "schemathesis",
]


def lowest(requirements: list[str]) -> list[str]:
    """Each requirement pinned to its lower bound. ValueError for one that has none."""
    pinned = []
    for requirement in requirements:
        found = re.fullmatch(r"([\w.-]+)>=([\w.]+)", requirement)
        if not found:
            raise ValueError(f"{requirement} declares no lowest version")
        pinned.append(f"{found[1]}=={found[2]}")
    return pinned


def python_in(folder: Path) -> Path:
    """The interpreter of the environment in a folder."""
    return Path(folder, "Scripts" if os.name == "nt" else "bin", "python").absolute()


def main() -> int:
    """Install and run; gives pytest's exit code."""
    folder, *tests = sys.argv[1:] or [".lowest"]
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = [
        one for name, extra in project["optional-dependencies"].items() if name != "dev" for one in extra
    ]
    locked = dict(line.split("==") for line in (ROOT / "requirements.lock").read_text().split())
    wanted = [*lowest(project["dependencies"] + extras), *(f"{name}=={locked[name]}" for name in FOR_TESTS)]
    EnvBuilder(with_pip=True, clear=True).create(folder)
    python = str(python_in(Path(folder)))
    run = [python, "-m", "pip", "install", "--quiet"]
    for command in ([*run, *wanted], [*run, "--no-deps", "--editable", str(ROOT)]):
        if code := subprocess.run(command, cwd=ROOT).returncode:
            return code
    # What an old library warns of, of itself or of a newer Python, is not for us to mend.
    chosen = ["-m", "not browser and not wheel", "-W", "default", *(tests or TESTS)]
    return subprocess.run(
        [python, "-m", "pytest", "-q", "-p", "no:cacheprovider", *chosen], cwd=ROOT
    ).returncode


if __name__ == "__main__":
    sys.exit(main())
