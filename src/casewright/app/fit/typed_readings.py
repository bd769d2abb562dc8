"""Readings as they are typed at the bench: read, asked about where they look like slips, and what they do."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ...casework.project import Project
from ...errors import JobError, LengthError
from ...findings import Finding
from ...lengths.length import parse_length, show
from ...shop.measuring_tools import MeasuringTool
from ...tolerance.as_built.doubtful import DoubtfulReading, doubt_reading
from ...tolerance.as_built.readings import AsBuilt
from ...tolerance.as_built.square import SquareReport, square_report
from ...tolerance.outcomes.gap_spread import Fit
from .closing_as_built import ClosingAsBuilt, closing_as_built
from .fit_page import unknown_name


@dataclass(frozen=True)
class AskedFirst:
    """Readings that look like slips, each with its place among those typed, to be answered before any of them
    is used."""

    doubts: tuple[tuple[int, DoubtfulReading], ...]


def check_square(
    fit: Fit, case: str, rising: str, falling: str, *, sure: bool = False
) -> SquareReport | AskedFirst:
    """Whether a case is square, from its diagonals: lower left to upper right, and the other. What looks
    like a slip is asked about, unless the maker is `sure`.

    Raises JobError for a case the job does not have and for lengths that cannot be diagonals.
    """
    project = fit.project
    if case not in project.cases:
        raise unknown_name(case, "the job has no case with this mark.", project.cases)
    try:
        ends = [parse_length(text, project.job.unit) for text in (rising, falling)]
        names = [name for name, _ in project.cases[case].diagonals]
        read = zip(names, ends, (rising, falling), strict=True)
        if not sure and all(end > 0 for end in ends) and (doubts := _doubts(project, read)):
            return AskedFirst(doubts)
        return square_report(project, case, ends[0], ends[1])
    except ValueError as fault:
        fix = "Measure both diagonals over the outside of the sides."
        raise JobError((Finding("diagonals", case, f"{str(fault).rstrip('.')}.", fix),)) from None


def as_built(
    fit: Fit, readings: Sequence[str], cut: Iterable[str], *, sure: Collection[str] = ()
) -> ClosingAsBuilt | AskedFirst:
    """What readings (`NAME=LENGTH`, `NAME=LENGTH caliper`) and finished parts break and how to mend it.
    Of those not in `sure`, what looks like a slip is asked about first.

    Raises JobError for a reading that cannot be read, and for a size or part the job does not have.
    """
    known = fit.project.parts
    for mark in cut:
        if mark not in known:
            raise unknown_name(mark, "the job has no part with this mark.", known)
    so_far = AsBuilt().cut_now(fit, cut)
    diagonals = {name for case in fit.project.cases.values() for name, _ in case.diagonals}
    sizes = {**fit.project.sizes.values, **dict.fromkeys(diagonals)}
    read: list[tuple[str, Fraction, str]] = []
    for text in readings:
        name, value, tool, said = _reading(fit.project, text)
        if name not in sizes:
            raise unknown_name(name, "the job has no size with this name.", sizes)
        so_far = so_far.read(name, value, tool)
        read.append((name, value, "" if text in sure else said))
    if doubts := _doubts(fit.project, read):
        return AskedFirst(doubts)
    return closing_as_built(fit, so_far)


def _doubts(
    project: Project, read: Iterable[tuple[str, Fraction, str]]
) -> tuple[tuple[int, DoubtfulReading], ...]:
    """The questions that these readings raise: the name of each, its value, and what was typed for it, empty
    where the maker is sure of it."""
    all_read = tuple(read)
    doubts: list[tuple[int, DoubtfulReading]] = []
    for at, (name, value, said) in enumerate(all_read):
        earlier = [(of, other) for of, other, _ in all_read[:at]]
        doubt = doubt_reading(project, name, value, said, earlier) if said else None
        if doubt is not None:
            doubts.append((at, doubt))
    return tuple(doubts)


def as_meant(line: str, doubt: DoubtfulReading) -> str:
    """The typed line of a reading with what was likely meant in place of what was typed."""
    name, _, rest = line.partition("=")
    return f"{name.strip()} = {rest.replace(doubt.said, doubt.meant, 1).strip()}"


def example_reading(project: Project) -> str:
    """How a reading is written: the planned length of the job's first part."""
    part = next(iter(project.parts.values()))
    planned = show(project.sizes.of(part.length), project.rule).plain
    return f"{part.length.name} = {planned}"


def _reading(project: Project, text: str) -> tuple[str, Fraction, MeasuringTool, str]:
    """The name, the value, the tool, and the value as it was typed."""
    name, equals, rest = text.partition("=")
    tool = next((tool for tool in MeasuringTool if rest.endswith(f" {tool.value}")), None)
    try:
        if not equals:
            raise LengthError("there is no = between the size and its length")
        said = rest.removesuffix(f" {tool.value}") if tool else rest
        value = parse_length(said, project.job.unit)
    except LengthError as fault:
        as_this = example_reading(project)
        fix = f"Write it as {as_this}, followed by rule, tape, caliper or depth gauge if you wish."
        raise JobError((Finding("reading", text, f"{str(fault).rstrip('.')}.", fix),)) from None
    return name.strip(), value, tool or MeasuringTool.RULE, said.strip()
