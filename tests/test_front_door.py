"""The library's front door: every name it promises is there, and the page about it runs."""

from __future__ import annotations

import doctest
import subprocess
import sys
from pathlib import Path

import pytest

import casewright

ROOT = Path(__file__).parents[1]


def test_every_promised_name_is_there_and_documented() -> None:
    for name in casewright.__all__:
        value = getattr(casewright, name)
        assert value.__name__ == name and value.__doc__, name
    assert set(casewright.__all__) <= set(dir(casewright))
    with pytest.raises(AttributeError, match="casewright has no saw"):
        _ = casewright.saw


def test_importing_the_package_loads_nothing_else() -> None:
    script = "import casewright, sys; print(*(name for name in sys.modules if name.startswith('casewright')))"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.split() == ["casewright"]


def test_the_page_about_python_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    result = doctest.testfile(str(ROOT / "docs" / "python.md"), module_relative=False, encoding="utf-8")
    assert result.attempted >= 15 and result.failed == 0
