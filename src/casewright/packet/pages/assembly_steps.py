"""How a case is assembled, as numbered steps: a dry fit, the back to size, glue-ups, the wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ...bearing.standing_wording import LEVELLED, into_words, stand_told
from ...casework.parts.part import Role
from ...casework.project import Project
from ...drawings.kit.lettering import THIN_SPACE, dimension_text
from ...lengths.in_a_sentence import listed
from ...lengths.quantities import area, weighed
from ...workshop.assembly.back_sums import BackSum, back_sums
from ...workshop.assembly.frame_sums import rail_sum
from ...workshop.assembly.hanging import placed_case
from ...workshop.assembly.join_wording import clamp_words, screw_groups
from ...workshop.assembly.joining import GlueUp, Stage, dry_fit_measures
from ...workshop.assembly.screws import drill, screw_words
from ...workshop.assembly.worktop_step import worktop_step
from ...workshop.edging_wording import case_edging_words
from ...workshop.hardware import PINS_TO_A_SHELF
from .fitting_pages import MINUS, rounded_term
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


_ONCE_ALL_ARE_DRY_FITTED = "Once all the cases under the frame are dry-fitted, cut its rails:"


def assembly_steps(project: Project, mark: str, glue_ups: Sequence[GlueUp]) -> tuple[AssemblyStep, ...]:
    """The steps of the case called `mark`: the dry fit, its back, its glue-ups, then what is done at the
    wall. Nothing that is needed there stands on another page."""
    over_all = project.cases[mark].shares_frame
    hung = [_glued(project, joining) for joining in glue_ups if joining.stage is Stage.FRONTS]
    glued = [
        _glued(project, joining)
        for joining in glue_ups
        if joining.stage is not Stage.FRONTS and not (over_all and _is_frame(joining))
    ]
    frames = [_glued(project, joining) for joining in glue_ups if over_all and _is_frame(joining)]
    rails = tuple(_rails(project, mark))
    return (
        _dry_fit(project, mark),
        *glued,
        *_front_edging(project, mark),
        *_at_the_wall(project, mark),
        *_worktop(project, mark),
        # Doors and drawers would only add to what is lifted.
        *(hung if not frames else ()),
        *_loose_shelves(project, mark),
        *([AssemblyStep("rails", _ONCE_ALL_ARE_DRY_FITTED, (), (), rails)] if rails and frames else ()),
        *frames,
        *(hung if frames else ()),
    )


def _glued(project: Project, joining: GlueUp) -> AssemblyStep:
    return AssemblyStep(joining.title, joining.words, joining.parts, tuple(_notes(project, joining)))


def _is_frame(joining: GlueUp) -> bool:
    return joining.stage is Stage.FRAME


def _front_edging(project: Project, mark: str) -> Iterator[AssemblyStep]:
    """The strips over the bare front, with room at their ends to trim."""
    if words := " ".join(case_edging_words(project, mark)):
        yield AssemblyStep(
            "edging",
            f"Over the front, once the glue has set, the sides first: {words} Trim the faces flush.",
            (),
        )


def _dry_fit(project: Project, mark: str) -> AssemblyStep:
    """What is measured before any glue, and how the back's width follows from it."""
    backs = back_sums(project, [mark])
    measured = [
        (one.words, dimension_text(one.expected, project.rule)) for one in dry_fit_measures(project, mark)
    ]
    widths = [
        (_back_sum(project, one), dimension_text(one.width, project.rule)) for one in backs if one.depths
    ]
    return AssemblyStep(
        "dry fit",
        "Assemble without glue, before the back is cut, and measure:",
        (),
        tuple(f"then cut {one.mark} {_to_width(project, one)}, and try it before any glue" for one in backs),
        (*measured, *widths, *(() if project.cases[mark].shares_frame else _rails(project, mark))),
    )


def _rails(project: Project, mark: str) -> Iterator[tuple[str, str]]:
    """How the rails of a face frame follow from the room between the sides of the cases it covers."""
    found = rail_sum(project, mark)
    if found is not None:
        by = f"{MINUS if found.shorter else '+'} {dimension_text(found.by, project.rule)}"
        room = "room" if len(found.cases) == 1 else f"rooms of {listed(found.cases)} as dry-fitted,"
        words = f"{listed(found.marks)} long: {room} {by if found.by else ''}".strip(" ,")
        yield words, dimension_text(found.length, project.rule)


def _back_sum(project: Project, one: BackSum) -> str:
    """How a back's width follows from what is measured."""
    play, rounded = dimension_text(one.play, project.rule), rounded_term(project, one)
    planned = f" (as planned {rounded}, rounding)" if rounded else ""
    return f"{one.mark} wide: room + depths {MINUS} {play}{planned}"


def _to_width(project: Project, one: BackSum) -> str:
    """To what width a back is cut: the sum, or the plan where it lies in no channels of the sides."""
    return "to that width" if one.depths else f"{dimension_text(one.width, project.rule)} wide"


def _at_the_wall(project: Project, mark: str) -> Iterator[AssemblyStep]:
    """What is left when the case is glued: to its place, fillers."""
    parts, unit = project.cases[mark].parts, project.job.unit
    placed = placed_case(project, mark)
    lift = placed.lift
    told = None if placed.hung else stand_told(project, mark)
    words = f"{LEVELLED} {told.fixed}" if told else ""
    if placed.hung:
        strips = listed(dimension_text(at, project.rule) for at in placed.strips)
        through = f"through its strips, {strips} above the floor, " if strips else ""
        into = into_words(project, placed.wall, ())
        low = dimension_text(placed.bottom, project.rule)
        words = f"Hang it level, its lower edge {low} up; fix it {through}{into}."
    weight = "" if lift.carried is None else weighed(lift.carried, unit)
    if weight and lift.carried != lift.whole:
        weight += " without what goes on or in later"
    notes = (": ".join(filter(None, (weight, lift.words(project)))), told.held if told else "")
    yield AssemblyStep("hanging" if placed.hung else "standing", words, (), tuple(filter(None, notes)))
    if fillers := [part.mark for part in parts if part.role is Role.FILLER]:
        words = (
            "At the wall, with the case level and fixed: measure the gap at the top, middle and bottom, "
            f"scribe, cut close and plane to the line. {_filler_held(project, mark)}, flush with the front."
        )
        yield AssemblyStep("fillers", words, tuple(fillers))


def _worktop(project: Project, mark: str) -> Iterator[AssemblyStep]:
    """The top that lies on it and its neighbours, once the last of them stands."""
    if step := worktop_step(project, mark):
        yield AssemblyStep("worktop", step.words, (), step.notes)


def _loose_shelves(project: Project, mark: str) -> Iterator[AssemblyStep]:
    parts = project.cases[mark].parts
    if shelves := [part.mark for part in parts if part.role is Role.ADJUSTABLE_SHELF]:
        words = f"Last, on {PINS_TO_A_SHELF * len(shelves)} pins."
        yield AssemblyStep("loose shelves", words, tuple(shelves))


def _filler_held(project: Project, mark: str) -> str:
    """How a filler is fixed: a stile is in the way of screws from inside."""
    if project.cases[mark].spec.construction.has_frame:
        return "Glue it to the edge of the stile, with a screw in a pocket hole from behind at each end"
    return "Screw through the side from inside, or glue"


def _notes(project: Project, joining: GlueUp) -> Iterator[str]:
    finest, unit = project.rule, project.job.unit
    glue = f"glue for {area(joining.glue, unit)}" if joining.glue else ""
    if held := ", ".join(filter(None, (clamp_words(joining), glue))):
        yield held
    for group in screw_groups(joining):
        holes = group.how
        if not group.screw.pocket:
            holes = f"pilot {drill(group.screw.pilot, unit)}{f', {holes}' if holes else ''}"
        screw = screw_words(group.screw.size, group.screw.length, finest, gap=THIN_SPACE)
        yield f"{group.number} screws {screw}, {holes}: {'; '.join(group.where)}"
    for board in joining.unscrewed:
        yield f"no screw goes through {board.through} into {board.into}: glue and clamp it, or dowel it"
    if joining.diagonal is not None:
        yield f"both diagonals {dimension_text(joining.diagonal, finest)}"
