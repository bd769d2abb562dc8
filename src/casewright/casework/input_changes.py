"""Change one input of a job by its name in the ledger, and get the job the maker would have written.

`Project.given` tries a change on sizes already worked out; this makes it lasting, so that the
changed job can be drawn up from nothing.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

from .job import CaseSpec, Construction, Filler, Job, Run

CONSTRUCTION = frozenset(field.name for field in fields(Construction) if field.type == "Fraction")

_RUN = re.compile(r"run(\d+)\.(opening|gap|lift|left_filler|right_filler)")
_SCRIBE = re.compile(r"(.+)-F([LR])\.scribe")
_BAY = re.compile(r"(.+)\.bay(\d+)")
_BELOW = re.compile(r"(.+)\.below(\d)(\d)")


def with_input(job: Job, name: str, value: Fraction) -> Job:
    """`job` with the input called `name` set to `value` inches.

    Raises KeyError when `name` is not an input of the job but a size that follows from others.
    """
    stem, _, last = name.rpartition(".")
    if stem in job.sheets and last == "thickness":
        sheets = {**job.sheets, stem: replace(job.sheets[stem], readings=(value,))}
        return replace(job, sheets=sheets)
    if stem == "job" and last in CONSTRUCTION:
        return _construction(job, last, value)
    if found := _RUN.fullmatch(name):
        return _run(job, int(found[1]), found[2], value)
    if found := _SCRIBE.fullmatch(name):
        return _scribe(job, found[1], found[2], value)
    if found := _BAY.fullmatch(name):
        mark, bay = found[1], int(found[2])
        return _case(job, mark, lambda spec: _bay(spec, bay, value))
    if found := _BELOW.fullmatch(name):
        mark, bay, shelf = found[1], int(found[2]), int(found[3])
        return _case(job, mark, lambda spec: _shelf(spec, bay, shelf, value))
    if last in ("width", "height", "depth"):
        return _case(job, stem, lambda spec: _spec(spec, last, value))
    if last in CONSTRUCTION:
        return _case(job, stem, lambda spec: _own(spec, last, value))
    raise KeyError(name)


def _construction(job: Job, field: str, value: Fraction) -> Job:
    def case(spec: CaseSpec) -> CaseSpec:
        if field in spec.chosen:
            return spec
        return replace(spec, construction=_with(spec.construction, field, value))

    runs = tuple(replace(run, cases=tuple(case(spec) for spec in run.cases)) for run in job.runs)
    return replace(job, construction=_with(job.construction, field, value), runs=runs)


def _with(made: Construction, field: str, value: Fraction) -> Construction:
    changed: dict[str, Any] = {field: value}
    return replace(made, **changed)


def _run(job: Job, number: int, field: str, value: Fraction) -> Job:
    def change(run: Run) -> Run:
        if field == "opening":
            return replace(run, opening=value)
        if field == "gap":
            return replace(run, gap=value)
        if field == "lift":
            return replace(run, lift=value)
        if field == "left_filler" and run.left:
            return replace(run, left=replace(run.left, width=value))
        if field == "right_filler" and run.right:
            return replace(run, right=replace(run.right, width=value))
        raise KeyError(f"run{number}.{field}")

    if not 1 <= number <= len(job.runs):
        raise KeyError(f"run{number}.{field}")
    runs = tuple(change(run) if place == number else run for place, run in enumerate(job.runs, 1))
    return replace(job, runs=runs)


def _scribe(job: Job, mark: str, side: str, value: Fraction) -> Job:
    def scribed(filler: Filler | None) -> Filler:
        if filler is None:
            raise KeyError(f"{mark}-F{side}.scribe")
        return replace(filler, scribe=value)

    for place, run in enumerate(job.runs):
        if side == "L" and run.cases and run.cases[0].mark == mark:
            changed = replace(run, left=scribed(run.left))
        elif side == "R" and run.cases and run.cases[-1].mark == mark:
            changed = replace(run, right=scribed(run.right))
        else:
            continue
        return replace(job, runs=(*job.runs[:place], changed, *job.runs[place + 1 :]))
    raise KeyError(f"{mark}-F{side}.scribe")


def _case(job: Job, mark: str, change: Callable[[CaseSpec], CaseSpec]) -> Job:
    if not any(spec.mark == mark for run in job.runs for spec in run.cases):
        raise KeyError(mark)
    runs = tuple(
        replace(run, cases=tuple(change(spec) if spec.mark == mark else spec for spec in run.cases))
        for run in job.runs
    )
    return replace(job, runs=runs)


def _spec(spec: CaseSpec, field: str, value: Fraction) -> CaseSpec:
    if field == "width":
        return replace(spec, width=value)
    return replace(spec, height=value) if field == "height" else replace(spec, depth=value)


def _own(spec: CaseSpec, field: str, value: Fraction) -> CaseSpec:
    return replace(spec, construction=_with(spec.construction, field, value), chosen=spec.chosen | {field})


def _bay(spec: CaseSpec, number: int, width: Fraction) -> CaseSpec:
    if not 1 <= number <= len(spec.bays):
        raise KeyError(f"{spec.mark}.bay{number}")
    bays = tuple(
        replace(bay, width=width) if place == number else bay for place, bay in enumerate(spec.bays, 1)
    )
    return replace(spec, bays=bays)


def _shelf(spec: CaseSpec, bay: int, number: int, value: Fraction) -> CaseSpec:
    if not 1 <= bay <= len(spec.bays) or not 1 <= number <= len(spec.bays[bay - 1].fixed):
        raise KeyError(f"{spec.mark}.below{bay}{number}")

    def moved(fixed: tuple[Fraction, ...]) -> tuple[Fraction, ...]:
        return tuple(value if place == number else below for place, below in enumerate(fixed, 1))

    bays = tuple(
        replace(one, fixed=moved(one.fixed)) if place == bay else one
        for place, one in enumerate(spec.bays, 1)
    )
    return replace(spec, bays=bays)
