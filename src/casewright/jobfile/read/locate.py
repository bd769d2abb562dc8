"""Where in a job file a finding about the job belongs."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import fields, replace
from types import MappingProxyType
from typing import Any

from ...casework.job import Construction
from ...findings import Finding
from .key_places import Path, nearest, places
from .toml_text import read_text

_MAKING = {entry.name for entry in fields(Construction)}
_OF_A_RUN = {"filler": "left_filler"}
_OF_A_CASE = {"materials": "made_of"}
_STEPS = re.compile(r"[^.\[\]]+|\[\d+\]")


def located(findings: Iterable[Finding], text: str) -> tuple[Finding, ...]:
    """The findings, each with the line and column of what it is about, or of the table around it.

    `text` is the job file the job was read from; findings that have a line keep it.
    """
    read = read_text(text)
    found = places(read.sound)
    given = []
    for finding in findings:
        if finding.line is None:
            at = nearest(found, _path(finding.place, read.values))
            finding = replace(finding, line=at.line, column=at.column)
        given.append(finding)
    return tuple(given)


def _path(place: str, values: Mapping[str, Any]) -> Path:
    """The path of the entry a finding's place names; as much of it as can be told."""
    runs = values.get("runs", [])
    for index, run in enumerate(runs):
        name = f"runs.{run.get('name')}"
        if place == name or place.startswith(f"{name}."):
            return ("runs", index, *_steps(place.removeprefix(name), _OF_A_RUN))
        for number, case in enumerate(run.get("cases", [])):
            mark = str(case.get("mark"))
            rest = place.removeprefix("cases.")
            if re.match(rf"{re.escape(mark)}(?![A-Za-z0-9])", rest):
                return ("runs", index, "cases", number, *_steps(rest.removeprefix(mark), _OF_A_CASE))
    return _steps(place)


def _steps(words: str, called: Mapping[str, str] = MappingProxyType({})) -> Path:
    """Dotted words as a path; `called` gives the names a job file has for some of them."""
    steps: list[str | int] = []
    for word in _STEPS.findall(words):
        if word.startswith("["):
            steps.append(int(word[1:-1]))
        elif word in _MAKING:
            steps += ["construction", word]
        else:
            steps.append(called.get(word, word))
    return tuple(steps)
