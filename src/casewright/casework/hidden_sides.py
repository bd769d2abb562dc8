"""Which sides of a part nobody sees once the job is in place (common practice, no source).

The one notion of what is in sight: the fit reads from it whether a gap shows, repairs whether a mend does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from .directions import Axis, Way
from .hung import hangs_on_wall
from .job import BackKind, CaseKind, TopKind
from .parts.features.feature import Feature
from .parts.part import Part, Role
from .project import Project

_EDGES = frozenset({Way.LEFT, Way.RIGHT, Way.UP, Way.DOWN, Way.BACK})

_HIDDEN: Mapping[Role, frozenset[Way]] = {
    Role.BOTTOM: frozenset({Way.BACK, Way.LEFT, Way.RIGHT, Way.DOWN}),
    Role.TOP: frozenset({Way.BACK, Way.LEFT, Way.RIGHT, Way.UP}),
    Role.FIXED_SHELF: frozenset({Way.BACK, Way.LEFT, Way.RIGHT}),
    Role.ADJUSTABLE_SHELF: frozenset({Way.BACK, Way.LEFT, Way.RIGHT, Way.DOWN}),
    Role.DIVIDER: frozenset({Way.BACK, Way.UP, Way.DOWN}),
    Role.BACK: _EDGES,
    Role.FRONT_STRETCHER: _EDGES,
    Role.BACK_STRETCHER: _EDGES | {Way.FRONT},
    Role.MOUNTING_STRIP: _EDGES,
    Role.TOE_KICK: _EDGES,
    Role.PLINTH_FRONT: _EDGES - {Way.LEFT, Way.RIGHT},
    Role.PLINTH_BACK: _EDGES | {Way.FRONT},
    Role.PLINTH_END: frozenset({Way.BACK, Way.FRONT, Way.UP, Way.DOWN}),
    Role.FILLER: _EDGES,
    Role.STILE: frozenset({Way.BACK}),
    Role.RAIL: frozenset({Way.BACK, Way.LEFT, Way.RIGHT}),
    Role.MULLION: frozenset({Way.BACK, Way.UP, Way.DOWN}),
    Role.CROSS_RAIL: frozenset({Way.BACK, Way.LEFT, Way.RIGHT}),
    Role.DOOR: frozenset(),
    Role.DOOR_STILE: frozenset(),
    Role.DOOR_RAIL: frozenset({Way.LEFT, Way.RIGHT}),
    Role.DOOR_PANEL: _EDGES - {Way.BACK},
    Role.DRAWER_FRONT: frozenset({Way.BACK}),
    Role.FIXED_FRONT: frozenset({Way.BACK}),
    Role.DRAWER_SIDE: frozenset({Way.FRONT, Way.BACK, Way.DOWN}),
    Role.INNER_FRONT: _EDGES - {Way.BACK, Way.UP} | {Way.FRONT},
    Role.DRAWER_BACK: _EDGES - {Way.UP},
    Role.DRAWER_BOTTOM: _EDGES - {Way.UP} | {Way.FRONT},
}

SIDES = frozenset({Role.LEFT_SIDE, Role.RIGHT_SIDE})


def is_hidden(project: Project, part: Part, side: Way) -> bool:
    """Whether nobody sees this side of the part in the finished job."""
    run, spec = project.run_of(part.case).run, project.cases[part.case].spec
    if part.role in SIDES:
        return _hidden_of_side(project, part, side)
    if part.role is Role.BOTTOM and side is Way.DOWN:
        return not hangs_on_wall(run, spec)
    if part.role is Role.MOUNTING_STRIP and side is Way.FRONT:
        return spec.construction.back is BackKind.GROOVE
    return side in _HIDDEN[part.role]


def shows_front_edge(project: Project, part: Part) -> bool:
    """Whether the part's joints end at a front edge that is seen.

    A back, a strip or a toe kick stands across the case: its face may be in sight, as a back's is inside the
    case, but its edges lie in channels or behind what it meets, and no gap at them is seen.
    """
    return part.lie.worked.axis is not Axis.Y and not is_hidden(project, part, Way.FRONT)


def outer_side(part: Part) -> Way:
    """The side of a case's left or right side that looks away from the case."""
    return Way.LEFT if part.role is Role.LEFT_SIDE else Way.RIGHT


def _hidden_of_side(project: Project, part: Part, side: Way) -> bool:
    run, spec = project.run_of(part.case).run, project.cases[part.case].spec
    if side is outer_side(part):
        return _against_something(project, part)
    if side is Way.DOWN:
        return not hangs_on_wall(run, spec)
    if side is Way.UP:
        return spec.construction.top is TopKind.STRETCHERS or spec.kind in (CaseKind.WALL, CaseKind.TALL)
    return side is Way.BACK


def _against_something(project: Project, part: Part) -> bool:
    """Whether a case of at least its height and depth, or a filler at a wall, stands against it."""
    run = project.run_of(part.case)
    marks = [case.mark for case in run.cases]
    at = marks.index(part.case) + (-1 if part.role is Role.LEFT_SIDE else 1)
    if not 0 <= at < len(marks):
        return (run.run.left if at < 0 else run.run.right) is not None
    own, other = project.cases[part.case], run.cases[at]
    of = project.sizes.of
    return of(other.height) >= of(own.height) and of(other.depth) >= of(own.depth)


def clear_of_features(project: Project, part: Part, side: Way, deep: Fraction) -> bool:
    """Whether nothing is cut into the part within so much of that side."""
    return not any(near_features(project, part, side, deep))


def near_features(project: Project, part: Part, side: Way, deep: Fraction) -> Iterator[Feature]:
    """What is cut into the part within so much of that side (inches)."""
    of = project.sizes.of
    size = of(part.size(side.axis))
    for feature in part.features:
        for box in feature.cuts(part):
            span = box.along(side.axis)
            if of(span.high) - of(span.low) == size:
                continue  # it runs out at this side, and matters only where it does
            near = of(span.low) if side.sign < 0 else size - of(span.high)
            if near < deep:
                yield feature
                break
