"""Before the mistake: sizes that are easily confused, and a check of the saw's setting."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from itertools import combinations

from ...casework.parts.part import Part
from ...casework.project import Project
from ...findings import Finding, Weight
from ...lengths.length import MM, Unit
from .cut_dimension import CutDimension

CLOSE = Fraction(3, 8)
"""Sizes closer than this can be told apart only with a rule (our judgement, no source)."""


class Likeness(Enum):
    """Why two sizes may be confused."""

    INCH = "just an inch apart"
    CENTIMETRE = "just a centimetre apart"
    CLOSE = "nearly equal"
    SWAPPED = "the same two digits, swapped"


@dataclass(frozen=True)
class LookAlike:
    """Two sets of parts of one material whose sizes differ in one dimension, and how.

    `advice` says how to mark them so that they are told apart.
    """

    first: tuple[str, ...]
    second: tuple[str, ...]
    dimension: CutDimension
    sizes: tuple[Fraction, Fraction]
    likeness: Likeness
    advice: str


def look_alikes(project: Project) -> tuple[LookAlike, ...]:
    """Every pair of sizes in the job that could be confused at a glance, closest first."""
    groups: dict[tuple[str, Fraction, Fraction], list[str]] = {}
    for part in project:
        length, width, _ = project.dimensions(part)
        groups.setdefault((part.material, length, width), []).append(part.mark)
    found = [
        alike
        for one, other in combinations(groups, 2)
        if one[0] == other[0]
        for alike in _alike(project, one[1:], other[1:], groups[one], groups[other])
    ]
    return tuple(sorted(found, key=lambda alike: abs(alike.sizes[0] - alike.sizes[1])))


def _alike(
    project: Project,
    one: tuple[Fraction, ...],
    other: tuple[Fraction, ...],
    first: list[str],
    second: list[str],
) -> Iterator[LookAlike]:
    for dimension, index in ((CutDimension.LENGTH, 0), (CutDimension.WIDTH, 1)):
        a, b = one[index], other[index]
        if a == b or one[1 - index] != other[1 - index]:
            continue
        likeness = _likeness(project, a, b)
        if likeness:
            yield LookAlike(
                tuple(first),
                tuple(second),
                dimension,
                (a, b),
                likeness,
                _advice(project, first, second, a, b),
            )


def _likeness(project: Project, a: Fraction, b: Fraction) -> Likeness | None:
    if abs(a - b) < project.job.mark.step:
        # The rule does not tell them apart, so it does no harm to take one for the other.
        return None
    if abs(a - b) == _whole_mark(project):
        return Likeness.CENTIMETRE if project.job.unit is Unit.MM else Likeness.INCH
    if abs(a - b) <= CLOSE:
        return Likeness.CLOSE
    unit = project.job.unit.length
    digits = [str(int(size / unit)) for size in (a, b)]
    rest = [size / unit - int(size / unit) for size in (a, b)]
    if rest[0] == rest[1] and len(digits[0]) > 1 and digits[0] == digits[1][::-1]:
        return Likeness.SWAPPED
    return None


def _whole_mark(project: Project) -> Fraction:
    """How far apart the figured marks of the rule are: what a size is misread by."""
    return 10 * MM if project.job.unit is Unit.MM else Fraction(1)


def _advice(project: Project, first: list[str], second: list[str], a: Fraction, b: Fraction) -> str:
    longer, shorter = (first, second) if a > b else (second, first)
    sizes = " and ".join(project.printed(size) for size in sorted((a, b)))
    return (
        f"Cut {', '.join(longer)} first, circle their marks twice and stack them away from "
        f"{', '.join(shorter)} ({sizes}). A part cut too long can still be cut shorter."
    )


def check_at_saw(project: Project, mark: str, dimension: CutDimension, read: Fraction) -> Finding:
    """Compare a saw's setting with the plan before the cut: right, another part's size, or how far off.

    `read` is the distance set, as read from a scale: right within half a mark of the number printed, or of
    the exact size. Raises KeyError for an unknown mark.
    """
    allowed = project.job.mark.step / 2
    part = project.parts[mark]
    place = dimension.of(part).name
    right = _right(project, part, dimension)
    if any(abs(read - one) <= allowed for one in right):
        text = f"{project.printed(read)} is the right {dimension.value} for {mark}."
        return Finding("right", place, text, weight=Weight.NOTE)
    text = (
        f"the saw is set to {project.printed(read)}, "
        f"but the {dimension.value} of {mark} is {project.printed(right[0])}."
    )
    for other in project:
        if other.material == part.material and any(
            abs(read - one) <= allowed for one in _right(project, other, dimension)
        ):
            fix = f"That is the {dimension.value} of {other.mark}: check which part you are cutting."
            return Finding("other-part", place, text, fix)
    whole = _whole_mark(project)
    if any(abs(abs(read - one) - whole) <= allowed for one in right):
        fix = f"The setting is {project.printed(whole)} off: read the rule again."
        return Finding("mark-off", place, text, fix)
    return Finding("wrong-size", place, text, f"Move the fence by {project.printed(abs(read - right[0]))}.")


def _right(project: Project, part: Part, dimension: CutDimension) -> tuple[Fraction, Fraction]:
    """What a saw may be set to: the number that is printed, or the exact size on a finer scale."""
    name = dimension.of(part).name
    return project.set_to(name), project.sizes.of(name)
