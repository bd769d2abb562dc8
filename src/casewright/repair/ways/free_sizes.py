"""Change a size of the job so that a part is right as it was cut: which inputs, and by how much.

A part's size is affine in the job's inputs. One input with a coefficient k closes a size that is
off by d when it moves by d / k. Where the input is a case's width, a neighbour or a filler of
the same run must take the opposite, or the opening would no longer be filled.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product

from ...casework.inputs import Sort, input_called, with_input
from ...casework.job import Job
from ...casework.parts.part import Part
from ...casework.project import DrawnRun, Project, draw_up
from ...casework.size_names import JOB, CaseSizes, read_name
from ...errors import JobError
from ...sizes.affine import Affine
from ...sizes.ledger import Combination, Given, Share
from ..facts import AsCut
from ..price import Seen, most_seen
from ..what_lines_up import (
    IN_LINE,
    UNNOTICED,
    dividers_line_up,
    is_above_the_eye,
    joints_line_up,
    shelf_lines_up,
    shelves_moved,
)
from .way import SetInput

FREE_CONSTRUCTION = frozenset(
    {"toe_height", "toe_depth", "stretcher_width", "strip_width", "shelf_setback", "back_inset"}
)
"""The construction's sizes that may be changed. Depths and fits of joints are not among them, since the
cutter is already set for the other parts."""

FREE = frozenset({Sort.WIDTH, Sort.HEIGHT, Sort.DEPTH, Sort.BAY, Sort.SHELF, Sort.FILLER})
"""The other inputs that may be changed."""

IN_SIGHT = {
    Sort.WIDTH: 2,
    Sort.HEIGHT: 3,
    Sort.DEPTH: 2,
    Sort.FILLER: 1,
    Sort.BAY: 1,
    Sort.SHELF: 1,
}
CONSTRUCTION_IN_SIGHT = {"toe_height": 1, "toe_depth": 1}
"""How much an inch of change shows (our judgement, no source); what is not listed is out of sight."""


HARDLY = {
    Sort.WIDTH: Fraction(1, 4),
    Sort.FILLER: Fraction(1, 2),
    Sort.BAY: Fraction(1, 2),
    Sort.SHELF: Fraction(1, 2),
}
"""Inches by which a size may change even where something lines up with it, before a client would notice (our
judgement, no source). A width, a bay or a shelf that lines up with nothing may change by `UNNOTICED`. More
than that changes the design, and so does any change of a height, a depth or a toe space, which lines up along
a run and with what others make; but for tops above the eye, which need not be level to a hair."""

FARTHEST_BACK = Fraction(1, 2)
"""Inches by which a shelf may be set farther back, out of sight as that is, before it is a smaller shelf than
the client ordered (our judgement, no source)."""


@dataclass(frozen=True)
class SizeChange:
    """Inputs to change, how much of it shows (inches, weighted by IN_SIGHT), and what is seen of it."""

    inputs: tuple[SetInput, ...]
    in_sight: Fraction
    seen: Seen

    def apply(self, job: Job) -> Job:
        """The job with these inputs changed."""
        for one in self.inputs:
            job = with_input(job, one.name, one.new)
        return job


def fix_shared_widths(project: Project) -> Job:
    """The job with every shared width written out, so that changing one changes no other. Doors and drawer
    fronts still share their height, or none could follow its case when that is made lower."""
    job = project.job
    for name, form in _shared_widths(project).items():
        job = with_input(job, name, project.sizes.of(form))
    return job


def _shared_widths(project: Project) -> Mapping[str, Affine]:
    return {
        name: form
        for name, form in project.shared.items()
        if input_called(project.job, name).sort is not Sort.FRONT
    }


def with_shared_fixed(project: Project) -> Project:
    """The project of that job, its sizes fixed in place: as if drawn up from it, and sooner."""
    sizes = project.sizes
    anew: dict[str, Given | Combination] = {
        name: Combination(Affine(Fraction(0)))
        for name, entry in sizes.ledger.items()
        if isinstance(entry.definition, Share) and entry.definition.is_remainder
    }
    anew |= {name: Given(sizes.of(form)) for name, form in _shared_widths(project).items()}
    job = fix_shared_widths(project)
    runs = tuple(
        replace(
            drawn,
            run=run,
            cases=tuple(replace(case, spec=spec) for case, spec in zip(drawn.cases, run.cases, strict=True)),
        )
        for drawn, run in zip(project.runs, job.runs, strict=True)
    )
    return replace(project, job=job, runs=runs, sizes=sizes.redefined(anew))


def size_changes(project: Project, mark: str, cut: AsCut) -> Iterator[SizeChange]:
    """Changes of one input that make `mark` right as cut, each with what keeps its run filled.

    A case whose upper end is above the eye may be lowered alone, by as little as is not seen.

    The shared widths of `project` must be fixed. A part that is off in both length and width
    is not put right this way.
    """
    part = project.parts[mark]
    off = size_off(project, part, cut)
    if off is None:
        return
    form, by = off
    expanded = project.sizes.ledger.expand(form)
    for name, coefficient in expanded.terms:
        for target in _names(project, part.case, name):
            yield from _with_neighbours(project, part.case, target, by / coefficient)


def size_off(project: Project, part: Part, cut: AsCut) -> tuple[Affine, Fraction] | None:
    """The one size of a part that it was not cut to, and by how much it is larger; None if there are two such
    sizes, or none."""
    length, width, _ = project.dimensions(part)
    off = [(part.length, cut.length - length), (part.width, cut.width - width)]
    off = [(form, by) for form, by in off if by]
    return off[0] if len(off) == 1 else None


def _names(project: Project, case: str, name: str) -> Iterator[str]:
    """The inputs to try in place of `name`: itself, and for a size of the whole job the case's own."""
    if not isinstance(project.sizes.ledger[name].definition, Given):
        return
    one, size = input_called(project.job, name), read_name(name)
    if one.sort in FREE:
        yield name
    elif one.sort is Sort.CONSTRUCTION and size.what in FREE_CONSTRUCTION:
        yield CaseSizes(case).construction(size.what).name
        if size.owner == JOB:
            yield name


def _with_neighbours(project: Project, case: str, name: str, by: Fraction) -> Iterator[SizeChange]:
    sort = input_called(project.job, name).sort
    if sort in (Sort.HEIGHT, Sort.DEPTH):
        # Fronts and tops of a run line up: cases that were level must stay level.
        level = project.sizes.of(name)
        cases = project.run_of(case).cases
        names = [(one.height if sort is Sort.HEIGHT else one.depth).name for one in cases]
        together = [set_by(project, one, by) for one in names if project.sizes.of(one) == level]
        if level + by > 0:
            yield size_change(project, tuple(together))
            if sort is Sort.HEIGHT and len(together) > 1 and _may_differ(project, case, by):
                yield size_change(project, (set_by(project, name, by),))
        return
    first = set_by(project, name, by)
    if first.new <= 0:
        return
    if sort in (Sort.WIDTH, Sort.FILLER):
        run = project.run_of(case)
        if project.sizes.of(run.spare) >= by > 0:
            yield from _with_bays(project, run, (first,))
        for taker in _takers(run, name):
            other = set_by(project, taker, -by)
            if other.new > 0:
                yield from _with_bays(project, run, (first, other))
        return
    yield size_change(project, (first,))


def _may_differ(project: Project, case: str, by: Fraction) -> bool:
    """Whether a case may be so much lower or higher than those beside it."""
    return abs(by) <= IN_LINE and is_above_the_eye(project, case)


def _with_bays(project: Project, run: DrawnRun, inputs: tuple[SetInput, ...]) -> Iterator[SizeChange]:
    """The changed widths, each time with other bays that take them up in cases whose bays are all given."""
    moved = {one.name: one.new - one.old for one in inputs}
    taken: list[list[SetInput]] = []
    for case in run.cases:
        bays = project.cases[case.mark].spec.bays
        if case.width.name in moved and len(bays) > 1 and all(bay.width is not None for bay in bays):
            names = [case.bay(number).name for number in range(1, len(bays) + 1)]
            taken.append([set_by(project, bay, moved[case.width.name]) for bay in names])
    for chosen in product(*taken):
        if all(one.new > 0 for one in chosen):
            yield size_change(project, (*inputs, *chosen))


def _takers(run: DrawnRun, name: str) -> Iterator[str]:
    """Widths that may absorb a change along a run: those of its other cases and its fillers."""
    widths = [case.width.name for case in run.cases]
    if run.run.left:
        widths.append(run.left_filler.name)
    if run.run.right:
        widths.append(run.right_filler.name)
    yield from (other for other in widths if other != name)


def set_by(project: Project, name: str, by: Fraction) -> SetInput:
    """An input moved by so much (inches)."""
    one = input_called(project.job, name)
    old = project.sizes.of(name if name in project.sizes.ledger else one.otherwise)
    return SetInput(name, one.words, old, old + by)


def size_change(project: Project, inputs: tuple[SetInput, ...]) -> SizeChange:
    """A change of these inputs together, with what is seen of it."""
    shows = sum((one.moved * _weight(project, one.name) for one in inputs), Fraction(0))
    moved = {one.name: one.new - one.old for one in inputs}
    return SizeChange(inputs, shows, most_seen(_seen(project, one, moved) for one in inputs))


def _seen(project: Project, one: SetInput, moved: Mapping[str, Fraction]) -> Seen:
    if not _weight(project, one.name):
        back = read_name(one.name).what == "shelf_setback" and one.new - one.old > FARTHEST_BACK
        return Seen.DESIGN if back else Seen.NOTHING
    little = _little(project, one, moved)
    return Seen.IN_SIGHT if one.moved <= little else Seen.DESIGN


def _little(project: Project, one: SetInput, moved: Mapping[str, Fraction]) -> Fraction:
    """By how much an input may change before the change is one of the design (inches)."""
    sort, owner = input_called(project.job, one.name).sort, read_name(one.name).owner
    if sort is Sort.HEIGHT:
        return IN_LINE if is_above_the_eye(project, owner) else Fraction(0)
    lines_up = True
    if sort is Sort.WIDTH:
        lines_up = joints_line_up(project, moved)
    elif sort is Sort.BAY:
        lines_up = dividers_line_up(project, owner)
    elif sort is Sort.SHELF:
        lines_up = any(shelf_lines_up(project, shelf) for shelf in shelves_moved(project, one.name))
    return HARDLY.get(sort, Fraction(0)) if lines_up else UNNOTICED


def _weight(project: Project, name: str) -> int:
    sort = input_called(project.job, name).sort
    if sort is Sort.CONSTRUCTION:
        return CONSTRUCTION_IN_SIGHT.get(read_name(name).what, 0)
    return IN_SIGHT.get(sort, 0)


def draw_up_or_none(job: Job) -> Project | None:
    """The job drawn up again, or None when it cannot be built."""
    try:
        return draw_up(job)
    except JobError:
        return None
