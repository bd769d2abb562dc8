"""The line of the job file that a finding about the job refers to."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from ...casework.inputs import in_construction
from ...findings import Finding
from ..shape import in_shape
from .key_places import Path, find_places, nearest_place
from .toml_text import read_text

_STEPS = re.compile(r"[^.\[\]]+|\[\d+\]")


def located(findings: Iterable[Finding], text: str) -> tuple[Finding, ...]:
    """The findings, each with the line and column of the entry at fault, or of the table around it.

    `text` is the job file the job was read from; findings that have a line keep it.
    """
    read = read_text(text)
    found = find_places(read.sound)
    owners = sorted(_owners(in_shape(read.values)), key=lambda owner: -len(owner[0]))
    placed = []
    for finding in findings:
        if finding.line is None:
            at = nearest_place(found, _path(finding.place, owners))
            finding = replace(finding, line=at.line, column=at.column)
        placed.append(finding)
    return tuple(placed)


def _path(place: str, owners: Iterable[tuple[str, Path]]) -> Path:
    """The path of the entry that a finding's place names, as far as it can be followed. The `owners` with
    the longest names come first."""
    for owner, path in owners:
        for start in (owner, f"cases.{owner}"):
            # What follows a mark is a part's short name or a key: never more of the mark.
            if place.startswith(start) and not place[len(start) : len(start) + 1].isalnum():
                return (*path, *_steps(place.removeprefix(start)))
    return _steps(place)


def _owners(values: Mapping[str, Any]) -> Iterator[tuple[str, Path]]:
    """The names findings use for the runs and cases of a job file, each with the path of its table."""
    for index, run in enumerate(values.get("runs", [])):
        yield f"runs.{run.get('name')}", ("runs", index)
        for number, case in enumerate(run.get("cases", [])):
            yield str(case.get("mark")), ("runs", index, "cases", number)


def _steps(words: str) -> Path:
    """Dotted words as a path; sizes of the construction stand in a table of their own."""
    steps: list[str | int] = []
    for word in _STEPS.findall(words):
        steps += [int(word[1:-1])] if word.startswith("[") else in_construction(word)
    return tuple(steps)
