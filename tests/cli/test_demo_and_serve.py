"""The demo writes a finished example's packet and opens it; the shop's file is served until stopped."""

from __future__ import annotations

import re
import signal
import socket
import ssl
import subprocess
import sys
from functools import partial
from importlib import import_module
from itertools import takewhile
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest

from casewright.app.choices import FORMATS
from casewright.app.demo_job import put_in
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.cli.main import main
from casewright.web.server import listen
from casewright.web.shop_network import addresses_here

Capture = pytest.CaptureFixture[str]


def test_the_demo_without_pages_writes_every_format_and_ends(tmp_path: Path, capsys: Capture) -> None:
    folder = tmp_path / "bench"
    assert main(["demo", "--no-serve", "--out", str(folder)]) == 0
    kinds = {path.suffix.removeprefix(".") for path in folder.rglob("*") if path.is_file()}
    assert kinds == {*FORMATS, "toml"}
    assert "no plan of this kind uses fewer" in capsys.readouterr().out
    assert (folder / "packet.pdf").read_bytes().startswith(b"%PDF")


def test_the_demo_ends_well_without_the_step_extra(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.delitem(sys.modules, "casewright.solids.boundary", raising=False)
    monkeypatch.setitem(sys.modules, "OCP.BRepAlgoAPI", None)
    monkeypatch.setattr(import_module("casewright.cli.commands.demo_command"), "FORMATS", ["csv", "step"])
    assert main(["demo", "--no-serve", "--out", str(tmp_path)]) == 0
    said = capsys.readouterr().out.splitlines()
    (left_out,) = (line for line in said if "job.step" in line)
    assert left_out == (
        "job.step was not written: STEP files need a geometry kernel that is not installed: "
        "install casewright with its extra `step`."
    )
    assert not (tmp_path / "job.step").exists() and (tmp_path / "parts.csv").exists()


def test_the_demo_opens_the_example_it_wrote(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    served: list[Any] = []
    monkeypatch.setattr(
        import_module("casewright.cli.commands.serve_command"),
        "serve",
        lambda file, **rest: served.append((file, rest)),
    )
    monkeypatch.setattr(import_module("casewright.cli.commands.demo_command"), "FORMATS", ["csv"])
    words = ["demo", "--example", "ferry-canteen", "--out", str(tmp_path), "--port", "0"]
    assert main(words) == 0 and main([*words, "--no-browser"]) == 0
    (file, first), (_, second) = served
    assert first["path"] == second["path"] == "/jobs/harbour-ferry-crew-canteen"
    assert (first["browser"], second["browser"]) == (True, False)
    (row,) = KeptJobs.open(file).list()
    assert first["path"].endswith(row.id), "the second time shows the job that is there"


def test_an_example_that_was_changed_is_shown_as_changed(tmp_path: Path) -> None:
    file = tmp_path / "shop"
    job = put_in(file)
    saved = KeptJobs.open(file)
    text = saved.take(job).revision.text
    saved.rewrite(job, text.replace("width = 36", "width = 34"), "narrower", 1)
    assert put_in(file) == job and len(saved.list()) == 1


def test_an_example_that_is_none_is_told(tmp_path: Path, capsys: Capture) -> None:
    assert main(["demo", "--example", "boathouse", "--no-serve", "--out", str(tmp_path)]) == 2
    assert "boathouse" in capsys.readouterr().err and not list(tmp_path.iterdir())


def test_it_serves_until_stopped(tmp_path: Path) -> None:
    words = [sys.executable, "-m", "casewright.cli", "serve", str(tmp_path / "shop"), "--port", "0"]
    # A test run in the background of a shell ignores interrupts, and so would the server it starts.
    heeds = partial(signal.signal, signal.SIGINT, signal.SIG_DFL)
    with subprocess.Popen(
        [*words, "--no-browser"], stderr=subprocess.PIPE, text=True, preexec_fn=heeds
    ) as server:
        try:
            assert server.stderr is not None
            first = server.stderr.readline()
            address = re.search(r"http://\S+", first)
            assert address and f"Jobs are kept in {tmp_path / 'shop'}, a new file." in first
            with urlopen(address[0], timeout=60) as answer:
                assert answer.status == 200 and b"<!doctype html>" in answer.read().lower()
        finally:
            server.send_signal(signal.SIGINT)
        said = server.stderr.read()
        assert server.wait(timeout=60) == 130
    assert "Traceback" not in said and "stopped." in said


@pytest.mark.skipif(not addresses_here(), reason="this machine is on no network")
def test_it_serves_paired_devices_too_when_asked_to(tmp_path: Path) -> None:
    words = [sys.executable, "-m", "casewright.cli", "serve", str(tmp_path / "shop"), "--port", "0"]
    heeds = partial(signal.signal, signal.SIGINT, signal.SIG_DFL)
    with subprocess.Popen(
        [*words, "--no-browser", "--network"], stderr=subprocess.PIPE, text=True, preexec_fn=heeds
    ) as server:
        try:
            assert server.stderr is not None
            lines = list(takewhile(lambda line: "Devices are listed" not in line, server.stderr))
            said = re.search(r"opens https://([\d.]+):(\d+) and enters the code (\d{8})\.", lines[-1])
            assert said and said[1] == addresses_here()[0]
            assert sum("█" in line or "▀" in line for line in lines) > 10, "a square code"
            trusting = ssl._create_unverified_context()
            plain = socket.create_connection((said[1], int(said[2])), timeout=60)
            with trusting.wrap_socket(plain) as device:
                device.sendall(f"GET / HTTP/1.1\r\nHost: {said[1]}:{said[2]}\r\n\r\n".encode())
                answer = device.recv(4000).decode()
            assert answer.startswith("HTTP/1.1 303") and "location: /pair?to=%2F" in answer
        finally:
            server.send_signal(signal.SIGINT)
        said_last = server.stderr.read()
        assert server.wait(timeout=60) == 130
    assert said_last == "stopped.\n"


def test_a_port_that_is_taken_is_said_in_one_line() -> None:
    said: list[str] = []
    with listen("127.0.0.1", 0) as first:
        port = first.getsockname()[1]
        with listen("127.0.0.1", port, said.append) as second:
            other = second.getsockname()[1]
    assert other != port
    assert said == [f"Port {port} is taken, perhaps by another casewright; port {other} is used instead."]


@pytest.mark.parametrize("port", ["-1", "65536", "http"])
def test_a_port_that_is_none_is_told(port: str, capsys: Capture) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["serve", "--port", port])
    assert ended.value.code == 2
    assert f"'{port}' is not a port" in capsys.readouterr().err


def test_a_shop_file_that_is_none_is_told(tmp_path: Path, capsys: Capture) -> None:
    (tmp_path / "shop").write_bytes(b"not a shop's file" * 100)
    assert main(["serve", str(tmp_path / "shop"), "--port", "0", "--no-browser"]) == 2
    said = capsys.readouterr().err
    assert said.strip() and "Traceback" not in said and "because of a bug" not in said
