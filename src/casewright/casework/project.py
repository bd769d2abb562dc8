"""A whole job drawn up: its ledger, parts, positions and loops. Use `draw_up`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cached_property

from ..errors import JobError
from ..findings import Finding, refusals
from ..lengths.chosen_marks import ChosenMarks
from ..lengths.length import show
from ..shop.materials import SheetGood
from ..sizes.affine import Affine, size
from ..sizes.ledger import Book, Share, Sizes
from .build.case import Case, Ends, FillerAt, draw_box, finish_case
from .build.drawers.draw_drawers import draw_drawers
from .build.edged_edges import EdgingChoice
from .build.face_frame import ToTheWall, draw_face_frame
from .build.fittings import FittingChoice
from .build.fronts.draw_fronts import draw_fronts
from .build.fronts.front_room import UnderFrame
from .checks.as_cut_checks import check_as_cut
from .checks.case_checks import check_after, check_before, check_left_out, check_optional, check_spare
from .checks.drawer_checks import check_drawers
from .checks.frame_checks import check_frames
from .checks.front_checks import check_fronts
from .checks.movement_checks import check_movement
from .checks.wall_checks import check_shared_room
from .checks.width_checks import check_shares
from .directions import Axis
from .inputs import given_inputs
from .job import Job, Run
from .numbers.job_numbers import JobNumbers, RunChain, job_numbers
from .parts.part import END_STILES, Part
from .run_widths import RunWidths, share_opening
from .size_names import PartSizes, RunSizes, owner_of, part_mark, thickness_of


@dataclass(frozen=True)
class DrawnRun(RunSizes):
    """A run with its cases in place, and its sizes: `run.opening`, `run.spare` and so on.

    `origins` gives each case's low corner (x along the wall, y from the front, z from the
    floor); `spare` is the room left over in the opening, negative if the cases are too wide. `left` and
    `right` are the widths that close its ends: that of a filler in sight, or the gap of an open end.
    `settled` gives the inputs at the ends that rounding widens, by name, and what they come to.
    """

    run: Run
    left: Affine
    right: Affine
    settled: Mapping[str, Affine]
    cases: tuple[Case, ...]
    origins: Mapping[str, tuple[Affine, Affine, Affine]]

    @property
    def gap_name(self) -> str:
        """What the gap that the run leaves in its opening is called."""
        return f"{self.run.name}: its cases in the opening"


@dataclass(frozen=True)
class Project:
    """The result of `draw_up`: the job, its runs, the ledger with its values, and findings to consider.

    `before` is the project as it was drawn up, where sizes were measured or changed since.
    """

    job: Job
    runs: tuple[DrawnRun, ...]
    sizes: Sizes
    findings: tuple[Finding, ...]
    before: Project | None = field(default=None, repr=False, compare=False)

    @cached_property
    def parts(self) -> Mapping[str, Part]:
        """Every part by its mark, in order of runs and cases."""
        return {part.mark: part for case in self.cases.values() for part in case.parts}

    @cached_property
    def cases(self) -> Mapping[str, Case]:
        """Every case by its mark."""
        return {case.mark: case for run in self.runs for case in run.cases}

    @cached_property
    def depths(self) -> Mapping[int, Fraction]:
        """How far each run stands out from its wall, by its number: the depth of its deepest case."""
        return {run.number: max(self.sizes.of(case.depth) for case in run.cases) for run in self.runs}

    @cached_property
    def shared(self) -> Mapping[str, Affine]:
        """What each input comes to that is shared out or takes what rounding leaves, by its name.

        A job with these sizes written down is the same, and changing one of them changes no other.
        """
        shares = {
            name: size(name)
            for name, entry in self.sizes.ledger.items()
            if isinstance(entry.definition, Share) and not entry.definition.is_remainder
        }
        return shares | {name: form for run in self.runs for name, form in run.settled.items()}

    @cached_property
    def numbers(self) -> JobNumbers:
        """The number that each size is set to, chosen for all chains together.

        A measurement moves no number that is printed already: only lengths that are new get one.
        """
        runs = {run.gap_name: RunChain(run.spare, self._room_to_grow(run)) for run in self.runs}
        if self.before:
            return self.before.numbers.given(self.sizes, runs)
        thicknesses = frozenset(thickness_of(key).name for key in self.job.sheets)
        return job_numbers(self.job.mark, self.sizes, self.cases.values(), runs, thicknesses)

    @property
    def rule(self) -> ChosenMarks:
        """The shop's rule with the chosen numbers: every length of this job is printed by it."""
        return self.numbers.rule

    def printed(self, length: Fraction) -> str:
        """A length as it is told in a sentence: by the job's rule, with its unit."""
        return show(length, self.rule, unit=True).marked

    def set_to(self, name: str) -> Fraction:
        """What the size called `name` is set to, in inches: its number, or what the stock itself gives."""
        return self.numbers.set_to(name)

    def _room_to_grow(self, run: DrawnRun) -> Fraction:
        """How much wider a run's cases may come out before they pass the opening: its ends give way first."""
        return sum((self.sizes.of(form) for form in (run.spare, run.left, run.right)), Fraction(0))

    def run_of(self, case: str) -> DrawnRun:
        """The run a case is in; KeyError if there is no such case."""
        for run in self.runs:
            if case in run.origins:
                return run
        raise KeyError(case)

    def corner(self, part: Part) -> tuple[Fraction, Fraction, Fraction]:
        """A part's low corner in its run: x along the wall, y from the front, z from the floor."""
        x, y, z = (self.sizes.of(form) for form in self.run_of(part.case).origins[part.case])
        corners = self.cases[part.case].placement.corners
        return (
            x + self.sizes.of(corners[part.mark, Axis.X]),
            y + self.sizes.of(corners[part.mark, Axis.Y]),
            z + self.sizes.of(corners[part.mark, Axis.Z]),
        )

    def dimensions(self, part: Part) -> tuple[Fraction, Fraction, Fraction]:
        """A part's length, width and thickness in inches, as it is cut."""
        return self.sizes.of(part.length), self.sizes.of(part.width), self.sizes.of(part.thickness)

    def worked(self, part: Part) -> tuple[Fraction, Fraction, Fraction]:
        """A part's length, width and thickness in inches with the edging that goes on before its joints."""
        length, width = (self.sizes.of(part.size(axis)) for axis in (part.lie.length, part.lie.width))
        return length, width, self.sizes.of(part.thickness)

    def sheet_called(self, name: str) -> SheetGood | None:
        """The sheet good whose thickness has that name in the ledger; None for any other size."""
        sheet = self.job.sheets.get(owner_of(name))
        return sheet if sheet and name == thickness_of(sheet.key).name else None

    def planned_size(self, part: Part) -> tuple[Fraction, Fraction]:
        """The length and width that the sheets are planned for, in inches: those drawn, although the part
        came out otherwise and is used so."""
        drawn = self.before if self.before and is_used_as_cut(self.job, part.mark) else self
        return drawn.dimensions(part)[:2]

    def used_as_cut(self, sizes: Mapping[str, Fraction]) -> Project:
        """The project with the parts that have these sizes, by name, used as they were cut; every list, label
        and drawing then says so. Sizes of parts that the job has not are left aside."""
        known = {name: size for name, size in sizes.items() if name in self.sizes.ledger}
        if not known:
            return self
        return replace(self.given(known), job=replace(self.job, as_cut={**self.job.as_cut, **sizes}))

    def may_turn(self, part: Part) -> bool:
        """Whether a part may be cut with the grain across: its sheet has none, or the maker allows it."""
        return not self.job.sheets[part.material].grain or part.mark in self.job.either_way

    def given(self, facts: Mapping[str, Fraction]) -> Project:
        """The project with measurements or changed inputs, by their names in the ledger.

        Only sizes are worked out again. A change in the number of parts or holes needs a new `draw_up`.
        """
        return replace(self, sizes=self.sizes.given(facts), before=self.before or self)

    def __iter__(self) -> Iterator[Part]:
        return iter(self.parts.values())


def is_used_as_cut(job: Job, mark: str) -> bool:
    """Whether a part is used at a size it came out with."""
    return any(owner_of(name) == mark for name in job.as_cut)


def draw_up(job: Job) -> Project:
    """Work out the whole job: sizes, parts and positions.

    Raises JobError with every finding if the job cannot be built.
    """
    before = check_before(job)
    if refusals(before):
        raise JobError(before)
    book = Book()
    for one, value in given_inputs(job):
        book.given(size(one.name), value, one.words)
    runs = tuple(_draw_run(book, job, run, number) for number, run in enumerate(job.runs, 1))
    sizes = book.close()
    project = Project(job, runs, sizes, before)
    # Runs come first: a case without room is what follows from a run that has none.
    findings = before
    for run in runs:
        ends = (sizes.of(run.left), sizes.of(run.right))
        findings += check_spare(job, run.run, sizes.of(run.spare), ends)
    standing = [(run.run, run.cases) for run in runs]
    findings += (*check_shares(job, standing, sizes), *check_shared_room(job, standing, sizes))
    findings += (*check_frames(job, standing, sizes), *check_fronts(job, standing, sizes))
    findings += tuple(check_drawers(job, standing, sizes))
    findings += check_after(job, [case for run in runs for case in run.cases], sizes)
    findings += check_movement(job, [case for run in runs for case in run.cases], sizes)
    findings += (*check_optional(job, project.parts), *check_left_out(job, project.parts))
    findings += tuple(check_as_cut(job, project.parts, sizes))
    if refusals(findings):
        raise JobError(findings)
    return replace(project, findings=findings).used_as_cut(job.as_cut)


def _draw_run(book: Book, job: Job, run: Run, number: int) -> DrawnRun:
    sizes = RunSizes(number)
    widths = share_opening(book, job, run, sizes)
    edging, fittings = EdgingChoice.of(job), FittingChoice.of(job)
    cases: list[Case] = []
    wide = dict(zip((spec.mark for spec in run.cases), widths.cases, strict=True))
    for group in run.framed_together:
        boxes = [draw_box(book, spec, wide[spec.mark], job.sheet_of, edging, fittings) for spec in group]
        at_left, at_right = group[0] is run.cases[0], group[-1] is run.cases[-1]
        frame = draw_face_frame(boxes, _to_the_wall(run, group[0].mark, widths, at_left, at_right))
        seen = [
            UnderFrame(
                boxes[place - 1].shell.right if place else None,
                boxes[place + 1].shell.left if place + 1 < len(boxes) else None,
                frame,
                sum(len(one.bays) for one in boxes[:place]),
            )
            for place in range(len(boxes))
        ]
        # All fronts first: the rails between those of any case are among the parts of the first.
        fronts = [draw_fronts(box, around) for box, around in zip(boxes, seen, strict=True)]
        for box, around, closed in zip(boxes, seen, fronts, strict=True):
            spec = box.case.spec
            ends = Ends(
                FillerAt(run.left, widths.left) if run.left and spec is run.cases[0] else None,
                FillerAt(run.right, widths.right) if run.right and spec is run.cases[-1] else None,
            )
            marks = tuple(one.mark for one in group) if around.frame else ()
            drawers = draw_drawers(box, around, closed)
            case = finish_case(box, ends, marks, closed, drawers)
            cases.append(_without(_with_optional(case, job.optional), job.left_out))
    at = book.form(sizes.start, widths.left, f"where the cases of {run.name} begin")
    origins: dict[str, tuple[Affine, Affine, Affine]] = {}
    deepest = max(cases, key=lambda case: case.spec.depth)
    for case in cases:
        x = book.form(case.x, at, f"place of {case.mark} along {run.name}")
        # Backs are in one plane against the wall, so the front of a shallower case steps back.
        y = deepest.depth - case.depth + case.front_strip
        origins[case.mark] = (x, y, sizes.lift + case.foot)
        at = x + case.outside
    book.form(sizes.spare, sizes.opening - at - widths.right, f"room left over in {run.name}")
    return DrawnRun(number, run, widths.left, widths.right, widths.settled, tuple(cases), origins)


def _to_the_wall(run: Run, mark: str, widths: RunWidths, at_left: bool, at_right: bool) -> ToTheWall:
    """How far the end stiles of the frame kept under the case `mark` reach past its sides, to be planed."""
    first, last = (PartSizes(part_mark(mark, name)).scribe for name in END_STILES)
    return ToTheWall(
        widths.left + first if run.left_scribe is not None and at_left else None,
        widths.right + last if run.right_scribe is not None and at_right else None,
    )


def _with_optional(case: Case, marks: frozenset[str]) -> Case:
    """The case with the parts of those marks made optional."""
    if not any(part.mark in marks for part in case.parts):
        return case
    parts = (replace(part, optional=True) if part.mark in marks else part for part in case.parts)
    return replace(case, parts=tuple(parts))


def _without(case: Case, marks: frozenset[str]) -> Case:
    """The case without its optional parts of those marks; the others stay where they are."""
    removed = frozenset(part.mark for part in case.parts if part.optional and part.mark in marks)
    if not removed:
        return case
    parts = tuple(part for part in case.parts if part.mark not in removed)
    mates = tuple(mate for mate in case.mates if not {mate.first.part, mate.second.part} & removed)
    return replace(case, parts=parts, mates=mates, placement=replace(case.placement, removed=removed))
