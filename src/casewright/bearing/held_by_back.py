"""The fixed shelves that the back of their case holds: it is screwed into their rear edges at the glue-up."""

from __future__ import annotations

from fractions import Fraction

from ..casework.build.case import Case
from ..casework.job import BackKind
from ..casework.movement import has_floating_back
from ..casework.parts.part import Role
from ..casework.project import Project
from ..workshop.assembly.butt_joints import ScrewedJoint, butt_joints

THINNEST_BACK = Fraction(3, 16)
"""Inches: a thinner back tears out at its screws. Common practice, no source."""


def back_can_hold(project: Project, case: Case) -> bool:
    """Whether a shelf can be screwed to the back of a case all along: there is one, thick enough, and it does
    not move in its grooves."""
    back = project.job.sheets[case.spec.materials.back]
    there = case.spec.construction.back is not BackKind.NONE
    return there and back.thickness >= THINNEST_BACK and not has_floating_back(project.job, case.spec)


def held_by_back(project: Project, case: Case) -> frozenset[str]:
    """The marks of the fixed shelves that the bench plan screws to the back from end to end."""
    if not back_can_hold(project, case):
        return frozenset()
    pair = {Role.BACK, Role.FIXED_SHELF}
    mates = [
        mate
        for mate in case.mates
        if {project.parts[end.part].role for end in (mate.first, mate.second)} == pair
    ]
    return frozenset(
        joint.into
        for joint in butt_joints(project, mates, ())
        if isinstance(joint, ScrewedJoint) and len(joint.places) > 1
    )
