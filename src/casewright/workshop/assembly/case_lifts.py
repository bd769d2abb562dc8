"""What a case weighs when it is stood up or hung, and who lifts it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from ...casework.directions import Axis
from ...casework.extents import case_body, case_extent
from ...casework.hung import hangs_on_wall
from ...casework.parts.part import DRAWER_BOX, FRONTS, Role
from ...casework.parts.weights import weight_of
from ...casework.project import Project
from ...lengths.quantities import weighed
from ..who_lifts import Lifters, LiftRule, hanging_rule, standing_rule

X, Y, Z = (axis.value for axis in Axis)
LEFT_OUT = FRONTS | DRAWER_BOX | {Role.ADJUSTABLE_SHELF, Role.FILLER}
"""Not in a case when it is carried: loose shelves, doors, and fillers, which are fitted at the wall."""


@dataclass(frozen=True, slots=True)
class CaseLift:
    """Pounds of a case as it is carried and with its loose shelves and fillers, None where a sheet's weight
    is not known, and who lifts it to its place."""

    carried: Fraction | None
    whole: Fraction | None
    lifters: Lifters

    def words(self, project: Project) -> str:
        """Who lifts it; two, where its weight is not known."""
        if self.carried is None:
            return "two lift it: a material says no weight"
        return self.lifters.words(project.job.unit)


def case_lift(project: Project, mark: str) -> CaseLift:
    """The lift of the case called `mark`."""
    case = project.cases[mark]
    carried = weight_of(project, (part for part in case.own_parts if part.role not in LEFT_OUT))
    lifters = _rule(project, mark).lifters(carried, max(case_extent(project, case).size))
    if carried is None:
        lifters = replace(lifters, people=2)
    return CaseLift(carried, weight_of(project, case.own_parts), lifters)


def _rule(project: Project, mark: str) -> LiftRule:
    case, carry = project.cases[mark], project.job.shop.carry
    body = case_body(project, case)
    if hangs_on_wall(project.run_of(mark).run, case.spec):
        return hanging_rule(carry, body.size[Y], body.low[Z])
    return standing_rule(carry, min(body.size[X], body.size[Y]))


def weight_words(project: Project, mark: str) -> str:
    """What the case weighs as it is carried, whole where that is more, and who lifts it."""
    lift, unit = case_lift(project, mark), project.job.unit
    if lift.carried is None or lift.whole is None:
        return "weight not known"
    carried, whole = weighed(lift.carried, unit), weighed(lift.whole, unit)
    with_all = "" if carried == whole else f", {whole} with drawers, doors and loose shelves"
    return f"{carried} ({lift.lifters.short}){with_all}"
