"""Changes of a job worth trying for a sheet: a little less depth or height, less trim, a looser limit."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ...casework.job import CaseKind, CaseSpec
from ...casework.project import Project
from ...lengths.length import show
from ...lengths.quantities import weighed
from ...workshop.sheets.trial_sizes import half_trim, most_steps, smaller_by
from ..editing.text_edits import Path, SetEntry, look_up

NO_LIMIT = 500
"""A weight, in pounds or kilograms, that no sheet has."""

HEIGHTS = (CaseKind.WALL, CaseKind.TALL)
"""Kinds whose height may give a little. Base cases carry a counter at a height that people are used to."""


@dataclass(frozen=True)
class Candidate:
    """A change in so many steps, `steps` at most: what it is in words, and the edits that make it."""

    steps: int
    words: Callable[[int], str]
    edits: Callable[[int], tuple[SetEntry, ...]]


def candidates(project: Project, values: Mapping[str, Any]) -> Iterator[Candidate]:
    """Every change to try, in the order in which a maker would like to hear of them. `values` is what the
    job's text says."""
    yield from _smaller(project, values, "depth", tuple(CaseKind), "deep")
    yield from _smaller(project, values, "height", HEIGHTS, "high")
    yield from _less_trim(project)
    yield from _helper(project)


def _smaller(
    project: Project, values: Mapping[str, Any], key: str, kinds: tuple[CaseKind, ...], word: str
) -> Iterator[Candidate]:
    """Cases of one size in this respect, made smaller together: their tops and fronts line up."""
    groups: dict[Fraction, list[tuple[int, int, CaseSpec]]] = {}
    for index, run in enumerate(project.job.runs):
        for place, case in enumerate(run.cases):
            if case.kind in kinds:
                groups.setdefault(getattr(case, key), []).append((index, place, case))
    for size, cases in groups.items():
        # A case that has no size of its own has its kind's, as have all such cases of the kind.
        paths: dict[Path, None] = {}
        for index, place, case in cases:
            own: Path = ("runs", index, "cases", place, key)
            paths[own if look_up(values, own) is not None else (case.kind.value, key)] = None
        names = " and ".join(dict.fromkeys(case.kind.value for _, _, case in cases))
        yield _stepwise(project, names, size, tuple(paths), word)


def _stepwise(project: Project, kinds: str, size: Fraction, paths: tuple[Path, ...], word: str) -> Candidate:
    mark = project.job.mark

    def smaller(steps: int) -> str:
        return show(smaller_by(size, steps, mark), mark).plain

    def words(steps: int) -> str:
        return f"{kinds} cases {smaller(steps)} {word} in place of {show(size, mark).plain}"

    def edits(steps: int) -> tuple[SetEntry, ...]:
        return tuple(SetEntry(path, smaller(steps)) for path in paths)

    return Candidate(most_steps(mark), words, edits)


def _less_trim(project: Project) -> Iterator[Candidate]:
    """Half the trim of a sheet: what many edges need less of than is usual."""
    mark = project.job.mark
    for material in dict.fromkeys(part.material for part in project):
        good = project.job.sheets[material]
        if good.trim > 0:
            less, now = show(half_trim(good.trim), mark).plain, show(good.trim, mark).plain
            what = f"{less} trimmed off each edge of {good.name} in place of {now}"
            yield Candidate(1, _said(what), _set(("materials", material, "trim"), less))


def _helper(project: Project) -> Iterator[Candidate]:
    """What the carrying limits cost: the job with a helper for every lift."""
    carry, job = project.job.shop.carry, project.job
    longest = max(max(good.sheet_length, good.sheet_width) for good in job.sheets.values())
    limit = f"{weighed(carry.weight, job.unit)} and {show(carry.length, job.mark, unit=True).plain}"
    what = f"a helper for every lift, in place of your limits of {limit}"
    length = _set(("shop", "carry", "length"), show(longest, job.mark).plain)
    weight = _set(("shop", "carry", "weight"), NO_LIMIT)
    yield Candidate(1, lambda _: what, lambda steps: (*length(steps), *weight(steps)))


def _said(what: str) -> Callable[[int], str]:
    return lambda _: what


def _set(path: Path, value: str | int) -> Callable[[int], tuple[SetEntry, ...]]:
    return lambda _: (SetEntry(path, value),)
