"""The example jobs as files that a test may write beside: a plan is kept beside its job file."""

from __future__ import annotations

import shutil
from pathlib import Path
from tempfile import TemporaryDirectory

EXAMPLES = Path(__file__).parents[1] / "examples"

_folder = TemporaryDirectory(prefix="casewright-examples-")  # one for each process, gone when it ends


def example_file(name: str) -> str:
    """The path of a copy of an example, shared by the tests of this process."""
    copy = Path(_folder.name) / f"{name}.toml"
    if not copy.exists():
        shutil.copyfile(EXAMPLES / copy.name, copy)
    return str(copy)
