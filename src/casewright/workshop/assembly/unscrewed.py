"""Findings for boards too thick to be screwed to what meets their face."""

from __future__ import annotations

from ...casework.project import Project
from ...findings import Finding, Weight
from .joining import glue_ups
from .screws import screw_through


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
    thickness = project.printed(project.sizes.of(project.parts[through].thickness))
    return Finding(
        "no-screw",
        through,
        f"{through} is {thickness} thick: no standard screw reaches through it to hold {', '.join(into)}, "
        "so only glue would hold the joint.",
        "Choose dado joints, or fasten the joint with bolts or dowels.",
        Weight.WARN,
    )
