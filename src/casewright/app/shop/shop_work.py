"""The work handed out as a tablet keeps it: batches, steps, and what can be measured."""

from __future__ import annotations

import gzip
import json
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from fractions import Fraction
from functools import lru_cache
from hashlib import sha256
from typing import Any

from ...casework.extents import case_diagonal
from ...casework.size_names import read_name
from ...shop.measuring_tools import MeasuringTool
from ...workshop.assembly.joining import dry_fit_measures
from ...workshop.changed_cuts import ChangedCut, told_with_changes
from ...workshop.order.step_times import Effort, Pace, learn_pace, timed_work
from ..jobs.worked_job import PlannedJob
from ..learning.dry_fit_taps import joints_of_case
from .shop_floor import BenchRecord
from .tablet_order import tablet_order
from .tap_question import question_of

Factors = tuple[tuple[Effort, float], ...]


def pace_of(heard: BenchRecord) -> Pace:
    """The shop's own figures, as far as it has timed its steps."""
    if heard.floor is None or heard.state is None:
        return Pace()
    return learn_pace(timed_work(heard.state.minutes, heard.floor.ordered.batches))


def work_json(heard: BenchRecord) -> dict[str, Any]:
    """The work as a tablet keeps it: batches with their steps, and what can be measured of each part."""
    return _work(heard.floor, _factors(heard), heard.issue, heard.changes)


def _factors(heard: BenchRecord) -> Factors:
    return tuple(sorted(pace_of(heard).factors.items(), key=lambda factor: factor[0].value))


def _work(
    floor: PlannedJob | None, factors: Factors, issue: str, changes: tuple[ChangedCut, ...]
) -> dict[str, Any]:
    if floor is None:
        return {"batches": [], "parts": {}, "marks": [], "statement": "", "unit": "", "work": ""}
    return {**_work_at(floor, factors, changes), "work": tablet_order(floor).name(issue)}


@dataclass(frozen=True)
class SentWork:
    """The work as it is sent: as JSON, the same packed by gzip, and a `tag` that is the same for no other."""

    text: bytes
    packed: bytes
    tag: str


def sent_work(heard: BenchRecord) -> SentWork:
    """The work, to be sent to a tablet that does not keep it yet."""
    return _sent(heard.floor, _factors(heard), heard.issue, heard.changes)


@lru_cache(maxsize=4)
def _sent(
    floor: PlannedJob | None, factors: Factors, issue: str, changes: tuple[ChangedCut, ...]
) -> SentWork:
    text = json.dumps(_work(floor, factors, issue, changes), separators=(",", ":")).encode("ascii")
    return SentWork(text, gzip.compress(text, mtime=0), sha256(text).hexdigest()[:16])


@lru_cache(maxsize=4)
def _work_at(floor: PlannedJob, factors: Factors, changes: tuple[ChangedCut, ...]) -> dict[str, Any]:
    """The same for every tablet that asks, until the shop's pace changes or work is handed out anew."""
    told = told_with_changes(floor.told_at(Pace(dict(factors))), floor.work, changes)
    batches = [asdict(batch) for batch in told]
    for batch, ordered in zip(batches, floor.ordered.batches, strict=True):
        question = question_of(floor, ordered)
        batch["question"] = asdict(question) if question else None
        batch["fence"] = None if batch["fence"] is None else str(batch["fence"])
        for caution in batch["cautions"]:
            caution["hazard"] = caution["hazard"].value
    features: dict[str, list[str]] = defaultdict(list)
    for name in floor.project.sizes.ledger:
        if (read := read_name(name)).feature:
            features[read.owner].append(name)
    return {
        "batches": batches,
        "parts": {mark: _part_json(floor, mark, features[mark]) for mark in floor.project.parts},
        "marks": list(tablet_order(floor).marks),
        "cases": {case: _case_json(floor, case) for case in floor.project.cases},
        "statement": floor.ordered.statement(),
        "unit": floor.project.job.unit.value,
        "tools": [tool.value for tool in MeasuringTool],
        "job": floor.project.job.name,
    }


def _part_json(floor: PlannedJob, mark: str, features: Sequence[str]) -> dict[str, Any]:
    project = floor.project
    part = project.parts[mark]
    ledger = project.sizes.ledger
    names = [*(size.name for size in (part.length, part.width, part.thickness)), *features]
    return {
        "what": f"{part.role.value}, {project.job.sheets[part.material].name}",
        "sizes": [
            _size_json(floor, name, ledger[name].words.removeprefix(f"{mark} "), project.sizes.of(name))
            for name in names
        ],
    }


def _case_json(floor: PlannedJob, case: str) -> dict[str, Any]:
    """What is measured of a whole case, at its dry fit and when it is closed, and what joints it has."""
    project = floor.project
    square = case_diagonal(project, project.cases[case])
    sizes = [_size_json(floor, m.name, m.words, m.expected) for m in dry_fit_measures(project, case)]
    for name, words in project.cases[case].diagonals:
        sizes.append(_size_json(floor, name, words, square))
    what = f"{project.cases[case].spec.kind.value} case"
    return {"what": what, "sizes": sizes, "joints": joints_of_case(floor, case)}


def _size_json(floor: PlannedJob, name: str, words: str, value: Fraction) -> dict[str, str]:
    return {"name": name, "words": words, "text": floor.project.printed(value)}
