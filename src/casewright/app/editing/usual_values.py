"""What holds for an entry while the maker leaves it out: the value the job was drawn up with."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from enum import Enum
from fractions import Fraction
from functools import lru_cache
from typing import Any

from ...casework.build.fittings import FittingChoice
from ...casework.front_choices import FrontKind
from ...casework.inputs import Input, inputs_of
from ...casework.job import CaseSpec, Job
from ...casework.size_names import CaseSizes
from ...jobfile.read.edging_entries import BARE
from ...jobfile.write.literals import length_literal
from ...lengths.length import Mark, show
from ...lengths.quantities import short_number
from ...shop.moisture import Climate
from ...shop.prices import FinishPrice
from ...shop.shelf_use import USUAL_USE
from ..jobs.worked_job import KEPT_WARM, WorkedJob
from .form_fields import FITTING_TABLES, FITTINGS, MANY, Field, FieldKind
from .text_edits import Path

_MOISTURE: Mapping[str, Callable[[Climate], Fraction]] = {
    "shop": lambda climate: climate.in_shop,
    "house_dry": lambda climate: climate.at_driest,
    "house_damp": lambda climate: climate.at_dampest,
}

NOT_ON_THE_RULE = ("weight", "shims")


def with_usual(fields: Iterable[Field], worked: WorkedJob) -> tuple[Field, ...]:
    """The fields, each with what holds while it is empty. Without a job there is nothing to say."""
    if worked.job is None:
        return tuple(fields)
    sizes = _sizes(worked)
    return tuple(replace(field, usual=_usual(field, worked, worked.job, sizes)) for field in fields)


@lru_cache(maxsize=KEPT_WARM)
def _sizes(worked: WorkedJob) -> Mapping[Path, Input]:
    """The sizes a maker may enter, by place: every group of every form of the job asks for some of them."""
    return {one.place: one for one in inputs_of(worked.job) if not one.listed} if worked.job else {}


def _usual(field: Field, worked: WorkedJob, job: Job, sizes: Mapping[Path, Input]) -> str:
    one = sizes.get(field.path)
    if one:
        value = _size(one, worked, job)
    else:
        value = _only_front(field.path, worked, job) or _value(field.path, job)
    if field.path[0] in FITTING_TABLES:
        value = _as_sold(value, job)
    return _text(value, field.kind, job.mark)


def _size(one: Input, worked: WorkedJob, job: Job) -> Fraction | None:
    """The size an entry stands for: as the job has it, else what it comes to when drawn up."""
    given = one.get(job)
    if given is None and worked.project and one.otherwise in worked.project.sizes.ledger:
        return worked.project.sizes.of(one.otherwise)
    return given  # of a drawer that has no slides, nothing says how high its box is


def _only_front(path: Path, worked: WorkedJob, job: Job) -> Fraction | None:
    """How high the only front of a bay is, which takes all there is; no entry of the job says it."""
    match path:
        case ("runs", int(run), "cases", int(case), "bays", int(bay), "fronts", int(front), "height"):
            if worked.project:
                sizes = CaseSizes(job.runs[run].cases[case].mark)
                return worked.project.sizes.of(sizes.front(bay + 1, front + 1))
    return None


def _as_sold(value: Any, job: Job) -> Any:
    """A size of bought hardware as its sheet has it: 35 mm is no size in inches."""
    match value:
        case bool():
            return value
        case Fraction():
            return length_literal(value, job.mark.unit)
        case tuple():
            return tuple(_as_sold(one, job) for one in value)
    return value


def _value(path: Path, job: Job) -> Any:
    """What an entry that is no size holds; None where the job has nothing to say of it."""
    match path:
        case ("job",):
            return None  # its name, which must be entered
        case ("made_of" | "edged", *_) | ("base" | "wall" | "tall" | "open", *_):
            return None  # the job has what each of its cases came to, not what their kinds say
        case ("materials", str(), "sheet") | ("shop", str(), "use") | ("hinges" | "slides", str(), "like"):
            return None  # an entry of the packaged list, of which the job has only what it says
        case ("materials", str(key), _) if key not in job.sheets:
            return None  # emptying its last entry took it out
        case ("hinges" | "slides" as table, str(key), _) if key not in getattr(job, table):
            return None
        case ("runs", int(run), "cases", int(case), *rest):
            return _of_case(job.runs[run].cases[case], rest, FittingChoice.of(job))
        case ("runs", int(run), str(key)):
            return getattr(job.runs[run], key)
        case ("runs", int(run), "framing", str(key)):
            return getattr(job.wall_of(job.runs[run].wall), key)
        case ("runs", int(run), "left_filler" | "right_filler" as side, str(key)):
            filler = getattr(job.runs[run], side.removesuffix("_filler"))
            return filler and getattr(filler, key)
        case ("runs", int(run), "worktop", str(key)):
            return getattr(job.runs[run].worktop, key, None)
        case ("materials", str(key), "usual"):
            return job.sheets[key].usual.middle
        case ("materials", str(), "deviation" | "weight"):
            return None
        case ("materials", str(key), "size"):
            return job.sheets[key].sheet_length, job.sheets[key].sheet_width
        case ("materials", str(key), "wood" | "sawn" as name):
            wood = job.sheets[key].wood
            return wood and (wood.name if name == "wood" else job.sheets[key].sawn)
        case ("materials", str(key), str(name)):
            return getattr(job.sheets[key], name)
        case ("edging", str(key), "wood"):
            wood = job.edging[key].wood
            return wood and wood.name
        case ("edging", str(key), str(name)):
            return getattr(job.edging[key], name)
        case ("shop", "workmanship" | "hourly" as key):
            return getattr(job.shop, key)
        case ("shop", "deviations", str()):
            return None  # thousandths, which the rule's marks do not show
        case ("shop", str(machine), str(name)):
            own = getattr(job.shop, machine)
            return own and _of_machine(own, name)
        case ("climate", "region"):
            return job.climate.region
        case ("climate", str(name)):
            return f"{short_number(_MOISTURE[name](job.climate))} %"
        case ("costs", "finish", "coats" | "surfaces" as name):
            return getattr(FinishPrice(), name)
        case ("costs", *_):
            return None  # what has no price has none
        case ("loads_of", str(mark), str(name)):
            return _of_shelf(job, mark, name)
        case ("loads", str(name)):
            return None if name == "load" else getattr(USUAL_USE, name)
        case ("construction", str(name)):
            return getattr(job.construction, name)
        case ("hinges" | "slides" as table, str(key), str(name)):
            return getattr(getattr(job, table)[key], name)
        case ("fitted_with", str(name)):
            known = tuple(getattr(job, FITTINGS[name]))
            return known[0] if len(known) == 1 else None
        case (str(name),):
            return getattr(job, name)
    raise KeyError(path)


def _of_shelf(job: Job, mark: str, name: str) -> Any:
    """What holds for a shelf of which nothing is said: what its case's shelves bear."""
    if name == "load":
        return None
    specs = (spec for run in job.runs for spec in run.cases if mark.startswith(f"{spec.mark}-"))
    return next((getattr(spec.shelves, name) for spec in specs), None)


def _of_machine(machine: Any, name: str) -> Any:
    """A machine's entry, unless it is a spread or a weight, which are not printed on the rule."""
    value = getattr(machine, name)
    return value if isinstance(value, Fraction | str | tuple) and name not in NOT_ON_THE_RULE else None


def _of_case(spec: CaseSpec, rest: list[Any], known: FittingChoice) -> Any:
    match rest:
        case ["bays", int(bay), "fronts", int(front), "hung"]:
            one = spec.bays[bay].fronts[front]
            return one.hung if one.kind is FrontKind.DOOR else None
        case ["bays", int(bay), "fronts", int(front), name]:
            return getattr(spec.bays[bay].fronts[front], name)
        case ["fitted_with", name]:
            fitted = known.slide(spec) if name == "slide" else known.hinge(spec, name == "divider_hinge")
            return fitted and fitted.key
        case ["loads", name]:
            return None if name == "load" else getattr(spec.shelves, name)
        case ["bays", int(bay), name]:
            return getattr(spec.bays[bay], name)
        case ["construction", name]:
            return getattr(spec.construction, name)
        case ["made_of", name]:
            return getattr(spec.materials, name)
        case ["edged", name]:
            return getattr(spec.edged, name) or BARE
        case [name]:
            return getattr(spec, name)
    raise KeyError(rest)


def _text(value: Any, kind: FieldKind, mark: Mark) -> str:
    match value:
        case None | "" | ():
            return ""
        case Enum():
            return str(value.value)
        case bool():
            return "yes" if value else "no"
        case frozenset():
            return _text(tuple(sorted(value)), kind, mark)
        case tuple():
            return f"{MANY} ".join(_text(one, kind, mark) for one in value)
        case Fraction() if kind is FieldKind.AMOUNT:
            return short_number(value)
        case Fraction() if kind in (FieldKind.LENGTH, FieldKind.WIDTH, FieldKind.LENGTHS):
            return show(value, mark).marked
    return str(value)
