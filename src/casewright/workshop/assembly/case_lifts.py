"""What a case weighs when it is stood up or hung, and how many lift it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.extents import case_extent
from ...casework.parts.part import DRAWER_BOX, FRONTS, Role
from ...casework.parts.weights import weight_of
from ...casework.project import Project
from ...lengths.quantities import weighed
from ..sheets.lifts import is_for_two

LEFT_OUT = FRONTS | DRAWER_BOX | {Role.ADJUSTABLE_SHELF, Role.FILLER}
"""Not in a case when it is carried: loose shelves, doors, and fillers, which are fitted at the wall."""


@dataclass(frozen=True, slots=True)
class CaseLift:
    """Pounds of a case as it is carried and with its loose shelves and fillers, None where a sheet's weight
    is not known; `for_two` where it passes what the shop carries alone, or may."""

    carried: Fraction | None
    whole: Fraction | None
    for_two: bool


def case_lift(project: Project, mark: str) -> CaseLift:
    """The lift of the case called `mark`."""
    case = project.cases[mark]
    carried = weight_of(project, (part for part in case.own_parts if part.role not in LEFT_OUT))
    longest = max(case_extent(project, case).size)
    return CaseLift(
        carried,
        weight_of(project, case.own_parts),
        carried is None or is_for_two(project.job.shop.carry, carried, longest),
    )


def weight_words(project: Project, mark: str) -> str:
    """What the case weighs as it is carried, and whole where that is more."""
    lift, unit = case_lift(project, mark), project.job.unit
    if lift.carried is None or lift.whole is None:
        return "weight not known"
    carried, whole = weighed(lift.carried, unit), weighed(lift.whole, unit)
    return carried if carried == whole else f"{carried}, {whole} with drawers, doors and loose shelves"
