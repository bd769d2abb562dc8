"""Every dependency declares the lowest version that will do, in the form that `make lowest` installs."""

from __future__ import annotations

import ast
import sys
import tomllib
from importlib.metadata import packages_distributions
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from typing import Any
from venv import EnvBuilder

import pytest

ROOT = Path(__file__).parents[2]
WITH_OTHERS = {"starlette", "anyio"}  # with fastapi
OURS = {"casewright", *(path.stem for path in (ROOT / "tests").iterdir())}


@pytest.fixture(scope="module")
def tool() -> Any:
    spec = spec_from_file_location("lowest_versions", ROOT / "tools" / "lowest_versions.py")
    assert spec and spec.loader
    found = module_from_spec(spec)
    spec.loader.exec_module(found)
    return found


@pytest.fixture(scope="module")
def project() -> Any:
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def test_each_has_one(tool: Any, project: Any) -> None:
    assert "numpy==2.0" in tool.lowest(project["dependencies"])
    tool.lowest(project["optional-dependencies"]["step"])
    with pytest.raises(ValueError, match="no lowest version"):
        tool.lowest(["numpy"])
    assert all((ROOT / path).exists() for path in tool.TESTS)


def test_what_the_chosen_tests_import_is_installed(tool: Any, project: Any) -> None:
    declared = [*project["dependencies"], *project["optional-dependencies"]["step"]]
    there = {one.partition(">=")[0].lower() for one in (*declared, *tool.FOR_TESTS)} | WITH_OTHERS
    known = packages_distributions()
    missing = {
        f"{path.name}: {name}"
        for path in chosen(tool)
        for name in imported(path)
        if not {one.lower() for one in known.get(name, [name])} & there
    }
    assert missing == set()


def test_the_interpreter_is_the_environments_own(tool: Any, tmp_path: Path) -> None:
    EnvBuilder().create(tmp_path / "env")
    assert tool.python_in(tmp_path / "env").is_file()


def chosen(tool: Any) -> list[Path]:
    roots = [ROOT / path for path in tool.TESTS]
    return [one for root in roots for one in ([root] if root.is_file() else root.rglob("*.py"))]


def imported(path: Path) -> set[str]:
    """The top packages that a test imports, without Python's own and the project's."""
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {one.name.partition(".")[0] for one in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names.add(node.module.partition(".")[0])
    local = {one.stem for one in path.parent.iterdir()}
    return names - set(sys.stdlib_module_names) - OURS - local
