"""Every dependency declares the lowest version that will do, in the form that `make lowest` installs."""

from __future__ import annotations

import tomllib
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def test_each_has_one() -> None:
    spec = spec_from_file_location("lowest_versions", ROOT / "tools" / "lowest_versions.py")
    assert spec and spec.loader
    tool = module_from_spec(spec)
    spec.loader.exec_module(tool)
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert "numpy==2.0" in tool.lowest(project["dependencies"])
    tool.lowest(project["optional-dependencies"]["step"])
    with pytest.raises(ValueError, match="no lowest version"):
        tool.lowest(["numpy"])
    assert all((ROOT / path).exists() for path in tool.TESTS)
