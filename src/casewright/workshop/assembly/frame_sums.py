"""The lengths of a face frame's rails from what the dry fit measures, and where its mullions stand."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.build.case import Case
from ...casework.directions import Axis
from ...casework.job import FaceFrame
from ...casework.parts.part import Role
from ...casework.project import Project
from ...casework.size_names import PartSizes
from ...lengths.in_a_sentence import listed


@dataclass(frozen=True, slots=True)
class RailSum:
    """The rails of one frame: their marks, the cases it covers, the rails' planned length, and by how much
    they are `shorter`, or longer, than the room between the sides of all these cases; both as printed."""

    marks: tuple[str, ...]
    cases: tuple[str, ...]
    length: Fraction
    by: Fraction
    shorter: bool


def rail_sum(project: Project, case: str) -> RailSum | None:
    """How the rails follow from the room between the sides; None for a case that no frame belongs to."""
    drawn = project.cases[case]
    rails = [part for part in drawn.parts if part.role is Role.RAIL]
    if not rails:
        return None
    number, length = project.rule.number, project.dimensions(rails[0])[0]
    rooms = (number(project.sizes.of(project.cases[mark].inside)) for mark in drawn.framed)
    less = sum(rooms, Fraction(0)) - number(length)
    return RailSum(tuple(part.mark for part in rails), drawn.framed, length, abs(less), less > 0)


_JOINED = {
    FaceFrame.POCKET_SCREWS: "Join the frame flat on the bench, face down.",
    FaceFrame.HALF_LAPS: (
        "Lay the rails on the bench, face up, and glue {uprights} over them, a clamp on each lap: both "
        "diagonals equal."
    ),
    FaceFrame.DOWELS: (
        "On the bench, glue the dowels into the ends of {ends} and draw the frame together{first}, with a "
        "clamp along each rail: both diagonals equal, faces flush."
    ),
    FaceFrame.MORTISE_AND_TENON: (
        "Cut each tenon to its mortise. On the bench, glue {between}the stiles on, with a clamp along each "
        "rail: both diagonals equal, faces flush."
    ),
}


_WITH_MULLIONS = {
    "uprights": "stiles and mullions",
    "ends": "rails and mullions",
    "first": ", the mullions first",
    "between": "the mullions between the rails, then ",
}
_STILES_ALONE = {"uprights": "the stiles", "ends": "the rails", "first": "", "between": ""}


def _joined(case: Case) -> str:
    """How the pieces of a frame are joined at the bench; mullions are named where it has some."""
    mullions = any(part.role is Role.MULLION for part in case.parts)
    words = _WITH_MULLIONS if mullions else _STILES_ALONE
    return _JOINED[case.spec.construction.frame].format_map(words)


def frame_words(case: Case) -> str:
    """How the frame of a case is joined and put on; over several cases, once they stand joined."""
    joined = _joined(case) if case.framed else ""
    if not case.shares_frame:
        return (
            f"{joined} Then glue it over the front of the case, its lower rail level with the bottom, a "
            "clamp every hand's breadth."
        )
    return (
        f"{joined} It covers {listed(case.framed)}: set these in their places first, level and with their "
        "fronts flush, and screw them together through their sides. Then glue the frame over all of them, "
        "its lower rail level with their bottoms, a clamp every hand's breadth."
    )


@dataclass(frozen=True, slots=True)
class MovedRails:
    """Rails that come out `by` so much `longer` than planned, or shorter: their new length. By the marks of
    the rule; inches."""

    marks: tuple[str, ...]
    length: Fraction
    by: Fraction
    longer: bool


def moved_rails(planned: Project, built: Project, settled: Collection[str]) -> Iterator[MovedRails]:
    """The rails whose length is another in `built`, where the cases are as they were measured; without those
    whose length is `settled`, by its name."""
    number = planned.rule.number
    moved: dict[tuple[Fraction, Fraction], list[str]] = {}
    for mark, part in planned.parts.items():
        was, now = planned.dimensions(part)[0], built.dimensions(built.parts[mark])[0]
        if part.role is Role.RAIL and part.length.name not in settled and number(now) != number(was):
            moved.setdefault((was, now), []).append(mark)
    for (was, now), marks in moved.items():
        yield MovedRails(tuple(marks), now, abs(number(now) - number(was)), now > was)


def mullion_places(project: Project, case: str) -> Iterator[tuple[str, Fraction]]:
    """Each mullion, with how far its left edge is from the left end of the rails."""
    rails = [part for part in project.cases[case].parts if part.role is Role.RAIL]
    for part in project.cases[case].parts:
        if part.role is Role.MULLION:
            at = Axis.X.value
            yield part.mark, project.corner(part)[at] - project.corner(rails[0])[at]


def scribed_stiles(project: Project, case: str) -> Iterator[tuple[str, Fraction]]:
    """Each stile that is planed to a wall, with how much wider it is than reaches there."""
    for part in project.cases[case].parts:
        scribe = PartSizes(part.mark).scribe
        if part.role is Role.STILE and scribe.name in project.sizes.ledger:
            yield part.mark, project.sizes.of(scribe)
