"""A wheel built here, installed in an empty environment, runs the demo and serves its pages.

The wheel is built from the source distribution, out of the project's folder, so that nothing which
only lies there can get into it. Needs the package registries.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
import venv
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx
import pytest

ROOT = Path(__file__).parents[2]
BUILT_FROM = (
    "pyproject.toml", "setup.py", "MANIFEST.in", "README.md", "LICENSE", "package.json", "package-lock.json",
    ".npmrc",
)  # fmt: skip
LIBRARIES = {
    "htmx.min.js",
    "three.core.min.js",
    "three.module.min.js",
    "controls/OrbitControls.js",
    "loaders/GLTFLoader.js",
    "utils/BufferGeometryUtils.js",
    "utils/SkeletonUtils.js",
}
BIN, EXE = ("Scripts", ".exe") if sys.platform == "win32" else ("bin", "")
ALONE = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}


def run(*words: str | Path, folder: Path) -> str:
    """Run a command to a good end and give what it printed."""
    done = subprocess.run(words, cwd=folder, env=ALONE, capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{words}\n{done.stdout}\n{done.stderr}"
    return done.stdout


def build_wheel(folder: Path) -> Path:
    folder.mkdir()
    for name in BUILT_FROM:
        shutil.copyfile(ROOT / name, folder / name)
    built = shutil.ignore_patterns("_kernel.*", "vendor", "*.egg-info", "__pycache__")
    for name in ("src", "tools"):
        shutil.copytree(ROOT / name, folder / name, ignore=built)
    planted = folder / "src/casewright/web/static/vendor"  # such as a development folder has
    planted.mkdir()
    (planted / "stale.js").write_text("alert('stale')")
    run(sys.executable, "-m", "build", "--no-isolation", "--outdir", folder / "dist", ".", folder=folder)
    (made,) = (folder / "dist").glob("*.whl")
    (source,) = (folder / "dist").glob("*.tar.gz")
    names = run(sys.executable, "-m", "tarfile", "--list", source, folder=folder)
    assert "kernel/search.c" in names and "static/vendor" not in names
    return made


def install(wheel: Path, folder: Path) -> Path:
    """Install the wheel and what it asks for, and nothing else, into a folder; gives its commands' folder."""
    folder.mkdir()
    venv.create(folder / "env", with_pip=True)
    commands = folder / "env" / BIN
    run(
        commands / f"python{EXE}", "-m", "pip", "install", "--quiet", "--no-compile",
        "--constraint", ROOT / "requirements.lock", wheel, folder=folder,
    )  # fmt: skip
    return commands


def look_inside(wheel: Path) -> None:
    """The libraries, their licences and the examples are there, and nothing of the tests."""
    assert re.fullmatch(r"casewright-[\d.]+-py3-none-(manylinux|linux|macosx|win)_\w+\.whl", wheel.name)
    with zipfile.ZipFile(wheel) as archive:
        names = set(archive.namelist())
        vendor = "casewright/web/static/vendor/"
        held = {name.removeprefix(vendor) for name in names if name.startswith(vendor)}
        assert held == {*LIBRARIES, "LICENSE-three.txt", "LICENSE-htmx.txt"}
        assert b"Permission is hereby granted" in archive.read(f"{vendor}LICENSE-three.txt")
        assert b"Zero-Clause BSD" in archive.read(f"{vendor}LICENSE-htmx.txt")
    examples = {path.name for path in (ROOT / "src/casewright/examples").glob("*.toml")}
    assert examples and {f"casewright/examples/{name}" for name in examples} <= names
    assert any(name.endswith("dist-info/licenses/LICENSE") for name in names)
    assert not any("node_modules" in name or name.startswith("tests/") for name in names)


def run_the_demo(command: Path, folder: Path) -> None:
    said = run(command, "demo", "--no-serve", "--out", "packet", folder=folder)
    assert (folder / "packet/packet.pdf").read_bytes().startswith(b"%PDF")
    assert said.count("job.step was not written") == 1


@contextmanager
def served(command: Path, folder: Path) -> Iterator[str]:
    words: list[str | Path] = [command, "serve", "shop", "--port", "0", "--no-browser"]
    with subprocess.Popen(words, cwd=folder, env=ALONE, stderr=subprocess.PIPE, text=True) as server:
        try:
            assert server.stderr is not None
            address = re.search(r"http://[^/\s]+", server.stderr.readline())
            assert address
            yield address[0]
        finally:
            server.send_signal(signal.SIGTERM if sys.platform == "win32" else signal.SIGINT)


def ask_for_the_pages(command: Path, folder: Path) -> None:
    with (
        served(command, folder) as address,
        httpx.Client(base_url=address, timeout=60, follow_redirects=True) as client,
    ):
        begun = client.post("/jobs", data={"start": "pottery-studio"})
        assert begun.status_code == 200 and begun.url.path.startswith("/jobs/")
        pages = [begun.url.path + page for page in ("", "/parts", "/fit", "/round", "/text", "/papers")]
        asked = {f"/static/vendor/{name}" for name in LIBRARIES}
        for page in ["/", *pages]:
            answer = client.get(page)
            assert answer.status_code == 200 and "<!doctype html>" in answer.text.lower(), page
            asked |= set(re.findall(r'(?:src|href)="(/static/[^"]+)"', answer.text))
        assert "/static/vendor/htmx.min.js" in asked and len(asked) > 2 * len(LIBRARIES)
        for path in sorted(asked):
            answer = client.get(path)
            assert answer.status_code == 200 and len(answer.content) > 200, path
        assert client.get(f"{begun.url.path}/model.glb").content.startswith(b"glTF")


@pytest.mark.wheel
def test_a_wheel_in_an_empty_environment_runs_the_demo_and_serves_its_pages(tmp_path: Path) -> None:
    """One test: building and installing take long, and tests may run in several processes."""
    wheel = build_wheel(tmp_path / "source")
    look_inside(wheel)
    command = install(wheel, tmp_path / "empty") / f"casewright{EXE}"
    run_the_demo(command, tmp_path)
    ask_for_the_pages(command, tmp_path)
