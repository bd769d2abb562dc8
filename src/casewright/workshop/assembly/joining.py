"""The order of assembly of a case: what goes together when, with screws, clamps, glue and checks.

The order follows from how the parts are held. What is housed between two uprights has to be in
place before the second upright goes on; a back in grooves all round goes in with it, one that
is open above slides in afterwards, and one in rabbets or applied comes last, when the case has been
pulled square by its diagonals.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from ...casework.build.case import Case
from ...casework.build.drawers.placed_drawers import DrawerParts
from ...casework.build.meetings import Mate, Meeting
from ...casework.directions import Axis
from ...casework.extents import case_diagonal, diagonal, part_extent
from ...casework.front_choices import FrontLie
from ...casework.job import BackKind, TopKind
from ...casework.parts.part import DRAWER_BOX, FACE_FRAME, FRAMED_DOOR, FRONTS, Part, Role
from ...casework.project import Project
from .butt_joints import ScrewedJoint, UnscrewedJoint, butt_joints, contact, front_joints, pocket_joints
from .clamps import ClampsOn, clamps_on
from .drawer_words import box_words, drawer_number
from .frame_sums import frame_words, mullion_places, scribed_stiles
from .front_words import DOOR_GLUE_UP, hanging_words, is_hung
from .gaps_by_season import panel_words

_PLINTH = (Role.PLINTH_FRONT, Role.PLINTH_BACK, Role.PLINTH_END)
_ACROSS = (Role.BOTTOM, Role.TOP, Role.FRONT_STRETCHER, Role.BACK_STRETCHER, Role.FIXED_SHELF)
_SIDES = (Role.LEFT_SIDE, Role.RIGHT_SIDE)


class Stage(Enum):
    PLINTH = "plinth"
    INSIDE = "inside"
    SHELL = "shell"
    STRIPS = "mounting strips"
    TOE_KICK = "toe kick"
    BACK = "back"
    FRAME = "face frame"
    DOORS = "framed doors"
    DRAWER = "drawer"  # of each drawer, by its number
    FRONTS = "hanging doors and fronts"

    @property
    def is_of_fronts(self) -> bool:
        """Whether it is about doors and drawers, for which the box itself need not wait."""
        return self in (Stage.DRAWER, Stage.DOORS, Stage.FRONTS)


@dataclass(frozen=True, slots=True)
class DryFitMeasure:
    """Something to measure at a dry fit: its name in the ledger, what it is, what it should be."""

    name: str
    words: str
    expected: Fraction


@dataclass(frozen=True, slots=True)
class GlueUp:
    """One glue-up. `glue` is the area in square inches, `diagonal` what both diagonals of the case or drawer
    box should measure when it is square (None while it is still open). `number` is that of the drawer."""

    case: str
    stage: Stage
    parts: tuple[str, ...]
    words: str
    screws: tuple[ScrewedJoint, ...]
    unscrewed: tuple[UnscrewedJoint, ...]
    clamps: ClampsOn
    glue: Fraction
    diagonal: Fraction | None
    number: int | None = None

    @property
    def title(self) -> str:
        """What is put together: `shell`, `drawer 2`."""
        return self.stage.value if self.number is None else f"{self.stage.value} {self.number}"

    @property
    def key(self) -> str:
        return f"{self.case} {self.title}"


def frame_key(case: str) -> str:
    """The key of the step that puts on the face frame among the parts of a case."""
    return f"{case} {Stage.FRAME.value}"


Joinings = Mapping[str, tuple[GlueUp, ...]]
"""The glue-ups of each case by its mark, in their order."""


def glue_ups_of_all(project: Project) -> Joinings:
    """The glue-ups of every case."""
    return {case: glue_ups(project, case) for case in project.cases}


def glue_ups(project: Project, case: str) -> tuple[GlueUp, ...]:
    """The glue-ups of a case in their order; loose shelves and fillers are not among them."""
    drawn = project.cases[case]
    found: list[GlueUp] = []
    joined: set[str] = set()
    for stage, parts, words in _stages(drawn):
        if stage is Stage.FRONTS:
            found += _drawers(project, drawn, joined)
        if parts:
            if stage is Stage.FRAME:
                said = (*_scribed(project, case), words, *_mullions(project, case), *_openings(drawn))
                words = " ".join(said)
            elif stage is Stage.DOORS:
                words = " ".join((words, *panel_words(project, drawn)))
            elif stage is Stage.FRONTS:
                words = hanging_words(project, case)
            joining = _joining(project, drawn, stage, parts, words, joined)
            joined.update(joining.parts)
            found.append(joining)
    return tuple(found)


def _drawers(project: Project, case: Case, joined: set[str]) -> Iterator[GlueUp]:
    """The glue-up of each drawer box; its parts count as joined then."""
    for drawer in case.drawers:
        if drawer.box:
            parts = [project.parts[mark] for mark in drawer.box.marks if mark in project.parts]
            words = box_words(project, case, drawer)
            made = _joining(project, case, Stage.DRAWER, parts, words, joined)
            joined.update(made.parts)
            square = diagonal(*_outside(project, drawer.box))
            yield replace(made, diagonal=square, number=drawer_number(case, drawer))


def _outside(project: Project, box: DrawerParts) -> tuple[Fraction, Fraction]:
    """The outside width and length of a drawer box, over the faces of its parts: what stands proud at
    dovetails is planed off."""
    left, right, front, back = (
        part_extent(project, project.parts[mark]) for mark in (box.left, box.right, box.front, box.back)
    )
    return right.high[0] - left.low[0], back.high[1] - front.low[1]


def _mullions(project: Project, case: str) -> Iterator[str]:
    for mark, at in mullion_places(project, case):
        place = project.printed(at)
        yield f"{mark} begins {place} from the left end of the rails, seen from the front."


def _openings(case: Case) -> Iterator[str]:
    """What inset fronts are cut to: the frame as it is glued on."""
    if case.fronts and case.spec.construction.fronts is FrontLie.INSET:
        yield "Then measure each opening of the frame: its doors and fronts are cut to that, less the gaps."


def _scribed(project: Project, case: str) -> Iterator[str]:
    for mark, wider in scribed_stiles(project, case):
        more = f"it is {project.printed(wider)} wider than reaches the wall"
        yield (
            f"First hold {mark} plumb in its place{f' ({more})' if wider else ''}, scribe it to the wall and "
            "plane to the line, or to the cut line drawn for it where the gaps to the wall were read."
        )


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
    yield Stage.STRIPS, of[Role.MOUNTING_STRIP], "Fit the mounting strips between the uprights."
    yield Stage.TOE_KICK, of[Role.TOE_KICK], "Fit the toe kick between the sides."
    if made.back in (BackKind.RABBET, BackKind.APPLIED):
        yield (
            Stage.BACK,
            back,
            "Pull the case square, with a clamp across the longer diagonal if they differ, then fix "
            "the back, which keeps it square.",
        )
    yield Stage.FRAME, [part for part in case.parts if part.role in FACE_FRAME], frame_words(case)
    yield Stage.DOORS, [part for part in case.parts if part.role in FRAMED_DOOR], DOOR_GLUE_UP
    yield Stage.FRONTS, [part for part in case.parts if part.role in FRONTS and is_hung(part)], ""


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
    glued = [mate for mate in mates if stage is not Stage.FRONTS and _takes_glue(project, case, mate)]
    before = [mate for mate in case.mates if {mate.first.part, mate.second.part} <= joined]
    joints = [
        *butt_joints(project, mates, before),
        *pocket_joints(project, mates),
        *front_joints(project, mates),
    ]
    return GlueUp(
        case.mark,
        stage,
        marks,
        words,
        tuple(joint for joint in joints if isinstance(joint, ScrewedJoint)),
        tuple(joint for joint in joints if isinstance(joint, UnscrewedJoint)),
        clamps_on(project, glued),
        sum((contact(project, mate) for mate in glued), Fraction(0)),
        case_diagonal(project, case) if stage in (Stage.SHELL, Stage.BACK) else None,
    )


def _takes_glue(project: Project, case: Case, mate: Mate) -> bool:
    """Seated faces and dado walls are glued; a back, a door's panel or a drawer's bottom in its groove
    floats, and a drawer front is screwed on."""
    roles = {project.parts[surface.part].role for surface in (mate.first, mate.second)}
    floats = Role.BACK in roles and case.spec.construction.back is BackKind.GROOVE
    if floats or Role.DOOR_PANEL in roles:
        return False
    if Role.DRAWER_BOTTOM in roles or (roles & FRONTS and roles & DRAWER_BOX):
        return False
    return mate.meeting in (Meeting.SEATED, Meeting.SLIP) and Role.ADJUSTABLE_SHELF not in roles


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
