"""A kernel compiled from other sources is refused in words, not called."""

from __future__ import annotations

from pathlib import Path
from shutil import copytree

import pytest

from casewright.planner.engine import kernel_binding as native
from casewright.planner.engine.fingerprint import fingerprint


def test_the_installed_kernel_is_of_these_sources() -> None:
    assert native.kernel() is native.kernel()


def test_a_changed_source_is_noticed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    here = Path(native.__file__)
    folder = copytree(here.with_name("kernel"), tmp_path / "kernel")
    unchanged = fingerprint(folder)
    assert unchanged == fingerprint(here.with_name("kernel"))
    source = folder / "ruin.c"
    source.write_text(source.read_text() + "\n")
    assert fingerprint(folder) != unchanged
    monkeypatch.setattr(native, "fingerprint", lambda folder: unchanged + 1)
    with pytest.raises(RuntimeError, match="older than its sources"):
        native.kernel.__wrapped__()
