"""Every size a maker enters: its name in the ledger, its place in the job file, and how to get and set it.

All are lengths: in inches here and in the ledger, in the job's unit in its file. Drawing up, the forms,
findings' places in the job file and the repair of mishaps all use this one list.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, fields, replace
from enum import Enum
from fractions import Fraction
from typing import Any, TypeVar

from ..sizes.affine import Affine
from .front_choices import FrontKind
from .job import CONSTRUCTION_SIZES, CaseSpec, Construction, Job, Run
from .parts.part import END_STILES, PartName
from .size_names import (
    JOB,
    CaseSizes,
    EdgingSizes,
    MaterialSizes,
    PartSizes,
    RunSizes,
    construction_size,
    owner_of,
    part_mark,
    tag,
)


class Sort(Enum):
    """The kinds of input."""

    THICKNESS = "thickness"
    CONSTRUCTION = "construction"
    OPENING = "opening"
    GAP = "gap"
    LIFT = "lift"
    FILLER = "filler"
    SCRIBE = "scribe"
    WIDTH = "width"
    HEIGHT = "height"
    DEPTH = "depth"
    BAY = "bay"
    SHELF = "shelf"
    EDGING = "edging"
    FRONT = "front"
    BOX = "drawer box"


Path = tuple[str | int, ...]
"""The way to an entry in a job file: table names, list positions from 0, and its key."""

CONSTRUCTION = frozenset(entry.name for entry in fields(Construction))


@dataclass(frozen=True)
class Input:
    """One size that a maker enters.

    `place` is its path in the job file, whether or not it is there; `listed` says that the entry there is
    a list, in which the size is to be the only item. `otherwise` names the size that applies if the job
    leaves this one out: its own name if it is then a share of what is left.
    """

    sort: Sort
    name: str
    words: str
    place: Path
    otherwise: str
    _get: Callable[[Job], Fraction | None]
    _set: Callable[[Job, Fraction], Job]
    listed: bool = False

    def get(self, job: Job) -> Fraction | None:
        """The value in the job, in inches; None if the job leaves it to be worked out."""
        return self._get(job)

    def set(self, job: Job, value: Fraction) -> Job:
        """The job with this input set to `value` inches, as if the maker had written it."""
        return self._set(job, value)


def inputs_of(job: Job) -> Iterator[Input]:
    """Every input of a job, whether given or left out: sheets, construction, then run by run."""
    for _, found in _by_owner(job):
        yield from found


def given_inputs(job: Job) -> Iterator[tuple[Input, Fraction]]:
    """The inputs that a job gives, with their values in inches: what its ledger begins with."""

    # The sizes a case could set for itself are most of all inputs, and nearly all are left out.
    def set_by(spec: CaseSpec) -> Iterable[str]:
        return [field for field in CONSTRUCTION_SIZES if field in spec.chosen] if spec.chosen else ()

    for _, found in _by_owner(job, set_by):
        for one in found:
            if (value := one.get(job)) is not None:
                yield one, value


def input_called(job: Job, name: str) -> Input:
    """The input with that name in the ledger.

    Raises KeyError if the name is not an input of the job, but a size worked out from others.
    """
    owner = owner_of(name)
    for owners, found in _by_owner(job):
        if owner in owners:
            for one in found:
                if one.name == name:
                    return one
    raise KeyError(name)


def with_input(job: Job, name: str, value: Fraction) -> Job:
    """`job` with the input called `name` set to `value` inches; KeyError if there is no such input."""
    return input_called(job, name).set(job, value)


def in_construction(key: str) -> Path:
    """The path to a key from the table of a job or case; the construction has its own table."""
    return ("construction", key) if key in CONSTRUCTION else (key,)


def _any_size(spec: CaseSpec) -> Iterable[str]:
    return CONSTRUCTION_SIZES


def _by_owner(
    job: Job, own_sizes: Callable[[CaseSpec], Iterable[str]] = _any_size
) -> Iterator[tuple[frozenset[str], Iterator[Input]]]:
    """The inputs in groups, each with the owners of the sizes in it.

    `own_sizes` says which sizes of its construction to list for a case.
    """
    for key in job.sheets:
        yield frozenset({key}), _of_sheet(job, key)
    for key, edging in job.edging.items():
        words, at = f"{edging.name} thickness", ("edging", key, "thickness")
        yield frozenset({key}), iter((_plain(Sort.EDGING, EdgingSizes(key).thickness, words, at),))
    yield frozenset({JOB}), _of_construction(job)
    for index, run in enumerate(job.runs):
        yield frozenset({RunSizes(index + 1).owner}), _of_run(job, index)
        for place, spec in enumerate(run.cases):
            scribed = {
                part_mark(spec.mark, name)
                for name in (PartName.FILLER_LEFT, PartName.FILLER_RIGHT, *END_STILES)
            }
            yield frozenset({spec.mark, *scribed}), _of_case(job, index, place, own_sizes(spec))


def _of_sheet(job: Job, key: str) -> Iterator[Input]:
    """A sheet's measured thickness; a new value replaces all earlier readings."""
    name = MaterialSizes(key).thickness.name
    steps: Path = ("sheets", key, "readings")
    yield Input(
        Sort.THICKNESS,
        name,
        f"{job.sheets[key].name} thickness",
        ("materials", key, "readings"),
        name,
        lambda job: job.sheets[key].thickness,
        lambda job, value: _put(job, steps, (value,)),
        listed=True,
    )


def _of_construction(job: Job) -> Iterator[Input]:
    for field in CONSTRUCTION_SIZES:
        name = construction_size(field).name
        yield Input(
            Sort.CONSTRUCTION,
            name,
            field.replace("_", " "),
            in_construction(field),
            name,
            _getter(("construction", field)),
            _for_all_cases(field),
        )


def _for_all_cases(field: str) -> Callable[[Job, Fraction], Job]:
    """A setter for the job's construction and that of every case that does not set the field itself."""

    def change(job: Job, value: Fraction) -> Job:
        def case(spec: CaseSpec) -> CaseSpec:
            return spec if field in spec.chosen else _put(spec, ("construction", field), value)

        runs = tuple(replace(run, cases=tuple(case(spec) for spec in run.cases)) for run in job.runs)
        return replace(_put(job, ("construction", field), value), runs=runs)

    return change


def _of_run(job: Job, index: int) -> Iterator[Input]:
    run, sizes = job.runs[index], RunSizes(index + 1)
    at: Path = ("runs", index)
    for sort, size, words in (
        (Sort.OPENING, sizes.opening, f"opening of {run.name}"),
        (Sort.GAP, sizes.gap, f"gap at an open end of {run.name}"),
        (Sort.LIFT, sizes.lift, f"height of {run.name} above the floor"),
    ):
        yield _plain(sort, size, words, (*at, sort.value))
    for side, filler, size in (
        ("left", run.left, sizes.left_filler),
        ("right", run.right, sizes.right_filler),
    ):
        if filler:
            words, file = f"{side} filler of {run.name}, in sight", (*at, f"{side}_filler", "width")
            yield _plain(Sort.FILLER, size, words, file, (*at, side, "width"))


def _of_case(job: Job, index: int, place: int, own_sizes: Iterable[str]) -> Iterator[Input]:
    run = job.runs[index]
    spec = run.cases[place]
    sizes = CaseSizes(spec.mark)
    at: Path = ("runs", index, "cases", place)
    for sort, size in ((Sort.WIDTH, sizes.width), (Sort.HEIGHT, sizes.height), (Sort.DEPTH, sizes.depth)):
        yield _plain(sort, size, f"{spec.mark} {sort.value}", (*at, sort.value))
    for field in own_sizes:
        yield _of_case_alone(spec, at, field)
    for number, bay in enumerate(spec.bays, 1):
        here: Path = (*at, "bays", number - 1)
        if len(spec.bays) > 1:  # the width of a single bay follows from its case
            words = f"{spec.mark} bay {number} width"
            yield _plain(Sort.BAY, sizes.bay(number), words, (*here, "width"))
        for shelf in range(1, len(bay.fixed) + 1):
            words = f"clear height below fixed shelf {tag(number, shelf)} of {spec.mark}"
            yield _plain(Sort.SHELF, sizes.below(number, shelf), words, (*here, "fixed", shelf - 1))
        for front in range(1, len(bay.fronts) + 1) if len(bay.fronts) > 1 else ():  # one takes all there is
            words = f"height of front {tag(number, front)} of {spec.mark}"
            path = (*here, "fronts", front - 1, "height")
            yield _plain(Sort.FRONT, sizes.front(number, front), words, path)
        yield from _of_drawers(spec, number, here)
    if run.left and place == 0:
        yield _scribe(spec.mark, PartName.FILLER_LEFT, index, "left")
    if run.right and place == len(run.cases) - 1:
        yield _scribe(spec.mark, PartName.FILLER_RIGHT, index, "right")
    yield from _of_end_stiles(run, index, spec)


def _of_drawers(spec: CaseSpec, bay: int, here: Path) -> Iterator[Input]:
    """The heights of the boxes behind the drawer fronts of a bay."""
    for at, front in enumerate(spec.bays[bay - 1].fronts):
        if front.kind is FrontKind.DRAWER:
            words = f"height of the drawer box behind front {tag(bay, at + 1)} of {spec.mark}"
            size = CaseSizes(spec.mark).drawer_box(bay, at + 1)
            yield _plain(Sort.BOX, size, words, (*here, "fronts", at, "box_height"))


def _of_end_stiles(run: Run, index: int, spec: CaseSpec) -> Iterator[Input]:
    """What the end stiles of a frame have to plane away at the wall, for the case that the frame belongs
    to."""
    group = next(one for one in run.framed_together if spec in one)
    if spec is not group[0]:
        return
    ends = (
        ("left", END_STILES[0], run.left_scribe, run.cases[0] is group[0]),
        ("right", END_STILES[1], run.right_scribe, run.cases[-1] is group[-1]),
    )
    for side, stile, scribe, at_end in ends:
        if scribe is not None and at_end:
            size = PartSizes(part_mark(spec.mark, stile)).scribe
            file: Path = ("runs", index, f"{side}_scribe")
            yield _plain(Sort.SCRIBE, size, f"{spec.mark} {side} stile's scribe", file)


def _of_case_alone(spec: CaseSpec, at: Path, field: str) -> Input:
    """A size of the construction that a case may set for itself, in place of the job's."""

    def get(job: Job) -> Fraction | None:
        case: CaseSpec = _at(job, at)
        return _at(case, ("construction", field)) if field in case.chosen else None

    def change(job: Job, value: Fraction) -> Job:
        case: CaseSpec = _at(job, at)
        changed = replace(_put(case, ("construction", field), value), chosen=case.chosen | {field})
        return _put(job, at, changed)

    name = CaseSizes(spec.mark).construction(field).name
    words = f"{field.replace('_', ' ')} of {spec.mark}"
    return Input(
        Sort.CONSTRUCTION,
        name,
        words,
        (*at, *in_construction(field)),
        construction_size(field).name,
        get,
        change,
    )


def _scribe(mark: str, short: str, index: int, side: str) -> Input:
    size = PartSizes(part_mark(mark, short)).scribe
    file: Path = ("runs", index, f"{side}_filler", "scribe")
    return _plain(Sort.SCRIBE, size, f"{mark} {side} scribe", file, ("runs", index, side, "scribe"))


def _plain(sort: Sort, size: Affine, words: str, place: Path, steps: Path | None = None) -> Input:
    """An input that is a single value of the job and changes no other.

    `steps` is the path to it in the job, if that differs from the path in the file.
    """
    way = steps or place
    name = size.name
    return Input(sort, name, words, place, name, _getter(way), lambda job, value: _put(job, way, value))


def _getter(steps: Path) -> Callable[[Job], Fraction | None]:
    return lambda job: _at(job, steps)


def _at(holder: Any, steps: Path) -> Any:
    """The value at the end of a chain of attributes, list positions and keys."""
    for step in steps:
        inside = isinstance(holder, tuple | Mapping)
        holder = holder[step] if inside else getattr(holder, str(step))
    return holder


Holder = TypeVar("Holder")


def _put(holder: Holder, steps: Path, value: Any) -> Holder:
    """A copy of the holder with a new value at the end of such a chain."""
    if not steps:
        return value  # type: ignore[no-any-return]
    first, rest = steps[0], steps[1:]
    changed: Any
    if isinstance(holder, tuple) and isinstance(first, int):
        changed = (*holder[:first], _put(holder[first], rest, value), *holder[first + 1 :])
    elif isinstance(holder, Mapping):
        changed = {**holder, first: _put(holder[first], rest, value)}
    else:
        whole: Any = holder
        changed = replace(whole, **{str(first): _put(getattr(holder, str(first)), rest, value)})
    return changed  # type: ignore[no-any-return]
