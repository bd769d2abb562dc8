"""The order of assembly of a case: what goes together when, with screws, clamps, glue and checks.

The order follows from how the parts are held. What is housed between two uprights has to be in
place before the second upright goes on; a back in grooves all round goes in with it, one that
is open above slides in afterwards, and one in rabbets or applied comes last, when the case has been
pulled square by its diagonals.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from math import ceil

from ...casework.build.case import Case
from ...casework.build.meetings import Mate, Meeting
from ...casework.directions import Axis
from ...casework.extents import case_diagonal, part_extent
from ...casework.job import BackKind, TopKind
from ...casework.parts.part import Part, Role
from ...casework.project import Project
from ...findings import Finding, Weight
from ...lengths.length import show
from .screws import Screw, screw_places, screw_through

CLAMP_SPACING = Fraction(12)
"""One clamp for each so much of a joint's run, two at least. Common practice, no source."""

_PLINTH = (Role.PLINTH_FRONT, Role.PLINTH_BACK, Role.PLINTH_END)
_STRIPS = {Role.MOUNTING_STRIP: "the mounting strips", Role.TOE_KICK: "the toe kick"}
_ACROSS = (Role.BOTTOM, Role.TOP, Role.FRONT_STRETCHER, Role.BACK_STRETCHER, Role.FIXED_SHELF)
_SIDES = (Role.LEFT_SIDE, Role.RIGHT_SIDE)


class Stage(Enum):
    PLINTH = "plinth"
    INSIDE = "inside"
    SHELL = "shell"
    STRIPS = "strips and toe kick"
    BACK = "back"


@dataclass(frozen=True, slots=True)
class ScrewedJoint:
    """A joint held by screws: through `through` into `into`, at these places along its run."""

    through: str
    into: str
    screw: Screw
    places: tuple[Fraction, ...]


@dataclass(frozen=True, slots=True)
class UnscrewedJoint:
    """A butt joint with `through` too thick for any standard screw: it is glued and clamped."""

    through: str
    into: str


@dataclass(frozen=True, slots=True)
class DryFitMeasure:
    """Something to measure at a dry fit: its name in the ledger, what it is, what it should be."""

    name: str
    words: str
    expected: Fraction


@dataclass(frozen=True, slots=True)
class GlueUp:
    """One glue-up. `glue` is the area in square inches, `diagonal` what both diagonals of the case
    should measure when the case is square (None while it is still open)."""

    case: str
    stage: Stage
    parts: tuple[str, ...]
    words: str
    screws: tuple[ScrewedJoint, ...]
    unscrewed: tuple[UnscrewedJoint, ...]
    clamps: int
    glue: Fraction
    diagonal: Fraction | None

    @property
    def key(self) -> str:
        return f"{self.case} {self.stage.value}"


def glue_ups(project: Project, case: str) -> tuple[GlueUp, ...]:
    """The glue-ups of a case in their order; loose shelves and fillers are not among them."""
    drawn = project.cases[case]
    found: list[GlueUp] = []
    joined: set[str] = set()
    for stage, parts, words in _stages(drawn):
        if parts:
            joining = _joining(project, drawn, stage, parts, words, joined)
            joined.update(joining.parts)
            found.append(joining)
    return tuple(found)


def _stages(case: Case) -> Iterator[tuple[Stage, list[Part], str]]:
    made = case.spec.construction
    of = {role: [part for part in case.parts if part.role is role] for role in Role}
    dividers, back = of[Role.DIVIDER], of[Role.BACK]
    across = [part for role in _ACROSS for part in of[role]]
    captured = made.back is BackKind.GROOVE and made.top is not TopKind.STRETCHERS
    yield (
        Stage.PLINTH,
        [part for role in _PLINTH for part in of[role]],
        "Assemble the plinth as a box of its own.",
    )
    inside = [part for part in across if dividers and _between_dividers(case, part)]
    first = [*of[Role.BOTTOM], *of[Role.TOP], *dividers, *inside] if dividers else []
    yield Stage.INSIDE, first, "Fit the dividers and the parts between them to the bottom and the top."
    shell = [*of[Role.LEFT_SIDE], *of[Role.RIGHT_SIDE], *(part for part in across if part not in first)]
    words = "Lay one side flat on the bench, fit the horizontal parts to it, then put the other side on."
    if captured:
        words += " Slide the back into its grooves before the second side goes on."
    yield Stage.SHELL, [*shell, *(back if captured else ())], words
    if not captured and made.back is BackKind.GROOVE:
        yield Stage.BACK, back, "Slide the back down its grooves; if the case is not square, it will bind."
    strips = [*of[Role.MOUNTING_STRIP], *of[Role.TOE_KICK]]
    named = [words for role, words in _STRIPS.items() if of[role]]
    yield Stage.STRIPS, strips, f"Fit {' and '.join(named)} between the sides."
    if made.back in (BackKind.RABBET, BackKind.APPLIED):
        yield (
            Stage.BACK,
            back,
            "Pull the case square by its diagonals, then fix the back, which keeps it square.",
        )


def _between_dividers(case: Case, part: Part) -> bool:
    """Whether neither end of a part meets a side."""
    sides = {each.mark for each in case.parts if each.role in _SIDES}
    touching = {
        surface.part
        for mate in case.mates
        if mate.meeting is Meeting.SEATED and mate.axis is Axis.X
        for surface in (mate.first, mate.second)
        if part.mark in (mate.first.part, mate.second.part)
    }
    return not touching & sides


def _joining(
    project: Project, case: Case, stage: Stage, parts: list[Part], words: str, joined: set[str]
) -> GlueUp:
    marks = tuple(part.mark for part in parts)
    present = joined | set(marks)
    mates = [
        mate
        for mate in case.mates
        if {mate.first.part, mate.second.part} <= present and {mate.first.part, mate.second.part} & set(marks)
    ]
    glued = sum((contact(project, mate) for mate in mates if _takes_glue(project, case, mate)), Fraction(0))
    across = [part for part in parts if part.role in _ACROSS]
    runs = [project.sizes.of(part.width) for part in across]
    joints = list(_butt_joints(project, mates))
    return GlueUp(
        case.mark,
        stage,
        marks,
        words,
        tuple(joint for joint in joints if isinstance(joint, ScrewedJoint)),
        tuple(joint for joint in joints if isinstance(joint, UnscrewedJoint)),
        sum(max(2, ceil(run / CLAMP_SPACING)) for run in runs) or 2,
        glued,
        case_diagonal(project, case) if stage in (Stage.SHELL, Stage.BACK) else None,
    )


def contact(project: Project, mate: Mate) -> Fraction:
    """How much of two parts meets at a mate, in square inches: what their blanks share across it."""
    one, other = shared(project, mate)
    return one * other


def shared(project: Project, mate: Mate) -> tuple[Fraction, Fraction]:
    """How far two parts run side by side along each of the axes across a mate."""
    one, other = (part_extent(project, project.parts[surface.part]) for surface in (mate.first, mate.second))
    first, second = (one.shared(other, axis) for axis in Axis if axis is not mate.axis)
    return first, second


def _takes_glue(project: Project, case: Case, mate: Mate) -> bool:
    """Seated faces and dado walls are glued; a back in its groove is left to float."""
    roles = {project.parts[surface.part].role for surface in (mate.first, mate.second)}
    if Role.BACK in roles and case.spec.construction.back is BackKind.GROOVE:
        return False
    return mate.meeting in (Meeting.SEATED, Meeting.SLIP) and Role.ADJUSTABLE_SHELF not in roles


def no_screw_findings(project: Project) -> tuple[Finding, ...]:
    """A warning for each board too thick to be screwed to what meets its face."""
    sizes, unit = project.sizes, project.job.unit
    if all(screw_through(sizes.of(part.thickness), unit) for part in project.parts.values()):
        return ()
    into: dict[str, list[str]] = {}
    for case in project.cases:
        for joining in glue_ups(project, case):
            for joint in joining.unscrewed:
                into.setdefault(joint.through, []).append(joint.into)
    return tuple(_no_screw(project, through, met) for through, met in into.items())


def _no_screw(project: Project, through: str, into: list[str]) -> Finding:
    thickness = show(project.sizes.of(project.parts[through].thickness), project.rule, unit=True).marked
    return Finding(
        "no-screw",
        through,
        f"{through} is {thickness} thick: no standard screw reaches through it to hold {', '.join(into)}, "
        "so only glue would hold the joint.",
        "Choose dado joints, or fasten the joint with bolts or dowels.",
        Weight.WARN,
    )


def _butt_joints(project: Project, mates: list[Mate]) -> Iterator[ScrewedJoint | UnscrewedJoint]:
    """Screws at butt joints: through the board whose face is met, into the end or edge behind it."""
    for mate in mates:
        if mate.meeting is not Meeting.SEATED:
            continue
        first, second = project.parts[mate.first.part], project.parts[mate.second.part]
        faces = [part for part in (first, second) if part.lie.worked.axis is mate.axis]
        if len(faces) != 1 or _housed(project, mate):
            continue
        through = faces[0]
        into = second if through is first else first
        run = max(shared(project, mate))
        thickness = project.sizes.of(through.thickness)
        screw = screw_through(thickness, project.job.unit)
        if screw is None:
            yield UnscrewedJoint(through.mark, into.mark)
        else:
            yield ScrewedJoint(through.mark, into.mark, screw, screw_places(run))


def _housed(project: Project, mate: Mate) -> bool:
    """Whether one of the surfaces lies within its part: the floor or wall of a channel."""
    for surface in (mate.first, mate.second):
        part = project.parts[surface.part]
        if project.sizes.of(surface.at) != project.sizes.of(part.end(mate.axis, surface.looks)):
            return True
    return False


def dry_fit_measures(project: Project, case: str) -> tuple[DryFitMeasure, ...]:
    """What to measure while a case stands dry, before its back is cut: the room between the sides,
    and how deep each channel really is that the back reaches into."""
    of = project.sizes.of
    inside = project.cases[case].inside
    found = [DryFitMeasure(inside.name, "between the sides, front and back", of(inside))]
    for part in project.cases[case].parts:
        for channel in part.channels:
            if channel.takes_back:
                words = f"depth of the back's channel in {part.mark}"
                found.append(DryFitMeasure(channel.depth.name, words, of(channel.depth)))
    return tuple(found)
