"""The role of a gap at the dry fit, read from how its two surfaces lie: what decides whether it may be open
or tight.

What placed a part is its first meeting. A later meeting of the same part shows as a lean or as a step, and a
part that can slide takes up the error of its groove.
"""

from __future__ import annotations

from enum import Enum

from ...casework.build.meetings import Mate, Meeting, Surface
from ...casework.directions import Axis
from ...casework.hidden_sides import shows_front_edge
from ...casework.parts.part import DRAWER_BOX, FACE_FRAME, FRAMED_DOOR, FRONTS, MADE_TO_THE_BOX, Part, Role
from ...casework.project import Project


class GapRole(Enum):
    """What a gap does at the dry fit."""

    OWN_DADO = "a panel in its own dado"
    END = "an end against what it stops at"
    LEAN = "where a second joint holds a part"
    STEP = "channels in line"
    BACK_PLAY = "the play of a back or of a drawer's bottom"
    SHELF_PLAY = "a shelf between its uprights"
    PINS = "a shelf on its pins"
    OVERHANG = "an edge that must not stand out"
    CONCEALED = "nothing hangs on it"
    REVEAL = "the gap beside a door or drawer front"
    SLIDE = "a drawer between its slides"
    OPENING = "the run in its opening"


class Sight(Enum):
    """Who sees a surface, in the words of the casework standards."""

    EXPOSED = "exposed"
    SEMI_EXPOSED = "semi-exposed"
    CONCEALED = "concealed"


CUT_TO_THE_CASE = MADE_TO_THE_BOX | {
    Role.MOUNTING_STRIP,
    Role.TOE_KICK,
    Role.PLINTH_FRONT,
    Role.PLINTH_BACK,
    Role.PLINTH_END,
}
"""What goes in last and out of sight, face frames and fronts: a maker cuts them to the case that stands."""


def role_of(project: Project, mate: Mate) -> GapRole:
    """The role of the gap that a chain closes at `mate`."""
    first, second = project.parts[mate.first.part], project.parts[mate.second.part]
    roles = {first.role, second.role}
    if roles & FRONTS and mate.axis is not Axis.Y and roles - FRAMED_DOOR:
        return GapRole.REVEAL
    if mate.meeting is Meeting.PLAY:
        if Role.DRAWER_SIDE in roles and not roles <= DRAWER_BOX:
            return GapRole.SLIDE
        return GapRole.BACK_PLAY if roles & {Role.BACK, Role.DRAWER_BOTTOM} else GapRole.SHELF_PLAY
    if mate.meeting is Meeting.FLUSH:
        if Role.BACK in roles:
            return GapRole.OVERHANG
        return GapRole.STEP if mate.axis is Axis.Y else GapRole.CONCEALED
    in_channel = not (is_outside(project, mate.first, first) and is_outside(project, mate.second, second))
    if roles <= FACE_FRAME:
        return GapRole.CONCEALED  # each piece is cut to those that lie on the bench before it
    if mate.meeting is Meeting.SLIP:
        return GapRole.OWN_DADO if in_channel else GapRole.CONCEALED
    if in_channel and lies_in_it(project, mate) is not None:
        return _on_a_wall(project, mate)
    if mate.axis is not Axis.Y and _under(roles):
        return GapRole.OVERHANG
    return GapRole.CONCEALED if mate.axis is Axis.Y or roles & CUT_TO_THE_CASE else GapRole.END


def lies_in_it(project: Project, mate: Mate) -> Part | None:
    """The part that lies in a channel or on pins of the other, its faces along the meeting; None for an
    end."""
    for own, other in ((mate.first, mate.second), (mate.second, mate.first)):
        part, holder = project.parts[own.part], project.parts[other.part]
        flat = part.lie.worked.axis is mate.axis
        across = holder.lie.worked.axis is not mate.axis or _is_wall(project, other, holder)
        if flat and across and not is_outside(project, other, holder):
            return part
    return None


def _is_wall(project: Project, surface: Surface, part: Part) -> bool:
    """Whether a surface is a wall of a channel in the part's edge."""
    of, at = project.sizes.of, project.sizes.of(surface.at)
    walls = (channel.walls(part) for channel in part.channels if channel.edge.axis is surface.looks.axis)
    return any(at in (of(wall.low), of(wall.high)) for wall in walls)


def sight_of(project: Project, mate: Mate, role: GapRole) -> Sight:
    """Who sees the gap at its front edge."""
    parts = (project.parts[mate.first.part], project.parts[mate.second.part])
    if role in (GapRole.CONCEALED, GapRole.OVERHANG):
        return Sight.CONCEALED
    if not all(shows_front_edge(project, part) for part in parts):
        return Sight.CONCEALED
    return Sight.SEMI_EXPOSED if role in (GapRole.PINS, GapRole.SHELF_PLAY) else Sight.EXPOSED


def _on_a_wall(project: Project, mate: Mate) -> GapRole:
    part = lies_in_it(project, mate)
    assert part is not None
    if part.role is Role.ADJUSTABLE_SHELF:
        return GapRole.PINS
    if part.role is Role.BACK:
        holder = project.parts[mate.first.part if mate.second.part == part.mark else mate.second.part]
        grooved = any(channel.takes_back and channel.kind.value != "rabbet" for channel in holder.channels)
        return GapRole.STEP if grooved else GapRole.CONCEALED
    return GapRole.LEAN


def _under(roles: set[Role]) -> bool:
    """A toe kick under the bottom: too tall, it stands on the floor before the sides do."""
    return Role.TOE_KICK in roles and Role.BOTTOM in roles


def is_outside(project: Project, surface: Surface, part: Part) -> bool:
    """Whether a surface is a side of its part, and not the wall of a channel, a pin or a line on it."""
    at = project.sizes.of(surface.at)
    return at in (0, project.sizes.of(part.size(surface.looks.axis)))
