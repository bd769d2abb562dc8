"""The changelog's fragments are named as the tool that gathers them wants, and can be gathered."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
CHANGES = ROOT / "changes"


def test_every_fragment_is_in_the_next_changelog() -> None:
    words = ["towncrier", "build", "--draft", "--version", "9.9", "--date", "2030-01-01"]
    command = [sys.executable, "-m", *words]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    gathered = " ".join(done.stdout.split())
    assert "## 9.9 (2030-01-01)" in gathered
    for path in CHANGES.iterdir():
        if path.name not in ("README.md", ".gitignore"):
            text = " ".join(path.read_text(encoding="utf-8").split())
            assert text and text in gathered, f"{path.name} is in no section; see changes/README.md"
