"""The job as the customer ordered it: its cases in words, without anything that is the shop's own."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from ...casework.build.case import Case
from ...casework.front_choices import FrontKind
from ...casework.parts.part import Role
from ...casework.project import Project
from ...lengths.in_a_sentence import listed, with_capital


@dataclass(frozen=True, slots=True)
class QuotedCase:
    """A case by its mark: what it is with its outside sizes, and what is in it."""

    mark: str
    words: str
    inside: str


@dataclass(frozen=True, slots=True)
class QuotedRun:
    """The cases along one stretch of wall, from left to right."""

    name: str
    cases: tuple[QuotedCase, ...]


def quoted_runs(project: Project) -> tuple[QuotedRun, ...]:
    """Every case of the job, run by run."""
    return tuple(
        QuotedRun(
            f"{with_capital(drawn.run.name)}, {drawn.run.wall}",
            tuple(_case(project, project.cases[case.mark]) for case in drawn.run.cases),
        )
        for drawn in project.runs
    )


def _case(project: Project, case: Case) -> QuotedCase:
    spec, wide = case.spec, project.printed(project.sizes.of(case.outside))
    high, deep = project.printed(spec.height), project.printed(spec.depth)
    words = f"{spec.kind.value.capitalize()} case, {wide} wide, {high} high, {deep} deep"
    return QuotedCase(case.mark, words, _told(_inside(case)))


def _told(inside: list[str]) -> str:
    return listed(inside) if inside else "no shelves"


def _inside(case: Case) -> list[str]:
    """What a case has, counted: doors and drawers, then shelves."""
    count: Counter[str] = Counter()
    for bay in case.spec.bays:
        for front in bay.fronts:
            if front.kind is FrontKind.TWO_DOORS:
                count["door"] += 2
            else:
                count[front.kind.value] += 1
    roles = Counter(part.role for part in case.parts)
    count["fixed shelf"] = roles[Role.FIXED_SHELF]
    count["adjustable shelf"] = roles[Role.ADJUSTABLE_SHELF]
    found = [_counted(number, what) for what, number in count.items() if number]
    return [*found, "face frame"] if roles[Role.STILE] else found


def _counted(number: int, what: str) -> str:
    many = f"{what[:-1]}ves" if what.endswith("shelf") else f"{what}s"
    return f"{number} {what if number == 1 else many}"
