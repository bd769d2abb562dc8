"""Rows of holes: with a jig, its spacer, the hole to start in and the moves along a long row;
without one, a story stick.

The jig lies with its fence on the part's edge and its end where the row's end is measured from,
so every upright whose holes must be level is bored from the same end.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.parts.features.feature import Feature
from ...casework.parts.holes import HoleRow
from ...casework.parts.part import Part
from ...casework.project import Project
from ...findings import Finding, Weight
from ...lengths.length import MM, show
from ...shop.machines import PinJig
from ..side_names import side_words


def bit_size(project: Project, diameter: Fraction) -> str:
    """A bit as it is sold: by a fraction of an inch, or by whole millimetres where it is none."""
    millimetres = diameter / MM
    if (diameter * 64).denominator != 1 and millimetres.denominator == 1:
        return f"{millimetres} mm"
    return show(diameter, project.job.mark, unit=True).plain


@dataclass(frozen=True, slots=True)
class JigMove:
    """One position of the jig: `shift` is how far its end is moved along from the end of the part, and
    `holes` which of the jig's holes are bored, counted from 1.

    For every position after the first a pin goes through jig hole 1 into the last hole bored.
    """

    shift: Fraction
    holes: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class JigWork:
    """A row bored with a jig. `spacer` goes between its fence and the part's edge."""

    spacer: Fraction
    moves: tuple[JigMove, ...]


def _same_holes(jig: PinJig, pitch: Fraction, diameter: Fraction) -> bool:
    """Whether every hole of the row falls on one of the jig's, of the right size."""
    return jig.diameter == diameter and (pitch / jig.pitch).denominator == 1


def spacer(jig: PinJig, setback: Fraction) -> Fraction:
    """What goes between the jig's fence and the edge for a row `setback` in; negative
    where the jig's own setback is already greater. Spacers add exactly."""
    return setback - jig.setback


def with_jig(jig: PinJig, row: HoleRow) -> JigWork:
    """The positions of the jig that bore `row`.

    The first position puts jig hole 1 over the row's first hole. Later ones hang on a pin in the last
    hole bored, so an error of the jig's own length is not measured twice. ValueError where the
    jig lacks the row's pitch or size, where its setback is greater, or where it has too few holes.
    """
    if not _same_holes(jig, row.pitch, row.diameter):
        raise ValueError(f"{jig.name} has no holes for this pitch and size")
    between = spacer(jig, row.setback)
    if between < 0:
        raise ValueError(f"{jig.name} bores no nearer the edge than its own setback")
    every = max(1, int(row.pitch / jig.pitch))  # a single hole has no pitch
    at_once = (jig.holes - 1) // every + 1  # holes of the row within one position
    if at_once < 2 and row.number > 1:
        raise ValueError(f"{jig.name} is shorter than one step of the row")
    moves: list[JigMove] = []
    bored = 0
    while bored < row.number:
        start = max(bored - 1, 0)  # the hole the pin stands in
        last = min(start + at_once, row.number)
        holes = tuple((place - start) * every + 1 for place in range(bored, last))
        moves.append(JigMove(row.holes[start], holes))
        bored = last
    return JigWork(between, tuple(moves))


def jig_serves(jig: PinJig | None, row: HoleRow) -> bool:
    """Whether the jig can bore the row (see `with_jig`)."""
    if jig is None:
        return False
    try:
        with_jig(jig, row)
    except ValueError:
        return False
    return True


@dataclass(frozen=True, slots=True)
class SpacerStack:
    """How to make a spacer from what is there: strips of these sheet goods on edge or flat, glued
    face to face, and how far the stack of them misses."""

    layers: tuple[tuple[str, int], ...]
    thickness: Fraction
    off: Fraction


def make_spacer(
    target: Fraction, scraps: Iterable[tuple[str, Fraction]], most: int = 4
) -> SpacerStack | None:
    """The stack of at most `most` layers of scrap that comes nearest to `target`; fewest layers first.

    `scraps` are sheet goods by name with their measured thickness. None for a target of zero, or where
    there is no scrap. A strip ripped to `target` and laid flat serves as well where the edge is true.
    """
    kinds = sorted(scraps, key=lambda scrap: scrap[1])
    if target <= 0 or not kinds:
        return None
    best: tuple[Fraction, int, tuple[int, ...]] | None = None
    for counts in _counts(len(kinds), most):
        layers = sum(counts)
        if layers:
            thickness = sum((n * t for n, (_, t) in zip(counts, kinds, strict=True)), Fraction(0))
            candidate = (abs(thickness - target), layers, counts)
            best = candidate if best is None else min(best, candidate)
    assert best is not None
    counts = best[2]
    thickness = sum((n * t for n, (_, t) in zip(counts, kinds, strict=True)), Fraction(0))
    used = tuple((name, n) for n, (name, _) in zip(counts, kinds, strict=True) if n)
    return SpacerStack(used, thickness, thickness - target)


def _counts(kinds: int, most: int) -> Iterator[tuple[int, ...]]:
    if kinds == 0:
        yield ()
        return
    for first in range(most + 1):
        for rest in _counts(kinds - 1, most - first):
            yield (first, *rest)


@dataclass(frozen=True, slots=True)
class StoryStick:
    """A story stick at full size: cut it `length` long and `setback` wide from its edge to the
    line; `marks` are where it is bored, `pitch` apart, from the end marked with an arrow."""

    length: Fraction
    setback: Fraction
    marks: tuple[Fraction, ...]
    pitch: Fraction
    diameter: Fraction
    end: str
    serves: tuple[str, ...]


def runs_across(part: Part, feature: Feature) -> bool:
    """Whether the line of its holes runs across the part: it is squared across, and no stick is as wide."""
    return feature.edges[0].axis is part.lie.length


def story_sticks(project: Project) -> tuple[StoryStick, ...]:
    """A stick for every different row of the job, with the rows it serves (`B1-L pins-11-right-front`).

    One stick bores both the left and the right of a bay, always from the same end, so the holes
    are level; it is turned face for face, never end for end.
    """
    served: dict[tuple[HoleRow, str], list[str]] = {}
    for part in project.parts.values():
        for feature, row in _rows(project, part):
            if runs_across(part, feature):
                continue
            key = (row, side_words(part, feature.edges[1]))
            served.setdefault(key, []).append(f"{part.mark} {feature.name}")
    return tuple(
        StoryStick(row.last + row.first, row.setback, row.holes, row.pitch, row.diameter, end, tuple(keys))
        for (row, end), keys in served.items()
    )


def sticks_needed(project: Project) -> tuple[StoryStick, ...]:
    """The story sticks for rows that the shop's jig cannot bore; all of them without a jig."""
    jig = project.job.shop.pin_jig
    return tuple(stick for stick in story_sticks(project) if not jig_serves(jig, _row_on(stick)))


def _row_on(stick: StoryStick) -> HoleRow:
    return HoleRow(stick.marks[0], stick.pitch, len(stick.marks), stick.setback, stick.diameter, Fraction(0))


def _rows(project: Project, part: Part) -> Iterator[tuple[Feature, HoleRow]]:
    return ((feature, row) for feature in part.features for row in feature.rows(project.sizes))


def level_findings(project: Project) -> tuple[Finding, ...]:
    """Rows of one bay whose holes are not at one height in the case: on which a shelf would rock."""
    heights: dict[tuple[str, tuple[int, int]], dict[tuple[Fraction, ...], str]] = {}
    for part in project.parts.values():
        floor = project.corner(part)[2]
        for feature, row in _rows(project, part):
            if feature.serves is None:
                continue
            holes = tuple(floor + hole for hole in row.holes)
            bay = heights.setdefault((part.case, feature.serves), {})
            bay.setdefault(holes, f"{part.mark} {feature.name}")
    return tuple(
        Finding(
            "pins-not-level",
            case,
            f"the rows {' and '.join(list(found.values())[:2])} are not level: their first holes are at "
            + " and ".join(project.printed(holes[0]) for holes in list(found)[:2])
            + " from the floor.",
            "Bore them all from the same end, or measure the first hole again.",
            Weight.WARN,
        )
        for (case, _), found in heights.items()
        if len(found) > 1
    )
