"""What holds for an entry while the maker leaves it out: the value the job was drawn up with."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from enum import Enum
from fractions import Fraction
from typing import Any

from ..casework.job import Job
from ..lengths.length import Mark, show
from .document import Path
from .form import MANY, Field, Kind
from .worked import WorkedJob

NOT_ON_THE_RULE = ("weight", "shims")


def with_usual(fields: Iterable[Field], worked: WorkedJob) -> tuple[Field, ...]:
    """The fields, each with what holds while it is empty. Without a job there is nothing to say."""
    if worked.job is None:
        return tuple(fields)
    return tuple(replace(field, usual=_usual(field, worked, worked.job)) for field in fields)


def _usual(field: Field, worked: WorkedJob, job: Job) -> str:
    try:
        value = _value(field.path, worked, job)
    except (AttributeError, KeyError, IndexError):
        return ""
    return _text(value, field.kind, job.mark)


def _value(path: Path, worked: WorkedJob, job: Job) -> Any:
    match path:
        case ("runs", int(run), "cases", int(case), *rest):
            return _of_case(job, worked, run, case, rest)
        case ("runs", int(run), str(key)):
            return getattr(job.runs[run], key)
        case ("runs", int(run), "left_filler" | "right_filler" as side, str(key)):
            return getattr(getattr(job.runs[run], side.removesuffix("_filler")), key)
        case ("materials", str(key), "usual"):
            return job.sheets[key].usual.middle
        case ("materials", str(), "deviation" | "weight"):
            return None
        case ("materials", str(key), "size"):
            return job.sheets[key].sheet_length, job.sheets[key].sheet_width
        case ("materials", str(key), str(name)):
            return getattr(job.sheets[key], name)
        case ("shop", "rule"):
            return None
        case ("shop", str(machine), str(name)):
            return _of_machine(getattr(job.shop, machine), name)
        case ("construction", str(name)):
            return getattr(job.construction, name)
        case (str(name),):
            return getattr(job, name)
    raise KeyError(path)


def _of_machine(machine: Any, name: str) -> Any:
    """A machine's entry, unless it is a spread or a weight, which are not printed on the rule."""
    value = getattr(machine, name)
    return value if isinstance(value, Fraction | str | tuple) and name not in NOT_ON_THE_RULE else None


def _of_case(job: Job, worked: WorkedJob, run: int, case: int, rest: list[Any]) -> Any:
    spec = job.runs[run].cases[case]
    match rest:
        case ["width"]:
            return worked.project.sizes.of(f"{spec.mark}.width") if worked.project else None
        case ["bays", int(bay), "width"]:
            return worked.project.sizes.of(f"{spec.mark}.bay{bay + 1}") if worked.project else None
        case ["bays", int(bay), name]:
            return getattr(spec.bays[bay], name)
        case ["construction", name]:
            return getattr(spec.construction, name)
        case ["made_of", name]:
            return getattr(spec.materials, name)
        case [name]:
            return getattr(spec, name)
    raise KeyError(rest)


def _text(value: Any, kind: Kind, mark: Mark) -> str:
    match value:
        case None | "" | ():
            return ""
        case Enum():
            return str(value.value)
        case bool():
            return "yes" if value else "no"
        case tuple():
            return f"{MANY} ".join(_text(one, kind, mark) for one in value)
        case Fraction() if kind is Kind.AMOUNT:
            return f"{float(value):g}"
        case Fraction() if kind in (Kind.LENGTH, Kind.WIDTH, Kind.LENGTHS):
            return show(value, mark).marked
    return str(value)
