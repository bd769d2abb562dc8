"""Butt joints, and the screws that can be driven into them.

A screw goes through the board whose face is met, from its other face. Where another part already stands
against that other face there is no room for a driver: screws beside it are moved along the joint, and a
joint that is covered from end to end is screwed at an angle, through the face of the part that meets it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ...casework.build.meetings import Mate, Meeting, Surface
from ...casework.directions import Axis
from ...casework.extents import RoomBox, part_extent
from ...casework.job import FaceFrame
from ...casework.movement import has_floating_back
from ...casework.parts.part import FACE_FRAME, Part, Role
from ...casework.project import Project
from .screws import Screw, angled_screw, blind_screw, pocket_screw, screw_places, screw_through

DRIVER_ROOM = Fraction(1, 2)
"""Between a screw and a part that stands beside its head, inches. Common practice, no source."""

Span = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class ScrewedJoint:
    """A joint held by screws: through `through` into `into`, at these places along its run.

    `behind` is the part that covers the other face of `into`: such screws go in at an angle, or in pocket
    holes, through the face of `through`. Empty for screws that go in straight, and in a face frame, whose
    screws are pocket screws.
    """

    through: str
    into: str
    screw: Screw
    places: tuple[Fraction, ...]
    behind: str = ""


@dataclass(frozen=True, slots=True)
class UnscrewedJoint:
    """A butt joint with `through` too thick for any standard screw: it is glued and clamped."""

    through: str
    into: str


@dataclass(frozen=True, slots=True)
class _Butt:
    """Where the part `into` meets a face of the board `through`."""

    mate: Mate
    through: Part
    into: Part


def butt_joints(
    project: Project, mates: Sequence[Mate], standing: Sequence[Mate]
) -> Iterator[ScrewedJoint | UnscrewedJoint]:
    """The butt joints among `mates`, in their order; `standing` are the mates of parts joined before."""
    made = list(standing)
    for mate in mates:
        if butt := _butt(project, mate):
            floats = _floats(project, butt.through)
            if joint := _pinned(project, butt, made) if floats else _joint(project, butt, made):
                yield joint
        made.append(mate)


def _butt(project: Project, mate: Mate) -> _Butt | None:
    framed = any(project.parts[surface.part].role in FACE_FRAME for surface in (mate.first, mate.second))
    if mate.meeting is not Meeting.SEATED or framed or _housed(project, mate):
        return None
    met = face_met(project, mate)
    return _Butt(mate, *met) if met else None


def face_met(project: Project, mate: Mate) -> tuple[Part, Part] | None:
    """The board whose face is met and the part whose end or edge meets it; None for two faces or edges."""
    first, second = project.parts[mate.first.part], project.parts[mate.second.part]
    faces = [part for part in (first, second) if part.lie.worked.axis is mate.axis]
    if len(faces) != 1:
        return None
    return (first, second) if faces[0] is first else (second, first)


def _joint(project: Project, butt: _Butt, made: Sequence[Mate]) -> ScrewedJoint | UnscrewedJoint:
    through, into = butt.through, butt.into
    along, run = _run(project, butt.mate)
    unit = project.job.unit
    covered = list(_covered(project, butt, along, made))
    places = _clear_of([span for _, span in covered], screw_places(run))
    if not places:
        screw = angled_screw(project.sizes.of(into.thickness), unit)
        return ScrewedJoint(into.mark, through.mark, screw, screw_places(run), covered[0][0])
    straight = screw_through(project.sizes.of(through.thickness), unit)
    if straight is None:
        return UnscrewedJoint(through.mark, into.mark)
    return ScrewedJoint(through.mark, into.mark, straight, places)


def _floats(project: Project, part: Part) -> bool:
    """Whether a part is a solid back that moves in its grooves: screws across its width would hold it."""
    return part.role is Role.BACK and has_floating_back(project.job, project.cases[part.case].spec)


def _pinned(project: Project, butt: _Butt, made: Sequence[Mate]) -> ScrewedJoint | None:
    """One screw at the middle of the board's width, so that it moves to both sides alike; None where the
    joint is not there, or nothing can be driven in there."""
    across = butt.through.lie.width
    board, other = _box(project, butt.through), _box(project, butt.into)
    middle = (board.low[across.value] + board.high[across.value]) / 2
    low = max(board.low[across.value], other.low[across.value])
    straight = screw_through(project.sizes.of(butt.through.thickness), project.job.unit)
    if straight is None or not low < middle < other.high[across.value]:
        return None
    along, run = _run(project, butt.mate)
    at = middle - low if along is across else run / 2
    covered = (span for _, span in _covered(project, butt, along, made))
    if any(start - DRIVER_ROOM < at < end + DRIVER_ROOM for start, end in covered):
        return None
    return ScrewedJoint(butt.through.mark, butt.into.mark, straight, (at,))


def _covered(project: Project, butt: _Butt, along: Axis, made: Sequence[Mate]) -> Iterator[tuple[str, Span]]:
    """What stands against the other face of the board, with the stretch of the joint that it covers."""
    face = _box(project, butt.into)
    across = next(axis for axis in Axis if axis not in (butt.mate.axis, along))
    start = max(_box(project, each).low[along.value] for each in (butt.through, butt.into))
    for other in made:
        if other.meeting is not Meeting.SEATED or other.axis is not butt.mate.axis:
            continue
        opposed = _opposed(butt, other)
        if opposed is None:
            continue
        box = _box(project, project.parts[opposed])
        if face.shared(box, across) and face.shared(box, along):
            yield opposed, (box.low[along.value] - start, box.high[along.value] - start)


def _opposed(butt: _Butt, other: Mate) -> str | None:
    """The part that meets the board's other face, if `other` is such a meeting."""
    board = butt.through.mark
    if butt.mate.first.part == board and other.second.part == board:
        return other.first.part
    if butt.mate.second.part == board and other.first.part == board:
        return other.second.part
    return None


def pocket_joints(project: Project, mates: Sequence[Mate]) -> Iterator[ScrewedJoint]:
    """The ends of rails and mullions in a face frame joined so: two pocket screws each, from behind."""
    for mate in mates:
        owner = project.cases[project.parts[mate.first.part].case]
        if owner.spec.construction.frame is not FaceFrame.POCKET_SCREWS:
            continue
        first, second = (project.parts[surface.part] for surface in (mate.first, mate.second))
        if mate.meeting is Meeting.SEATED and {first.role, second.role} <= FACE_FRAME:
            ends = [part for part in (first, second) if part.lie.length is mate.axis]
            end = ends[0]
            screw = pocket_screw(project.sizes.of(end.thickness), project.job.unit)
            run = project.sizes.of(end.width)
            into = second if end is first else first
            yield ScrewedJoint(end.mark, into.mark, screw, (run / 4, run * 3 / 4))


def front_joints(project: Project, mates: Sequence[Mate]) -> Iterator[ScrewedJoint]:
    """The drawer fronts that are screwed to their boxes, from inside: four screws each."""
    for mate in mates:
        pair = {one.role: one for end in (mate.first, mate.second) for one in [project.parts[end.part]]}
        front, box = pair.get(Role.DRAWER_FRONT), pair.get(Role.INNER_FRONT)
        if front and box and mate.meeting is Meeting.SEATED:
            through, into = (project.sizes.of(part.thickness) for part in (box, front))
            if screw := blind_screw(through, into, project.job.unit):
                run = project.sizes.of(box.length)
                yield ScrewedJoint(box.mark, front.mark, screw, (run / 6, run / 6, run * 5 / 6, run * 5 / 6))


def _clear_of(covered: Sequence[Span], places: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """The places, those behind a part moved beside it; none where that leaves fewer than two."""
    low, high = places[0], places[-1]
    blocked = [(start - DRIVER_ROOM, end + DRIVER_ROOM) for start, end in covered]

    def free(place: Fraction) -> bool:
        return low <= place <= high and not any(start < place < end for start, end in blocked)

    beside = [edge for span in blocked for edge in span if free(edge)]
    moved = {at if free(at) else min(beside, key=lambda edge: abs(edge - at), default=at) for at in places}
    found = sorted(place for place in moved if free(place))
    return tuple(found) if len(found) > 1 else ()


def _box(project: Project, part: Part) -> RoomBox:
    return part_extent(project, part)


def _run(project: Project, mate: Mate) -> tuple[Axis, Fraction]:
    """The axis along which a joint is long, and how long it is."""
    one, other = shared(project, mate)
    first, second = (axis for axis in Axis if axis is not mate.axis)
    return (first, one) if one >= other else (second, other)


def contact(project: Project, mate: Mate) -> Fraction:
    """How much of two parts meets at a mate, in square inches: what their blanks share across it."""
    one, other = shared(project, mate)
    return one * other


def shared(project: Project, mate: Mate) -> tuple[Fraction, Fraction]:
    """How far two parts run side by side along each of the axes across a mate."""
    one, other = (_box(project, project.parts[surface.part]) for surface in (mate.first, mate.second))
    first, second = (one.shared(other, axis) for axis in Axis if axis is not mate.axis)
    return first, second


def _housed(project: Project, mate: Mate) -> bool:
    """Whether one of the surfaces lies within its part: the floor or wall of a channel."""
    return any(not is_on_blank(project, surface) for surface in (mate.first, mate.second))


def is_on_blank(project: Project, surface: Surface) -> bool:
    """Whether a surface is one of the six of its part's blank, no floor or wall of a channel."""
    part = project.parts[surface.part]
    return project.sizes.of(surface.at) == project.sizes.of(part.end(surface.looks.axis, surface.looks))
