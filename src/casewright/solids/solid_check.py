"""The solid check: every part built as a solid, put in its place, and measured.

No two parts may overlap, every joint must be seated to its depth, and every case must have the
outside size the job asks for. All of it is measured on the geometry kernel's solids, so it is a
second opinion, independent of the sizes the joints were computed from.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..casework.build.case import Case
from ..casework.build.meetings import Mate, Meeting
from ..casework.directions import Axis
from ..casework.parts.part import MADE_TO_THE_BOX, Role
from ..casework.project import Project, is_used_as_cut
from ..findings import Finding, Weight
from .bodies import Bodies, Body, assemble
from .clearance import Clearance, clearance

ROOM_SHARED = 1e-6
"""Cubic inches by which two parts may overlap: far above the kernel's rounding (below 1e-9), and far
below the least overlap that stops a joint (1/1000 in over a square of 1/4 in: 6e-5)."""

OUT_OF_PLACE = 1e-6
"""Inches by which a measured gap may differ from the expected one: rounding only."""

CONTACT = 1e-4
"""Square inches below which two faces do not count as meeting."""


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two parts that overlap: the `volume` they share, and the `size` of the box around it."""

    first: str
    second: str
    volume: float
    size: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class MeasuredJoint:
    """A joint's two faces with the gap expected and measured; None where a face is missing."""

    case: str
    mate: Mate
    expected: float
    measured: Clearance | None

    @property
    def seated(self) -> bool:
        """Whether the gap is the expected one, and faces that must touch or face each other do."""
        if self.measured is None or abs(self.measured.gap - self.expected) > OUT_OF_PLACE:
            return False
        flush = self.mate.meeting is Meeting.FLUSH
        return flush or self.measured.area is None or self.measured.area > CONTACT


@dataclass(frozen=True, slots=True)
class Outside:
    """A case's outside size along one axis, asked for and measured."""

    case: str
    axis: Axis
    asked: Fraction
    measured: float


@dataclass(frozen=True, slots=True)
class Examination:
    """What the solid check measured. `pairs` counts the pairs of parts near enough to overlap."""

    findings: tuple[Finding, ...]
    parts: int
    pairs: int
    overlaps: tuple[Overlap, ...]
    joints: tuple[MeasuredJoint, ...]
    outsides: tuple[Outside, ...]


def check_solids(project: Project) -> tuple[Finding, ...]:
    """Everything the solids of a project show to be wrong; empty when all of it fits."""
    return examine(project, assemble(project)).findings


def examine(project: Project, bodies: Bodies) -> Examination:
    """Measure the bodies where they stand and compare them with what the project asks for."""
    near = list(near_pairs(list(bodies.values())))
    overlaps = tuple(found for pair in near if (found := _overlap(*pair)) is not None)
    joints = tuple(
        MeasuredJoint(
            case.mark, mate, float(project.sizes.of(mate.gap)), clearance(bodies, mate, project.sizes)
        )
        for case in project.cases.values()
        for mate in case.mates
        # What is used as it was cut is seated as its maker found it will do, and not as drawn.
        if not any(is_used_as_cut(project.job, end.part) for end in (mate.first, mate.second))
    )
    outsides = tuple(
        outside for case in project.cases.values() for outside in _outside(project, case, bodies)
    )
    findings = (
        *(_interferes(project, overlap) for overlap in overlaps),
        *(_not_seated(project, joint) for joint in joints if not joint.seated),
        *(_wrong_size(project, outside) for outside in outsides if _is_off(outside)),
    )
    return Examination(findings, len(bodies), len(near), overlaps, joints, outsides)


def near_pairs(bodies: list[Body]) -> Iterator[tuple[Body, Body]]:
    """Pairs along one wall whose blanks overlap, by a sweep along the wall; touching does not count."""
    walls: dict[str, list[Body]] = defaultdict(list)
    for body in bodies:
        walls[body.wall].append(body)
    for standing in walls.values():
        open_still: list[Body] = []
        for body in sorted(standing, key=lambda body: body.corner[0]):
            open_still = [other for other in open_still if other.far_corner[0] > body.corner[0]]
            for other in open_still:
                if all(
                    other.corner[axis] < body.far_corner[axis] and body.corner[axis] < other.far_corner[axis]
                    for axis in (1, 2)
                ):
                    yield other, body
            open_still.append(body)


def _overlap(first: Body, second: Body) -> Overlap | None:
    shared = first.placed_solid() ^ second.placed_solid()
    volume = float(shared.volume())
    if volume <= ROOM_SHARED:
        return None
    x, y, z, far_x, far_y, far_z = shared.bounding_box()
    return Overlap(first.part.mark, second.part.mark, volume, (far_x - x, far_y - y, far_z - z))


def _outside(project: Project, case: Case, bodies: Bodies) -> Iterator[Outside]:
    """The size of the box itself: without fillers, which belong to the wall, and without what is glued over
    its front, which may stand past it."""
    apart = MADE_TO_THE_BOX | {Role.FILLER}
    boxes = [bodies[part.mark].placed_solid().bounding_box() for part in case.parts if part.role not in apart]
    depth = case.depth - case.front_strip
    for axis, asked in ((Axis.X, case.width), (Axis.Y, depth), (Axis.Z, case.height)):
        low = min(box[axis.value] for box in boxes)
        high = max(box[axis.value + 3] for box in boxes)
        yield Outside(case.mark, axis, project.sizes.of(asked), high - low)


def _is_off(outside: Outside) -> bool:
    return abs(outside.measured - float(outside.asked)) > OUT_OF_PLACE


def _interferes(project: Project, overlap: Overlap) -> Finding:
    room = " x ".join(_text(project, length) for length in sorted(overlap.size, reverse=True))
    return Finding(
        "parts-interfere",
        f"{overlap.first}, {overlap.second}",
        f"{overlap.first} and {overlap.second} overlap by {room}.",
        "Make one of them smaller, move it, or leave it out.",
    )


def _not_seated(project: Project, joint: MeasuredJoint) -> Finding:
    mate = joint.mate
    place = f"{mate.first.part}, {mate.second.part}"
    if joint.measured is None:
        text = (
            f"{mate.name}: {mate.first.words} or {mate.second.words} is missing, "
            "so the joint has nothing to meet."
        )
        return Finding(
            "nothing-to-meet",
            place,
            text,
            "Check the dado, groove, rabbet or notch that should form that face.",
        )
    if abs(joint.measured.gap - joint.expected) > OUT_OF_PLACE:
        off = joint.measured.gap - joint.expected
        words = "too far apart" if off > 0 else "too close together"
        text = (
            f"{mate.name}: {mate.first.words} and {mate.second.words} are {_text(project, abs(off))} {words}."
        )
        return Finding(
            "not-seated", place, text, "Correct the size that is off, or move the part.", Weight.WARN
        )
    text = f"{mate.name}: {mate.first.words} and {mate.second.words} do not face each other anywhere."
    return Finding("no-contact", place, text, "Move one of the two parts until they meet.", Weight.WARN)


def _wrong_size(project: Project, outside: Outside) -> Finding:
    name = {Axis.X: "width", Axis.Y: "depth", Axis.Z: "height"}[outside.axis]
    text = (
        f"{outside.case} comes out with a {name} of {_text(project, outside.measured)}; "
        f"the job asks for {_text(project, float(outside.asked))}."
    )
    return Finding(
        "outside-size",
        f"cases.{outside.case}.{name}",
        text,
        "Correct the part that is the wrong size.",
        Weight.WARN,
    )


def _text(project: Project, length: float) -> str:
    return project.printed(Fraction(length).limit_denominator(1_000_000))
