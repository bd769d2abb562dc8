"""Puts where and how cases hang into words: the same for paper, page and command."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..casework.parts.part import Part
from ..casework.project import Project
from ..findings import Finding
from ..lengths.in_a_sentence import listed, with_capital
from ..lengths.length import Mark, Unit, show
from ..lengths.quantities import caliper, weighed
from ..lengths.rounding import nearest
from ..lengths.told_lengths import FINE_MARKS, PENCIL_MARKS, told
from ..strength.hung_on_screws import HungRow
from ..strength.usual_lifts import BENCH
from ..workshop.assembly.case_lifts import case_lift
from ..workshop.assembly.screws import Screw, screw_words
from ..workshop.who_lifts import whose_figures
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
from .hanging_words import CAUTIONS, CAUTIONS_STANDING, METHOD, NOT_READ
from .hung_cases import Hanging
from .hung_screws import hung_screw_words, metric_screws
from .scribed_parts import OFFSET_STEPS, ScribedPart, WallEnd
from .standing_wording import stand_told
from .wall_shims import Shim


def hanging_sheet(
    project: Project,
    hangings: Iterable[Hanging],
    scribed: Iterable[ScribedPart],
    unread: Iterable[Part],
    found: Iterable[Finding],
) -> HangingSheet:
    """The page for these rows of cases and scribed parts; `unread` are the fillers whose wall nobody has
    read, `found` is what was found about the parts that are scribed."""
    hangings, scribed, found = tuple(hangings), tuple(scribed), tuple(found)
    telling = _Telling(project)
    assumed = [line for one in hangings if one.row for line in telling.assumptions(one, one.row)]
    assumed.append(telling.lifting(hung=bool(hangings)))
    hung = {mark for one in hangings for mark in one.marks}
    on_floor = [case.mark for run in project.runs for case in run.cases if case.mark not in hung]
    fillers = [part.mark for part in unread]
    return HangingSheet(
        CAUTIONS if hangings else CAUTIONS_STANDING,
        METHOD if any(one.question is None for one in hangings) else (),
        tuple(telling.row(one) for one in hangings),
        tuple(dict.fromkeys(assumed)),
        tuple(stand_told(project, mark) for mark in on_floor),
        tuple(telling.scribe(one, found) for one in scribed),
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
        return told(length, PENCIL_MARKS[self.unit])

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
            tuple(Doubt(with_capital(it.text), it.fix) for it in hanging_findings(self.project, [one])),
            self.verdict(one, one.row) if one.row else "",
            one.row is not None and one.row.meets,
            self.drills(one.row) if one.row else "",
            self.first(one),
            tuple(self.join(pair) for pair in neighbours(self.project, places)),
            self.shims(one),
            tuple(self.case(one, place) for place in places),
        )

    def verdict(self, one: Hanging, row: HungRow) -> str:
        number = sum(len(case.places) for case in row.cases)
        does = "meet" if row.meets else "do not meet"
        full = f"full, {listed(one.marks)} {'weighs' if len(one.marks) == 1 else 'weigh'}"
        return (
            f"{number} screws, {hung_screw_words(row, self.unit)}, {does} {DESIGN_VALUES} under the "
            f"assumptions on this page: {full} {self.weight(row.full)}, and by those values the screws carry "
            f"{self.weight(int(row.bears))}."
        )

    def drills(self, row: HungRow) -> str:
        screw = row.cases[0].screw
        return (
            f"Drill {self.drill(screw.clearance)} through strip and back, {self.drill(screw.pilot)} "
            "into the stud as deep as the screw goes."
        )

    def drill(self, across: Fraction) -> str:
        """A drill: by its fraction of an inch, or in tenths of a millimetre."""
        if self.unit is Unit.MM:
            return show(across, Mark.TENTH_MILLIMETRE, unit=True).plain
        return show(across, Mark.SIXTY_FOURTH, unit=True).marked

    def first(self, one: Hanging) -> str:
        """Which case goes up first, and why. Common practice, no source."""
        left, right = one.marks[0], one.marks[-1]
        if left == right:
            return f"{left} hangs by itself."
        run = self.project.run_of(left).run
        closed = run.left or run.left_scribe is not None, run.right or run.right_scribe is not None
        at_left = closed[0] and left == run.cases[0].mark
        at_right = closed[1] and right == run.cases[-1].mark
        mark, way = (right, "left") if at_right and not at_left else (left, "right")
        filler = run.left if mark == left else run.right
        if not (at_left or at_right):
            why = "places along the wall are measured from there"
        elif filler:
            why = "it stands a filler’s width from the wall, and the others follow from it"
        else:
            why = "its stile is scribed to the wall, and the others follow from it"
        return f"Hang {mark} first: {why}. Go on to the {way}, each case clamped to the one before."

    def join(self, pair: Neighbours) -> str:
        packed = f", with packing {self.exact(pair.apart)} thick between them" if pair.apart else ""
        sides = f"{self.within(pair.sides)} through their sides{packed}"
        if pair.by_frames:
            stiles = f"{self.within(pair.stiles)} through the stiles of their frames"
            return f"{pair.left} to {pair.right}: at the front {stiles}, at the back {sides}."
        return f"{pair.left} to {pair.right}: {sides}."

    def within(self, screw: Screw | None) -> str:
        """The screws that stay within two parts, or what is taken where none does."""
        if screw is None:
            return "bolts (no screw stays within both)"
        return f"screws {screw_words(screw.size, screw.length, self.project.job.mark)}"

    def shims(self, one: Hanging) -> str:
        if not one.studs:
            return ""
        if not one.shims:
            return (
                "Nobody has read how flat this wall is: hold a straightedge along the level line and shim "
                "each stud where light shows."
            )
        felt = [
            f"{self.place(shim.thick)} at {self.place(shim.stud)}" for shim in one.shims if self.is_felt(shim)
        ]
        if not felt:
            return "The wall is flat along the level line: no shims."
        return (
            "Shims behind the strips, so that the cases stand in one plane, by the studs from the wall’s "
            f"left end: {listed(felt)}; none at others. The wall was read along one level line: check with a "
            "plumb level at each stud."
        )

    def is_felt(self, shim: Shim) -> bool:
        """Whether a shim is as thick as half the finest mark."""
        return nearest(shim.thick, PENCIL_MARKS[self.unit].step) > 0

    def case(self, one: Hanging, place: CasePlace) -> CaseTold:
        lift, hung = case_lift(self.project, place.mark), place.hung
        return CaseTold(
            place.mark,
            self.exact(place.low),
            tuple(self.place(at) for at in place.screw_places),
            tuple(self.screw_rows(place)),
            f"{len(hung.places)} screws {hung_screw_words(one.row, self.unit)}" if hung and one.row else "",
            self.weight(hung.case.empty if hung else lift.whole),
            self.weight(one.full[place.mark]),
            self.weight(lift.carried),
            lift.words(self.project),
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

    def lifting(self, *, hung: bool) -> str:
        whose = whose_figures(self.project.job.shop.carry, self.unit)
        if not hung:
            return whose
        bench = self.place(BENCH)
        return (
            f"{whose} A case is hung without doors, drawers and loose shelves, from a bench {bench} high to "
            "the level line, hands under its lower edge."
        )

    def assumptions(self, one: Hanging, row: HungRow) -> Iterable[str]:
        for case in row.cases:
            yield from case.assumptions(lambda length: caliper(length, self.unit))
        if self.unit is Unit.MM:
            yield metric_screws(row)
        if any(shim.thick for shim in one.shims):
            yield "Shims bear nothing; the thickest is counted between every strip and its stud."

    def scribe(self, one: ScribedPart, found: Iterable[Finding]) -> ScribeTold:
        finest = FINE_MARKS[self.unit]
        mark = one.part.mark
        side, other = ("left", "right") if one.end is WallEnd.LEFT else ("right", "left")
        return ScribeTold(
            mark,
            f"{self.exact(one.length)} × {self.exact(one.width)}",
            f"The wall is at its {side}: measure from its {other} edge, up from its lower end. Cut close to "
            "the line, leaning in a little towards the back, and plane to it.",
            tuple(
                OffsetTold(
                    told(at.along, finest),
                    told(at.width, finest),
                    told(max(one.width - at.width, Fraction(0)), finest),
                )
                for at in one.offsets(OFFSET_STEPS[self.unit])
            ),
            tuple(Doubt(with_capital(it.text), it.fix) for it in found if it.place == one.entry),
            scribe_file(one.part, "pdf"),
        )
