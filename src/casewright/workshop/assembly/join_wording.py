"""What is said of a glue-up's clamps and screws, alike on paper and on the bench's screen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ...casework.project import Project
from ...lengths.quantities import area
from .butt_joints import ScrewedJoint
from .joining import GlueUp
from .screws import Screw, drill, screw_words

AT_AN_ANGLE = "at an angle or in pocket holes, as the part opposite is in the way of straight ones"
IN_POCKETS = "in pocket holes from behind, jig and stepped bit set for the frame's thickness"
IN_THE_MIDDLE = "at the middle of its width only, so that solid wood can move to both sides"


@dataclass(frozen=True, slots=True)
class ScrewGroup:
    """Screws of one size that are driven alike: how many, how if not straight, through what into what."""

    screw: Screw
    number: int
    how: str
    where: tuple[str, ...]


def screw_groups(joining: GlueUp) -> tuple[ScrewGroup, ...]:
    """The screws of a glue-up: by size, the straight ones first."""
    by_way: dict[tuple[Screw, str], list[ScrewedJoint]] = {}
    for joint in sorted(joining.screws, key=lambda one: bool(one.behind)):
        by_way.setdefault((joint.screw, _how(joint)), []).append(joint)
    return tuple(
        ScrewGroup(screw, sum(len(joint.places) for joint in joints), how, tuple(_where(joints)))
        for (screw, how), joints in by_way.items()
    )


def _how(joint: ScrewedJoint) -> str:
    if joint.screw.pocket:
        return IN_POCKETS
    if len(joint.places) == 1:
        return IN_THE_MIDDLE
    return AT_AN_ANGLE if joint.behind else ""


def _where(joints: Iterable[ScrewedJoint]) -> Iterator[str]:
    """Where screws go, with joints of equal counts into the same boards in one phrase."""
    into: dict[tuple[str, int], list[str]] = {}
    for joint in joints:
        into.setdefault((joint.through, len(joint.places)), []).append(joint.into)
    alike: dict[tuple[int, tuple[str, ...]], list[str]] = {}
    for (through, number), boards in into.items():
        alike.setdefault((number, tuple(boards)), []).append(through)
    for (number, met), throughs in alike.items():
        yield f"{number} each through {', '.join(throughs)} into {', '.join(met)}"


def clamp_words(joining: GlueUp) -> str:
    """How many clamps are on at once; empty where none is."""
    number = joining.clamps.number
    if not number:
        return ""
    cauls = ", with cauls to spread them" if joining.clamps.cauls else ""
    return f"{number} clamp{'s at once' if number > 1 else ''}{cauls}"


def join_sentences(project: Project, join: GlueUp) -> Iterator[str]:
    """All that is said of a glue-up on the bench's screen, in sentences."""
    unit = project.job.unit

    text = project.printed
    yield join.words
    yield f"{', '.join(join.parts)}."
    if clamps := clamp_words(join):
        yield f"{clamps}."
    if join.glue:
        yield f"Glue for {area(join.glue, unit)}."
    for group in screw_groups(join):
        holes = group.how
        if not group.screw.pocket:
            pilot, clearance = drill(group.screw.pilot, unit), drill(group.screw.clearance, unit)
            holes = f"pilot {pilot}, clearance {clearance} (try in scrap){f', {holes}' if holes else ''}"
        size = screw_words(group.screw.size, group.screw.length, project.rule)
        yield f"{group.number} screws {size}, {holes}: {'; '.join(group.where)}."
    for board in join.unscrewed:
        yield (
            f"{board.through} is too thick to screw to {board.into}: glue and clamp the joint, or dowel it."
        )
    if join.diagonal is not None:
        what = "case" if join.number is None else "box"
        yield f"Both diagonals {text(join.diagonal)} when the {what} is square."
