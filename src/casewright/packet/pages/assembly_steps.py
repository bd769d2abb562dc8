"""How a case is assembled, as numbered steps: a dry fit, the back to size, glue-ups, the wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ...casework.parts.part import Role
from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text
from ...lengths.quantities import area, weighed
from ...workshop.assembly.case_lifts import case_lift
from ...workshop.assembly.join_wording import clamp_words, screw_groups
from ...workshop.assembly.joining import GlueUp, dry_fit_measures
from ...workshop.assembly.screws import Screw, drill
from ...workshop.edging_wording import case_edging_words
from ...workshop.hardware import PINS_TO_A_SHELF
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
    """The steps of the case called `mark`: the dry fit, its back, its glue-ups, then what is done at the
    wall."""
    dry = AssemblyStep(
        "dry fit",
        "Assemble without glue, before the back is cut, and measure:",
        (),
        tuple(_back_to_size(project, mark)),
        tuple(
            (measure.words, dimension_text(measure.expected, project.rule))
            for measure in dry_fit_measures(project, mark)
        ),
    )
    glued = (
        AssemblyStep(joining.stage.value, joining.words, joining.parts, tuple(_notes(project, joining)))
        for joining in glue_ups
    )
    return (dry, *glued, *_front_edging(project, mark), *_at_the_wall(project, mark))


def _front_edging(project: Project, mark: str) -> Iterator[AssemblyStep]:
    """The strips over the bare front, with room at their ends to trim."""
    if words := " ".join(case_edging_words(project, mark)):
        yield AssemblyStep("edging", f"Over the front, once the glue has set: {words} Trim them flush.", ())


def _back_to_size(project: Project, mark: str) -> Iterator[str]:
    """No glue before the back is there: it is cut to what the dry fit measured."""
    if backs := [part.mark for part in project.cases[mark].parts if part.role is Role.BACK]:
        yield f"then cut {' and '.join(backs)} to the sum on the page of backs and try it, before any glue"


def _at_the_wall(project: Project, mark: str) -> Iterator[AssemblyStep]:
    """What is left when the case is glued: to its place, fillers, loose shelves."""
    parts, unit = project.cases[mark].parts, project.job.unit
    lift = case_lift(project, mark)
    hung = bool(project.run_of(mark).run.lift)
    words = "Hang it as the page of hanging tells" if hung else "Stand it up and bring it to its place"
    weight = "" if lift.carried is None else weighed(lift.carried, unit)
    if weight and lift.carried != lift.whole:
        weight += " without fillers and loose shelves"
    helped = "lifted by two" if lift.for_two else "one person lifts it"
    notes = (", ".join(filter(None, (weight, helped))),)
    yield AssemblyStep("hanging" if hung else "standing", f"{words}.", (), notes)
    if fillers := [part.mark for part in parts if part.role is Role.FILLER]:
        words = (
            "At the wall, with the case level and fixed: scribe to the wall, cut to the line, then screw "
            "through the side from inside the case, or glue, flush with the front edge."
        )
        yield AssemblyStep("fillers", words, tuple(fillers))
    if shelves := [part.mark for part in parts if part.role is Role.ADJUSTABLE_SHELF]:
        words = f"Last, on {PINS_TO_A_SHELF * len(shelves)} pins."
        yield AssemblyStep("loose shelves", words, tuple(shelves))


def _notes(project: Project, joining: GlueUp) -> Iterator[str]:
    finest, unit = project.rule, project.job.unit
    glue = f"glue for {area(joining.glue, unit)}" if joining.glue else ""
    if held := ", ".join(filter(None, (clamp_words(joining), glue))):
        yield held
    for group in screw_groups(joining):
        way = f", {group.how}" if group.how else ""
        pilot = drill(group.screw.pilot, unit)
        screws = screw_words(project, group.screw)
        yield f"{group.number} screws {screws}, pilot {pilot}{way}: {'; '.join(group.where)}"
    for board in joining.unscrewed:
        yield f"no screw goes through {board.through} into {board.into}: glue and clamp it, or dowel it"
    if joining.diagonal is not None:
        yield f"both diagonals {dimension_text(joining.diagonal, finest)}"


def screw_words(project: Project, screw: Screw) -> str:
    """`#8 × 1 3/4`."""
    return f"{screw.size} × {dimension_text(screw.length, project.rule)}"
