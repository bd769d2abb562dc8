"""Every finding of the command line itself, as it prints them for programs."""

from __future__ import annotations

import io
import json
from pathlib import Path
from types import SimpleNamespace

import pytest

from casewright.cli.commands.breakdown_command import _read
from casewright.cli.job_input import read_job_text
from casewright.cli.main import print_refusal
from casewright.errors import CasewrightError, JobError
from casewright.findings import Finding, Weight
from finding_rows import Provoke, Row, check, told


def test_a_file_that_cannot_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    text, noise = tmp_path / "problem.json", tmp_path / "noise.json"
    text.write_text("{}")
    noise.write_bytes(b"\xff\xfe\x00")

    def read(name: str) -> Provoke:
        return lambda: told(lambda: _read(name))

    def piped(held: bytes) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            monkeypatch.setattr("sys.stdin", SimpleNamespace(buffer=io.BytesIO(held)))
            return told(lambda: read_job_text("-"))

        return findings

    nowhere = str(tmp_path / "nowhere.json")
    for row in (
        Row("file", nowhere, "cannot be read", "", read(nowhere), read(str(text))),
        Row("file", str(noise), "UTF-8", "", read(str(noise)), read(str(text))),
        Row("file", "a\0b", "not a valid file name", "", read("a\0b"), read(str(text))),
        Row("file", "standard input", "UTF-8", "Send UTF-8 text", piped(b"\xff"), piped("ÿ".encode())),
    ):
        check(row)


def test_a_refusal_without_findings_is_one_all_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    def printed(fault: CasewrightError) -> Provoke:
        def findings() -> list[Finding]:
            assert print_refusal(fault, as_json=True) == 2
            listed = json.loads(capsys.readouterr().out)["findings"]
            return [Finding(**{**one, "weight": Weight(one["weight"])}) for one in listed]

        return findings

    own = JobError((Finding("no-bays", "cases.B1", "the case has no bay.", "Give it one."),))
    check(
        Row(
            "refused",
            "input",
            "the attic is full",
            "",
            printed(CasewrightError("the attic is full.")),
            printed(own),
        )
    )
