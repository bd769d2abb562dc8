"""Widths of cases with which parts that nearly agree become equal, so that one setting cuts both."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.inputs import Input, Sort, given_inputs
from ...casework.project import Project
from ...planner.layout.plan_figures import FenceSetting, distinct_settings
from ...planner.plan import Plan

NEAR = Fraction(1, 16)
"""Inches by which a case may be wider or narrower for it: less than a filler takes up. Our judgement."""


@dataclass(frozen=True)
class EqualWidth:
    """A case's width, what it is now and what it would be, and how many sizes of parts are then fewer."""

    width: Input
    now: Fraction
    then: Fraction
    fewer: int


def equal_widths(project: Project) -> list[EqualWidth]:
    """The best change of each case's width that makes sizes of parts equal; the most sizes first."""
    now = _sizes(project)
    step = project.job.mark.step
    found = []
    for one, value in given_inputs(project.job):
        if one.sort is Sort.WIDTH:
            beside = [value + n * step * way for n in range(1, int(NEAR / step) + 1) for way in (-1, 1)]
            tried = [
                EqualWidth(one, value, then, now - _sizes(project.given({one.name: then})))
                for then in beside
                if then > 0
            ]
            found += [max(tried, key=lambda each: each.fewer)]
    return sorted((one for one in found if one.fewer > 0), key=lambda one: -one.fewer)


def _sizes(project: Project) -> int:
    """How many lengths and widths of parts there are: each is a setting of the fence at least."""
    return len(set(_each(project)))


def _each(project: Project) -> Iterator[tuple[str, Fraction]]:
    for part in project:
        length, width, _ = project.dimensions(part)
        yield "length", length
        yield "width", width


def settings_of(project: Project, plans: Iterable[Plan]) -> int:
    """How many settings of the table saw a job's sheets need, those of all materials together."""
    saw = project.job.shop.table_saw.name
    settings: set[FenceSetting] = set()
    for plan in plans:
        settings |= distinct_settings(plan.sheets, saw)
    return len(settings)
