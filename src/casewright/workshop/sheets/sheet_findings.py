"""What is wrong between a material's parts and its sheets, in the words and the unit of the job."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from ...casework.project import Project
from ...findings import Finding
from ...lengths.length import show
from ...planner.layout.fence_settings import beyond_reach
from ...planner.plan import Plan
from ...planner.plan_wording import FENCE_REACH, GRAIN_BROKEN, LIMIT_BENT, MATCH_SPLIT
from ...planner.problem import Problem
from ...planner.problem_faults import FITTING, Misfit, faults, misfits

MOST_MARKS = 4
"""Marks named in one sentence; of more, the number is enough."""


def sheet_findings(project: Project, material: str, problem: Problem) -> Iterator[Finding]:
    """What can be said before any plan: parts that fit no sheet, trims and kerfs that cannot be meant."""
    yield from parts_without_a_sheet(project, material, problem)
    for finding in faults(problem, project.printed):
        if finding.code not in FITTING:
            yield finding_on_sheet(finding, material, project)


def plan_findings(project: Project, material: str, problem: Problem, plan: Plan) -> Iterator[Finding]:
    """What a plan of the material warns of beyond that, but for what is for two to carry."""
    for finding in plan.findings:
        if finding.code not in FITTING | {LIMIT_BENT, FENCE_REACH} and not _before_planning(finding):
            yield finding_on_sheet(finding, material, project)
    for finding in beyond_reach(problem, plan.sheets, project.printed):
        yield finding_on_sheet(finding, material, project)


def parts_without_a_sheet(project: Project, material: str, problem: Problem) -> Iterator[Finding]:
    """One finding for each reason why parts fit no sheet, with the parts."""
    reasons: dict[tuple[bool, bool, bool], list[Misfit]] = {}
    for one in misfits(problem):
        reasons.setdefault((one.fits_turned, one.too_long > 0, one.too_wide > 0), []).append(one)
    for (turned, _, _), found in reasons.items():
        yield _across(project, material, found) if turned else _too_large(project, material, found)


def _across(project: Project, material: str, found: Sequence[Misfit]) -> Finding:
    marks = [one.item.name for one in found]
    largest = max(found, key=lambda one: one.too_long + one.too_wide)
    text = (
        f"{_named(marks)}, up to {_size(project, largest.item.length, largest.item.width)}, "
        f"{_fit(marks)} a sheet of {project.job.sheets[material].name} only with the grain running across."
    )
    listed = ", ".join(f'"{mark}"' for mark in marks)
    fix = (
        f"If the grain may run across there, write either_way = [{listed}]; otherwise make the part smaller."
    )
    return Finding("grain", marks[0], text, fix)


def _too_large(project: Project, material: str, found: Sequence[Misfit]) -> Finding:
    marks = [one.item.name for one in found]
    longest, widest = max(one.item.length for one in found), max(one.item.width for one in found)
    room = found[0].room
    write = project.printed
    over = {
        (True, False): f"up to {write(longest)} long",
        (False, True): f"up to {write(widest)} wide",
        (True, True): f"up to {write(longest)} long and {write(widest)} wide",
    }[found[0].too_long > 0, found[0].too_wide > 0]
    text = (
        f"{_named(marks)}, {over}, {_fit(marks)} no sheet of {project.job.sheets[material].name}: "
        f"{_size(project, *room)} is left of “{found[0].bin.name}” after trimming."
    )
    cases = dict.fromkeys(project.parts[mark].case for mark in marks)
    fix = f"Make {_named(list(cases))} smaller, or list a larger sheet under others of materials.{material}."
    return Finding("too-large", marks[0], text, fix)


def _fit(marks: Sequence[str]) -> str:
    return "fit" if len(marks) > 1 else "fits"


def _named(marks: Sequence[str]) -> str:
    """`T1-L`, `T1-L and T1-R`, `T1-L, T1-R, T2-L and 4 more`."""
    if len(marks) > MOST_MARKS:
        named = marks[: MOST_MARKS - 1]
        return f"{', '.join(named)} and {len(marks) - len(named)} more"
    *first, last = marks
    return f"{', '.join(first)} and {last}" if first else last


def _size(project: Project, length: Fraction, width: Fraction) -> str:
    mark = project.rule
    return f"{show(length, mark).marked} x {show(width, mark, unit=True).marked}"


def _before_planning(finding: Finding) -> bool:
    """Whether a plan's finding is one of the problem's own, which are said without a plan."""
    return finding.place.split(".")[0] in ("items", "bins", "kerf", "hand_saw")


def finding_on_sheet(finding: Finding, material: str, project: Project) -> Finding:
    """A planner's finding, which speaks of items and bins, put in terms of the job's parts and sheets."""
    sheet = project.job.sheets[material].name
    kind, _, name = finding.place.partition(".")
    if kind.startswith("sheet "):
        return replace(finding, place=f"{sheet}, {kind}", fix=finding.fix or "Look at it.")
    if finding.code in (MATCH_SPLIT, GRAIN_BROKEN):
        return replace(finding, place=f"{sheet}, {finding.place}", fix=finding.fix or "Look at it.")
    place = name.split(".")[0] if kind == "items" and name else f"materials.{material}"
    text = f"from {sheet}: {finding.text}"
    return replace(finding, place=place, text=text, fix=finding.fix or "Look at it.")
