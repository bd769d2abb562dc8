"""When a worktop goes on, and how it is screwed from below."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.directions import Axis
from ...casework.extents import part_extent
from ...casework.parts.part import Role
from ...casework.project import Project
from ...casework.worktops import LaidWorktop, worktop_over
from ...lengths.in_a_sentence import listed
from ...lengths.quantities import weighed
from ...lengths.told_lengths import told_at_most
from ..who_lifts import Lifters, sheet_rule
from .screws import drill, screw_from_below, screw_words

Z = Axis.Z.value
INTO_TOP = Fraction(2, 3)
"""How deep a screw goes into a worktop at most, of its thickness. Common practice, no source."""

SCREWED_THROUGH = {
    Role.FRONT_STRETCHER: "the stretchers",
    Role.BACK_STRETCHER: "the stretchers",
    Role.TOP: "the case’s top",
}


@dataclass(frozen=True)
class WorktopStep:
    """The step on the leaf of the last case under a worktop: what to do, and what to have at hand."""

    words: str
    notes: tuple[str, ...]


def worktop_step(project: Project, mark: str) -> WorktopStep | None:
    """The step of a case; None unless it is the last, from the left, on which a worktop lies."""
    laid = worktop_over(project, mark)
    if laid is None or laid.marks[-1] != mark:
        return None
    front = "flush with the cases’ fronts"
    if laid.top.overhang:
        front = f"{project.printed(laid.top.overhang)} in front of the cases"
    once = f"{mark} stands" if len(laid.marks) == 1 else f"{listed(laid.marks)} stand"
    words = (
        f"Once {once} level and fixed, lay the worktop on, its front edge {front}; its upper face is then "
        f"{project.printed(laid.box.high[Z])} above the floor. {_screwed(project, mark, laid)}"
    )
    return WorktopStep(words, tuple(_weight(project, laid)))


def _screwed(project: Project, mark: str, laid: LaidWorktop) -> str:
    """Through what it is screwed, and how long the screws may be."""
    case = project.cases[mark]
    through = [part for part in case.parts if part.role in SCREWED_THROUGH]
    if not through:
        return "The case has no top to screw through: fix it by blocks in the corners."
    part = through[0]
    unit, holds = project.job.unit, SCREWED_THROUGH[part.role]
    packing = max(laid.box.low[Z] - part_extent(project, part).high[Z], Fraction(0))
    passes = project.sizes.of(part.thickness) + packing
    most = passes + INTO_TOP * laid.top.thick
    said = f"from below through {holds}"
    if packing:
        said += f" and packing {project.printed(packing)} thick"
    screw = screw_from_below(passes, most, unit)
    if screw is None:
        return f"No standard screw stays within two thirds of it {said}: fix it by blocks, or glue it."
    return (
        f"Screw it {said} with {screw_words(screw.size, screw.length, project.job.mark)}: no screw may be "
        f"longer than what it passes and two thirds of the worktop, {told_at_most(most, project.job.mark)}. "
        f"Drill {drill(screw.clearance, unit)} through {holds}; for solid wood make those slots across its "
        "grain, so that it can move."
    )


def worktop_lifters(project: Project, laid: LaidWorktop) -> Lifters:
    """Who lifts a worktop on edge, as a sheet is."""
    return sheet_rule(project.job.shop.carry).lifters(laid.pounds, max(laid.box.size))


def _weight(project: Project, laid: LaidWorktop) -> list[str]:
    if laid.pounds is None:
        return []
    lifters = worktop_lifters(project, laid)
    return [f"the worktop {weighed(laid.pounds, project.job.unit)}: {lifters.words(project.job.unit)}"]
