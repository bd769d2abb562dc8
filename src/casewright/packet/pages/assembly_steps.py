"""How a case is assembled, as numbered steps: a dry fit to measure, then each glue-up with its screws."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text
from ...lengths.quantities import area
from ...workshop.assembly.joining import GlueUp, ScrewedJoint, dry_fit_measures
from ...workshop.assembly.screws import Screw, drill
from .page_picture import Json


@dataclass(frozen=True)
class AssemblyStep:
    """One step: its title, what to do, the parts it joins, what to have at hand, and what to measure: words
    and the planned figure, with room for the reading."""

    title: str
    words: str
    marks: tuple[str, ...]
    notes: tuple[str, ...] = ()
    measures: tuple[tuple[str, str], ...] = ()

    def plain(self) -> Json:
        """The step as plain values for the template."""
        return {
            "title": self.title,
            "words": self.words,
            "marks": list(self.marks),
            "notes": list(self.notes),
            "measures": [{"words": words, "planned": planned} for words, planned in self.measures],
        }


def assembly_steps(project: Project, mark: str, glue_ups: Sequence[GlueUp]) -> tuple[AssemblyStep, ...]:
    """The steps of the case called `mark`: the dry fit, then its glue-ups."""
    dry = AssemblyStep(
        "dry fit",
        "Assemble without glue, before the back is cut, and measure:",
        (),
        measures=tuple(
            (measure.words, dimension_text(measure.expected, project.rule))
            for measure in dry_fit_measures(project, mark)
        ),
    )
    glued = (
        AssemblyStep(joining.stage.value, joining.words, joining.parts, tuple(_notes(project, joining)))
        for joining in glue_ups
    )
    return (dry, *glued)


def _notes(project: Project, joining: GlueUp) -> Iterator[str]:
    finest = project.rule
    glue = f", glue for {area(joining.glue, project.job.unit)}" if joining.glue else ""
    yield f"{joining.clamps} clamps{glue}"
    by_screw: dict[Screw, list[ScrewedJoint]] = {}
    for joint in joining.screws:
        by_screw.setdefault(joint.screw, []).append(joint)
    for screw, joints in by_screw.items():
        number = sum(len(joint.places) for joint in joints)
        where = "; ".join(_through(joints))
        pilot = drill(screw.pilot, project.job.unit)
        yield f"{number} screws {screw_words(project, screw)}, pilot {pilot}: {where}"
    for board in joining.unscrewed:
        yield f"no screw goes through {board.through} into {board.into}: glue and clamp it, or dowel it"
    if joining.diagonal is not None:
        yield f"both diagonals {dimension_text(joining.diagonal, finest)}"


def _through(joints: list[ScrewedJoint]) -> Iterator[str]:
    """Where screws go, with joints of equal counts into the same boards in one phrase."""
    into: dict[tuple[str, int], list[str]] = {}
    for joint in joints:
        into.setdefault((joint.through, len(joint.places)), []).append(joint.into)
    alike: dict[tuple[int, tuple[str, ...]], list[str]] = {}
    for (through, number), boards in into.items():
        alike.setdefault((number, tuple(boards)), []).append(through)
    for (number, met), throughs in alike.items():
        yield f"{number} each through {', '.join(throughs)} into {', '.join(met)}"


def screw_words(project: Project, screw: Screw) -> str:
    """`#8 × 1 3/4`."""
    return f"{screw.size} × {dimension_text(screw.length, project.rule)}"
