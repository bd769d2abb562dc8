"""Changes of a job worth trying for a sheet, each from the least to the greatest that a maker would make."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import IntEnum
from fractions import Fraction
from typing import Any

from ...casework.front_choices import FrontGrain
from ...casework.fronts_in_one_piece import fronts_in_one_piece
from ...casework.job import CaseKind, CaseSpec
from ...casework.project import Project
from ...lengths.length import show
from ...workshop.sheets.trial_sizes import half_trim, is_round, narrower_strips, smaller_sizes
from ..editing.text_edits import Edit, Path, SetEntry, look_up

HEIGHTS = (CaseKind.WALL, CaseKind.TALL, CaseKind.OPEN)
"""Kinds whose height may give a little. Base cases carry a counter at a height that people are used to."""

STRIPS = {"strip_width": "mounting strips", "stretcher_width": "stretchers"}
"""Sizes of the construction that nobody sees once a case stands."""


class Trouble(IntEnum):
    """How loath a maker is to make a change: money is weighed against it. Our judgement."""

    UNSEEN = 1  # nobody sees it in the finished case
    SEEN = 2  # a little less depth or height
    ELSEWHERE = 3  # takes somebody or something that is not in the shop
    REARRANGED = 4  # other cases than were asked for


@dataclass(frozen=True)
class TrialChange:
    """One change of the job's text, in words; `is_round` where its size is one that is liked on a rule,
    `only_if` says what it takes that may not be at hand."""

    what: str
    edits: tuple[Edit, ...]
    is_round: bool = False
    only_if: str = ""


@dataclass(frozen=True)
class Candidate:
    """Changes of one kind, the least first. Of candidates with one `theme` only the best is worth a line.

    One that lies `within` another, by its theme, can save nothing where that one does not.
    """

    theme: str
    trouble: Trouble
    changes: tuple[TrialChange, ...]
    within: str = ""


def changes_of_cases(project: Project, values: Mapping[str, Any]) -> Iterator[Candidate]:
    """What may be a little smaller, with nothing from outside the shop. `values` is what the job's text
    says."""
    yield from _smaller(project, values, "depth", tuple(CaseKind), "deep")
    yield from _smaller(project, values, "height", HEIGHTS, "high")
    for field in STRIPS:
        yield from _strips(project, values, field)
    yield from _less_trim(project)
    yield from _fronts_apart(project, values)


def _smaller(
    project: Project, values: Mapping[str, Any], key: str, kinds: tuple[CaseKind, ...], word: str
) -> Iterator[Candidate]:
    """Cases of one size in this respect, made smaller together: their tops and fronts line up."""
    groups: dict[Fraction, list[CaseSpec]] = {}
    for case in _cases(project):
        if case.kind in kinds:
            groups.setdefault(getattr(case, key), []).append(case)
    places = _places(project)
    for size, cases in groups.items():
        # A case that has no size of its own has its kind's, as have all such cases of the kind.
        paths: dict[Path, None] = {}
        for case in cases:
            own: Path = (*places[case.mark], key)
            paths[own if look_up(values, own) is not None else (case.kind.value, key)] = None
        names = " and ".join(dict.fromkeys(case.kind.value for case in cases))
        changes = _sizes(project, tuple(paths), size, smaller_sizes(size, project.job.mark), names, word)
        yield Candidate(f"{key} of {names} {size}", Trouble.SEEN, changes)


def _sizes(
    project: Project,
    paths: tuple[Path, ...],
    now: Fraction,
    sizes: tuple[Fraction, ...],
    kinds: str,
    word: str,
) -> tuple[TrialChange, ...]:
    mark = project.job.mark
    was = show(now, mark).plain
    return tuple(
        TrialChange(
            f"{kinds} cases {show(size, mark).plain} {word} in place of {was}",
            tuple(SetEntry(path, show(size, mark).plain) for path in paths),
            is_round(size, mark),
        )
        for size in sizes
    )


def _strips(project: Project, values: Mapping[str, Any], field: str) -> Iterator[Candidate]:
    """Strips of one width, made narrower together wherever the job says it."""
    mark = project.job.mark
    groups: dict[Fraction, dict[Path, None]] = {}
    for case in _cases(project):
        said = _said(project, values, case, field)
        groups.setdefault(getattr(case.construction, field), {})[said] = None
    for width, paths in groups.items():
        changes = tuple(
            TrialChange(
                f"{STRIPS[field]} {show(size, mark).plain} wide in place of {show(width, mark).plain}",
                tuple(SetEntry(path, show(size, mark).plain) for path in paths),
                True,
            )
            for size in narrower_strips(width, mark)
        )
        yield Candidate(f"{field} {width}", Trouble.UNSEEN, changes)


def _fronts_apart(project: Project, values: Mapping[str, Any]) -> Iterator[Candidate]:
    """Fronts that are cut from one piece, each cut by itself instead."""
    cases = {project.parts[bank.marks[0]].case for bank in fronts_in_one_piece(project)}
    paths = dict.fromkeys(
        _said(project, values, case, "front_grain") for case in _cases(project) if case.mark in cases
    )
    if paths:
        apart = FrontGrain.EACH_BY_ITSELF.value
        change = TrialChange(
            f"doors and drawer fronts {apart}, so that no grain runs on over them",
            tuple(SetEntry(path, apart) for path in paths),
        )
        yield Candidate("front grain", Trouble.SEEN, (change,))


def _said(project: Project, values: Mapping[str, Any], case: CaseSpec, field: str) -> Path:
    """Where the job's text says an entry of a case's construction, or where it would."""
    entries: tuple[Path, ...] = (
        (*_places(project)[case.mark], "construction", field),
        (case.kind.value, "construction", field),
        ("construction", field),
    )
    return next((path for path in entries if look_up(values, path) is not None), entries[-1])


def _less_trim(project: Project) -> Iterator[Candidate]:
    """Half the trim of a sheet: what many edges need less of than is usual."""
    mark = project.job.mark
    for material in dict.fromkeys(part.material for part in project):
        good = project.job.sheets[material]
        if good.trim > 0:
            less, now = show(half_trim(good.trim), mark).plain, show(good.trim, mark).plain
            what = f"{less} trimmed off each edge of {good.name} in place of {now}"
            change = TrialChange(what, (SetEntry(("materials", material, "trim"), less),))
            yield Candidate(f"trim {material}", Trouble.UNSEEN, (change,))


def _cases(project: Project) -> Iterator[CaseSpec]:
    return (case for run in project.job.runs for case in run.cases)


def _places(project: Project) -> Mapping[str, Path]:
    """Where each case stands in the job's text, by its mark."""
    return {
        case.mark: ("runs", index, "cases", place)
        for index, run in enumerate(project.job.runs)
        for place, case in enumerate(run.cases)
    }
