"""Puts where and how cases hang into words: the same for paper, page and command."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..casework.parts.part import Part, Role
from ..casework.project import Project
from ..findings import Finding
from ..lengths.in_a_sentence import listed
from ..lengths.length import Mark, Unit, show
from ..lengths.quantities import caliper, weighed
from ..lengths.rounding import nearest
from ..strength.hung_on_screws import HungRow
from ..strength.lift_limit import (
    LIFTING_SOURCE,
    TWO_TOGETHER,
    Grip,
    HandLift,
    LiftLimit,
    hands_out,
    limit_of_lift,
)
from ..workshop.assembly.case_lifts import case_lift
from .hanging_findings import DESIGN_VALUES, hanging_findings
from .hanging_places import CasePlace, Neighbours, case_places, neighbours
from .hanging_sheet import (
    CaseTold,
    Doubt,
    HangingSheet,
    OffsetTold,
    RowTold,
    ScrewRowTold,
    ScribeTold,
)
from .hanging_words import CAUTIONS, CAUTIONS_STANDING, LIFT_BENCH, METHOD, NOT_READ
from .hung_cases import Hanging
from .scribed_parts import OFFSET_STEPS, RULE_OF_SCRIBES, ScribedPart, WallEnd
from .wall_shims import Shim

RULE_OF_MARKS = {Unit.INCH: Mark.SIXTEENTH, Unit.MM: Mark.MILLIMETRE}
"""How fine places for screws and shims are told; a pencil on a strip marks no finer."""

JOINING_SCREW = 8
"""The gauge that neighbours are joined with. Common practice, no source."""


def hanging_sheet(
    project: Project, hangings: Iterable[Hanging], scribed: Iterable[ScribedPart], found: Iterable[Finding]
) -> HangingSheet:
    """The page for these rows of cases and scribed parts; `found` is what was found about the latter."""
    hangings, scribed, found = tuple(hangings), tuple(scribed), tuple(found)
    told = _Telling(project)
    assumed = [line for one in hangings if one.row for line in told.assumptions(one, one.row)]
    if hangings:
        assumed.append(told.lifting())
    read = {one.part.mark for one in scribed}
    fillers = [part.mark for part in project if part.role is Role.FILLER and part.mark not in read]
    return HangingSheet(
        CAUTIONS if hangings else CAUTIONS_STANDING,
        METHOD if hangings else (),
        tuple(told.row(one) for one in hangings),
        tuple(dict.fromkeys(assumed)),
        tuple(told.scribe(one, found) for one in scribed),
        NOT_READ.format(listed(fillers)) if fillers else "",
    )


def scribe_file(part: Part, kind: str) -> str:
    """The file of the packet that holds a part's cut line at full size."""
    return f"scribes/{part.mark}.{kind}"


@dataclass(frozen=True)
class _Telling:
    """Puts a job's figures into words."""

    project: Project

    @property
    def unit(self) -> Unit:
        return self.project.job.unit

    def place(self, length: Fraction) -> str:
        """A length as a pencil marks it."""
        finest = RULE_OF_MARKS[self.unit]
        return show(nearest(length, finest.step), finest, unit=True).marked

    def exact(self, length: Fraction) -> str:
        """A length by the job's own rule."""
        return self.project.printed(length)

    def weight(self, pounds: Fraction | float | None) -> str:
        return "not known" if pounds is None else weighed(pounds, self.unit)

    def row(self, one: Hanging) -> RowTold:
        places = case_places(self.project, one)
        levels = listed(dict.fromkeys(self.exact(place.low) for place in places))
        return RowTold(
            f"{listed(one.marks)} on “{one.wall_name}”",
            one.wall_name,
            f"Level line {levels} above the floor: the lower edge of {listed(one.marks)}.",
            tuple(map(self.place, one.studs)),
            tuple(Doubt(_sentence(it.text), it.fix) for it in hanging_findings(self.project, [one])),
            self.verdict(one, one.row) if one.row else "",
            one.row is not None and one.row.meets,
            self.drills(one.row) if one.row else "",
            self.first(one),
            tuple(self.join(pair) for pair in neighbours(self.project, places)),
            self.shims(one),
            tuple(self.case(one, place) for place in places),
        )

    def screw(self, row: HungRow) -> str:
        first = row.cases[0]
        return f"#{first.screw.gauge} by {show(first.length, self.project.job.mark, unit=True).marked}"

    def verdict(self, one: Hanging, row: HungRow) -> str:
        number = sum(len(case.places) for case in row.cases)
        does = "meet" if row.meets else "do not meet"
        full = f"full, {listed(one.marks)} {'weighs' if len(one.marks) == 1 else 'weigh'}"
        return (
            f"{number} screws, {self.screw(row)}, {does} {DESIGN_VALUES} under the assumptions on this page: "
            f"{full} {self.weight(row.full)}, and the values end at {self.weight(int(row.bears))}."
        )

    def drills(self, row: HungRow) -> str:
        screw = row.cases[0].screw
        return (
            f"Drill {self.drill(screw.clearance)} through strip and back, {self.drill(screw.soft_pilot)} "
            "into the stud as deep as the screw goes."
        )

    def drill(self, across: Fraction) -> str:
        """A drill: by its fraction of an inch, or in tenths of a millimetre."""
        if self.unit is Unit.MM:
            return show(across, Mark.TENTH_MILLIMETRE, unit=True).plain
        return show(across, Mark.SIXTY_FOURTH, unit=True).marked

    def first(self, one: Hanging) -> str:
        """Which case goes up first, and why. Common practice, no source."""
        run = self.project.run_of(one.marks[0]).run
        ends_right = run.right is not None or run.right_scribe is not None
        ends_left = run.left is not None or run.left_scribe is not None
        left, right = one.marks[0], one.marks[-1]
        if left == right:
            return f"{left} hangs by itself."
        mark, way = (right, "left") if ends_right and not ends_left else (left, "right")
        at_wall = ends_right if mark == right else ends_left
        why = (
            "it stands a filler’s width from the wall, and the others follow from it"
            if at_wall
            else "places along the wall are measured from there"
        )
        return f"Hang {mark} first: {why}. Go on to the {way}, each case clamped to the one before."

    def join(self, pair: Neighbours) -> str:
        through = "the stiles of their frames" if pair.by_frames else "their sides"
        both = f"{pair.left} to {pair.right}"
        packed = ""
        if pair.apart and not pair.by_frames:
            packed = f", with packing {self.exact(pair.apart)} thick between them"
        if pair.length is None:
            return f"{both}: bolts through {through}{packed}; no screw stays within both."
        length = show(pair.length, self.project.job.mark, unit=True).marked
        return f"{both}: #{JOINING_SCREW} by {length} screws through {through}{packed}."

    def shims(self, one: Hanging) -> str:
        if not one.studs:
            return ""
        if not one.shims:
            return (
                "Nobody has read how even this wall is: hold a straightedge along the level line and shim "
                "each stud where light shows."
            )
        told = [
            f"{self.place(shim.thick)} at {self.place(shim.stud)}" for shim in one.shims if self.is_felt(shim)
        ]
        if not told:
            return "The wall is even along the level line: no shims."
        return (
            "Shims behind the strips, so that the cases stand in one plane, by the studs from the wall’s "
            f"left end: {listed(told)}; none at others. The wall was read along one level line: check with a "
            "plumb level at each stud."
        )

    def is_felt(self, shim: Shim) -> bool:
        """Whether a shim is as thick as half the finest mark."""
        return nearest(shim.thick, RULE_OF_MARKS[self.unit].step) > 0

    def case(self, one: Hanging, place: CasePlace) -> CaseTold:
        lift, hung = case_lift(self.project, place.mark), place.hung
        return CaseTold(
            place.mark,
            self.exact(place.low),
            tuple(self.place(at) for at in place.screw_places),
            tuple(self.screw_rows(place)),
            f"{len(hung.places)} × {self.screw(one.row)}" if hung and one.row else "",
            self.weight(hung.case.empty if hung else lift.whole),
            self.weight(hung.case.full) if hung else "not reckoned",
            self.weight(lift.carried),
            self.lift(place, lift.carried),
            tuple(
                f"{self.place(shim.thick)} at {self.place(shim.stud - place.left)}"
                for shim in one.shims
                if place.left <= shim.stud <= place.right and self.is_felt(shim)
            ),
        )

    def screw_rows(self, place: CasePlace) -> Iterator[ScrewRowTold]:
        alike: dict[tuple[Fraction, ...], list[Fraction]] = {}
        for row in place.rows:
            alike.setdefault(row.places, []).append(row.up)
        for places, ups in alike.items():
            yield ScrewRowTold(tuple(map(self.place, ups)), tuple(map(self.place, places)))

    def limit(self, place: CasePlace) -> LiftLimit:
        """What one and two may lift this case by, from a bench to its place, held by its lower edge."""
        high = Fraction(LIFT_BENCH)
        deep = self.project.cases[place.mark].spec.depth
        lift = HandLift(hands_out(deep, high), high, abs(place.low - high), grip=Grip.FAIR)
        return limit_of_lift(lift, place.low - high)

    def lift(self, place: CasePlace, pounds: Fraction | None) -> str:
        """Who lifts it."""
        if pounds is None:
            return "two lift it: a material says no weight"
        limit = self.limit(place)
        match limit.people(pounds):
            case 1:
                return "one lifts it, a second holds it while it is screwed"
            case 2:
                return "two lift it"
        return f"two only with a prop or a cabinet lift: over the {self.weight(int(limit.two))} for two"

    def lifting(self) -> str:
        bench = self.place(Fraction(LIFT_BENCH))
        return (
            f"Who lifts: {LIFTING_SOURCE}, from a bench {bench} high to the level line, hands under the "
            "lower edge, without doors, drawers and loose shelves. Two lift a third more than one: "
            f"{TWO_TOGETHER.source}."
        )

    def assumptions(self, one: Hanging, row: HungRow) -> Iterable[str]:
        for case in row.cases:
            yield from case.assumptions(lambda length: caliper(length, self.unit))
        if any(shim.thick for shim in one.shims):
            yield "Shims bear nothing; the thickest is counted between every strip and its stud."

    def scribe(self, one: ScribedPart, found: Iterable[Finding]) -> ScribeTold:
        finest = RULE_OF_SCRIBES[self.unit]
        mark = one.part.mark
        side, other = ("left", "right") if one.end is WallEnd.LEFT else ("right", "left")

        def told(length: Fraction) -> str:
            return show(nearest(length, finest.step), finest, unit=True).marked

        return ScribeTold(
            mark,
            f"{self.exact(one.length)} × {self.exact(one.width)}",
            f"The wall is at its {side}: measure from its {other} edge, up from its lower end. Cut close to "
            "the line, leaning in a little towards the back, and plane to it.",
            tuple(
                OffsetTold(told(at.along), told(at.width), told(max(one.width - at.width, Fraction(0))))
                for at in one.offsets(OFFSET_STEPS[self.unit])
            ),
            tuple(Doubt(_sentence(it.text), it.fix) for it in found if it.place == one.entry),
            scribe_file(one.part, "pdf"),
        )


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
