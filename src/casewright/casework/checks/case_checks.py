"""Cases that cannot be built, and why: checked as the job is written, and again once it is drawn up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator
from fractions import Fraction

from ...findings import Finding, Weight, refusals
from ...lengths.length import show
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..directions import Axis
from ..job import BackKind, CaseSpec, Job, Run, ToeKind
from ..parts.part import Part, Role
from ..size_names import JOB, owner_of
from .bay_checks import check_bays
from .each_once import each_once
from .edging_checks import check_edging
from .figure_checks import check_figures
from .pin_checks import check_holes_meet, check_pin_places, check_pitch, check_shelves_on_pins, printed_length
from .shared_frame_checks import check_shared_frames
from .sheet_checks import check_sheets
from .support_checks import check_hanging, check_joint_depths, check_strips
from .wall_checks import check_wall_lengths
from .width_checks import check_widths
from .worktop_checks import check_worktops


def check_before(job: Job) -> tuple[Finding, ...]:
    """Problems in the job as written, before any size is worked out: causes before what may follow from
    them."""
    found = tuple(_before(job))
    if not refusals(found):  # the rest takes sizes above zero and known materials for granted
        found = (
            *check_sheets(job),
            *check_figures(job),
            *check_widths(job),
            *check_wall_lengths(job),
            *check_worktops(job),
            *check_shared_frames(job),
            *found,
        )
    if not refusals(found):
        found = (*found, *check_hanging(job))
    return each_once(found)


def check_after(job: Job, cases: Iterable[Case], sizes: Sizes) -> tuple[Finding, ...]:
    """Problems in the parts once their sizes are worked out."""
    checker, drawn = _After(job, sizes), tuple(cases)
    found = (finding for case in drawn for finding in checker.case(case))
    return (*each_once(found), *check_joint_depths(job, drawn, sizes), *check_edging(job, drawn, sizes))


def check_spare(job: Job, run: Run, spare: Fraction, ends: tuple[Fraction, Fraction]) -> tuple[Finding, ...]:
    """A finding when the cases do not fill their opening exactly, or leave nothing for a filler to take.

    `spare` is what is left over, `ends` what closes the left end and the right, all in inches.
    """
    place = f"runs.{run.name}"
    for side, filler, end in (("left", run.left, ends[0]), ("right", run.right, ends[1])):
        if filler and filler.width is None and end <= 0:
            wider = f"are {printed_length(job, -end)} wider than the room for them and " if end else ""
            text = f"the cases {wider}leave nothing for the {side} filler to take."
            fix = "Make a case narrower, or remove the filler."
            return (Finding("no-room-for-filler", f"{place}.{side}_filler.width", text, fix),)
    length = show(abs(spare), job.mark, unit=True).plain
    if spare < 0:
        fix = "Make a case narrower, or leave out the width of one case so that it takes what is left."
        return (Finding("run-too-wide", place, f"the cases are {length} wider than the opening.", fix),)
    if spare > 0:
        fix = "Leave out the width of one case so that it takes what is left, or add a filler."
        return (
            Finding("run-leaves-room", place, f"{length} of the opening is left over.", fix, Weight.WARN),
        )
    return ()


def check_optional(job: Job, parts: Collection[str]) -> tuple[Finding, ...]:
    """A finding for each mark that no part has, in the lists of the job and its tables of single parts."""
    fix = "Use a mark from the parts list, or remove this one."
    return tuple(
        Finding("no-such-part", place, f"no part is marked {mark}.", fix, Weight.WARN)
        for place, marks in (
            ("optional", job.optional - job.left_out),
            ("sheet_of", set(job.sheet_of)),
            ("either_way", job.either_way),
            ("edging_of", set(job.edging_of)),
            ("loads_of", set(job.loads_of)),
            ("as_cut", {owner_of(name) for name in job.as_cut}),
        )
        for mark in sorted(marks - set(parts) - job.left_out)
    )


def check_left_out(job: Job, parts: Collection[str]) -> tuple[Finding, ...]:
    """A finding for each part that is left out but not optional. `parts` are the marks of all parts made."""
    fix = (
        "If the case is sound without it, list it under optional as well; otherwise remove it from left_out."
    )
    return tuple(
        Finding("not-optional", "left_out", f"{mark} is left out but is not an optional part.", fix)
        for mark in sorted(job.left_out & set(parts))
    )


def _before(job: Job) -> Iterator[Finding]:
    if not job.runs or not any(run.cases for run in job.runs):
        yield Finding("no-cases", "runs", "the job has no cases.", "Add a run with at least one case.")
    marks = Counter(spec.mark for run in job.runs for spec in run.cases)
    for mark, times in marks.items():
        if times > 1:
            yield Finding(
                "mark-twice",
                f"cases.{mark}",
                f"the mark {mark} is used for {times} cases.",
                "Give each case its own mark.",
            )
    for run in job.runs:
        if any(spec.mark == JOB and spec.chosen for spec in run.cases):
            text = (
                f"a case marked “{JOB}” cannot have its own construction, because {JOB} names the job itself."
            )
            yield Finding("mark-taken", f"cases.{JOB}.mark", text, "Give the case another mark.")
        if run.opening <= 0:
            yield _not_positive(f"runs.{run.name}.opening", run.opening, job)
        if not run.cases:
            yield Finding(
                "run-empty", f"runs.{run.name}", "the run has no cases.", "Add a case, or remove the run."
            )
        yield from _rest(run)
        for side, filler in (("left", run.left), ("right", run.right)):
            place = f"runs.{run.name}.{side}_filler"
            if filler and filler.material not in job.sheets:
                yield _unknown_material(f"{place}.material", filler.material, job)
            if filler and filler.width is not None and filler.width <= 0:
                yield _not_positive(f"{place}.width", filler.width, job)
        for spec in run.cases:
            yield from _spec(job, run, spec)


def _rest(run: Run) -> Iterator[Finding]:
    """Only one filler of a run can take what its cases leave, and then each of them needs a width."""
    takers = [
        side for side, filler in (("left", run.left), ("right", run.right)) if filler and filler.width is None
    ]
    if len(takers) == 2:
        text = "both fillers of the run would take what the cases leave."
        fix = "Enter a length for the width of one of them."
        yield Finding("rest-twice", f"runs.{run.name}.right_filler.width", text, fix)
    elif takers:
        for spec in run.cases:
            if spec.width is None:
                text = f"{spec.mark} and the {takers[0]} filler would both take what is left of the opening."
                fix = "Enter a length for the width of the case, or for that of the filler."
                yield Finding("rest-shared", f"cases.{spec.mark}.width", text, fix)


def _spec(job: Job, run: Run, spec: CaseSpec) -> Iterator[Finding]:
    place = f"cases.{spec.mark}"
    for name, value in (("width", spec.width), ("height", spec.height), ("depth", spec.depth)):
        if value is not None and value <= 0:
            yield _not_positive(f"{place}.{name}", value, job)
    for kind, key in vars(spec.materials).items():
        if key not in job.sheets:
            yield _unknown_material(f"{place}.made_of.{kind}", key, job)
    made = spec.construction
    for name, value in vars(made).items():
        if isinstance(value, Fraction) and value < 0:
            yield Finding(
                "negative",
                f"{place}.{name}",
                f"the {name.replace('_', ' ')} is {show(value, job.mark, unit=True).plain}, less than zero.",
                "Enter a length of zero or more.",
            )
    if made.pin_pitch <= 0:
        yield _not_positive(f"{place}.pin_pitch", made.pin_pitch, job)
    if made.back is BackKind.GROOVE and not made.strips and made.back_inset == 0:
        yield Finding(
            "groove-at-the-edge",
            f"{place}.back_inset",
            "the groove for the back would be at the rear edge, with no wood behind it.",
            "Set the back further in, add a mounting strip behind it, or hold it in rabbets.",
        )
    if made.toe is not ToeKind.NONE:
        if made.toe_height >= spec.height:
            yield Finding(
                "toe-too-tall",
                f"{place}.toe_height",
                f"the toe kick is {printed_length(job, made.toe_height)} high "
                f"but the case is only {printed_length(job, spec.height)}.",
                "Lower the toe kick, or raise the height of the case.",
            )
        if made.toe_depth >= spec.depth:
            yield Finding(
                "toe-too-deep",
                f"{place}.toe_depth",
                f"the toe kick is {printed_length(job, made.toe_depth)} deep "
                f"but the case is only {printed_length(job, spec.depth)}.",
                "Make the toe kick less deep.",
            )
    if run.ceiling is not None and run.top_of(spec) > run.ceiling:
        yield Finding(
            "over-the-ceiling",
            f"{place}.height",
            f"the top of the case is at {printed_length(job, run.top_of(spec))}, "
            f"above the ceiling at {printed_length(job, run.ceiling)}.",
            "Make the case lower than the ceiling.",
        )
    if any(bay.adjustable for bay in spec.bays) and made.pin_pitch > 0:
        yield from check_pitch(job, spec)
    if not spec.bays:
        yield Finding("no-bays", f"{place}.bays", "the case has no bays.", "Give it at least one bay.")
    if spec.weight <= 0:
        yield Finding(
            "no-share", f"{place}.share", f"the share is {spec.weight}.", "Enter a share greater than zero."
        )


class _After:
    def __init__(self, job: Job, sizes: Sizes) -> None:
        self.job = job
        self.sizes = sizes

    def case(self, case: Case) -> Iterator[Finding]:
        lacking = (*self._room(case), *check_bays(self.job, case, self.sizes))
        yield from lacking
        if refusals(lacking):
            return
        # What is wrong with a filler is its width in sight, which is checked with its run.
        made = (part for part in case.parts if part.role is not Role.FILLER)
        small = [part for part in made if min(self._dimensions(part)) <= 0]
        if small:
            part = small[0]
            length, width, _ = self._dimensions(part)
            more = len(small) - 1
            others = f", and {more} other part{'s' if more > 1 else ''} no better" if more else ""
            fix = _ROOM_FIX.get(part.role, "Make the case larger, or what stands in it smaller.")
            if part.edges:
                fix = "Use a thinner edging, or leave it out there."
            yield Finding(
                "no-size",
                part.mark,
                f"the {part.role.value} of {case.mark} would be {self._text(length)} x {self._text(width)}"
                f"{others}.",
                fix,
            )
            return
        for part in case.parts:
            yield from self._features(part)
            yield from check_holes_meet(self.job, part, self.sizes)
        yield from check_shelves_on_pins(self.job, case, self.sizes)
        yield from check_pin_places(self.job, case, self.sizes)
        yield from self._stretchers(case)
        yield from check_strips(self.job, case, self.sizes)
        yield from self._tilt(case)

    def _room(self, case: Case) -> Iterator[Finding]:
        for size, words, fix in (
            (case.inside, "width", "Make the case wider."),
            (case.inside_depth, "depth", "Make the case deeper, or move its back nearer the rear edge."),
            (case.clear, "height", "Make the case taller."),
        ):
            room = self.sizes.of(size)
            if room <= 0 and not (size == case.inside and case.spec.width is None):  # said of its run
                text = f"the clear {words} inside {case.mark} would be {self._text(room)}."
                yield Finding("no-room-inside", f"cases.{case.mark}", text, fix)
        for index, bay in enumerate(case.spec.bays, 1):
            if bay.fixed and (over := self.sizes.of(case.above(index))) <= 0:
                yield Finding(
                    "shelves-too-high",
                    f"cases.{case.mark}.bays[{index - 1}].fixed",
                    f"the clear height above the fixed shelves would be {self._text(over)}.",
                    "Lower a fixed shelf, or remove one.",
                )

    def _features(self, part: Part) -> Iterator[Finding]:
        for feature in part.features:
            yield from feature.faults(part, self.sizes, self._text)
        yield from self._both_faces(part)

    def _both_faces(self, part: Part) -> Iterator[Finding]:
        thick = self.sizes.of(part.thickness)
        # Worked out once for each channel, not for each pair: a divider may have forty.
        walls = [
            (one, self.sizes.of(span.low), self.sizes.of(span.high), self.sizes.of(one.depth))
            for one in part.channels
            for span in [one.walls(part)]
        ]
        for index, (one, low, high, depth) in enumerate(walls):
            for other, other_low, other_high, other_depth in walls[index + 1 :]:
                if one.face is not other.face.opposite or one.edge.axis is not other.edge.axis:
                    continue
                depths = depth + other_depth
                if min(high, other_high) > max(low, other_low) and depths >= thick:
                    yield Finding(
                        "dados-meet",
                        part.place_of(one),
                        f"opposite dados in both faces are {self._text(depths)} deep together; the "
                        f"{part.role.value} is {self._text(thick)} thick.",
                        "Make the dados shallower, or set the shelves at different heights.",
                    )

    def _stretchers(self, case: Case) -> Iterator[Finding]:
        stretchers = [part for part in case.parts if part.role in (Role.FRONT_STRETCHER, Role.BACK_STRETCHER)]
        if len(stretchers) == 2:
            front, back = stretchers
            if self.sizes.of(case.placement.corners[back.mark, Axis.Y]) < self.sizes.of(front.size(Axis.Y)):
                yield Finding(
                    "stretchers-too-wide",
                    f"cases.{case.mark}.stretcher_width",
                    f"two stretchers {self._text(self.sizes.of(front.width))} wide do not fit one behind "
                    f"the other.",
                    "Make the stretchers narrower, or give the case a full top.",
                )

    def _tilt(self, case: Case) -> Iterator[Finding]:
        """A case built on its back is tilted up on its lower rear edge: its diagonal must clear the room."""
        run = next((run for run in self.job.runs if case.spec in run.cases), None)
        if run is None or run.ceiling is None or run.lift > 0:
            return
        plinth = case.spec.construction.toe is ToeKind.PLINTH
        high = case.spec.height - (case.spec.construction.toe_height if plinth else 0)
        if high**2 + case.spec.depth**2 > run.ceiling**2:
            yield Finding(
                "will-not-stand-up",
                f"cases.{case.mark}",
                f"{case.mark} cannot be tilted up from its back under a ceiling at "
                f"{self._text(run.ceiling)}.",
                "Assemble it upright, stand it on a separate plinth, or make it lower.",
                Weight.WARN,
            )

    def _dimensions(self, part: Part) -> tuple[Fraction, Fraction, Fraction]:
        return self.sizes.of(part.length), self.sizes.of(part.width), self.sizes.of(part.thickness)

    def _text(self, length: Fraction) -> str:
        return printed_length(self.job, length)


_ROOM_FIX = {
    Role.FIXED_SHELF: "Lower a shelf, or remove one: the shelves need more height than there is.",
    Role.DIVIDER: "Make the case higher.",
    Role.ADJUSTABLE_SHELF: "Make the bay wider, or the play of the shelf smaller.",
}


def _not_positive(place: str, value: Fraction, job: Job) -> Finding:
    return Finding(
        "not-positive",
        place,
        f"{printed_length(job, value)} is not a usable length.",
        "Enter a length greater than zero.",
    )


def _unknown_material(place: str, key: str, job: Job) -> Finding:
    known = ", ".join(sorted(job.sheets)) or "none yet"
    return Finding(
        "unknown-material",
        place,
        f"no material is called {key!r}.",
        f"Use one of the job's materials: {known}.",
    )
