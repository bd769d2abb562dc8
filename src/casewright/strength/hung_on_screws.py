"""Hanging cases: which screws can go through their strips into studs, and whether they bear them full.

All screws of a case share its weight down the wall evenly. Those of the highest strip also bear the pull that
keeps it from turning about its lower back edge: weight times how far out it acts, over the height of the
strip. Cases that are screwed to each other hang as one row: what one stud cannot take of a narrow case, its
neighbours take.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import chain
from math import atan2, degrees, hypot

from .stud_wall import StudWall
from .wood_screws import (
    LONG_ENOUGH,
    WIDE_ENOUGH,
    LoadDuration,
    ScrewedThrough,
    WoodScrew,
    lumber_gravities,
)

UNEVEN = Fraction(5, 4)
"""How much more than its even share the hardest pressed screw may carry: a soft stud, a strip that is not
quite tight to the wall. Our judgement, no source; the NDS takes screws thinner than 1/4 in to share
evenly."""

ROWS_APART = 5
"""Shank diameters between two screws in one stud, one above the other: NDS commentary, Table C12.1.5.7, from
memory."""


@dataclass(frozen=True)
class HangingStrip:
    """A hanging strip, inches: from `left` to `right` of the case's left side, its middle `at` above the
    case's lower edge. `gravity` is its specific gravity, `behind` what lies between it and the wall's face,
    such as a back in a rabbet and shims, `before` what a screw passes ahead of it, such as a back in grooves.
    `more` are the other pieces of a strip that dividers part."""

    left: Fraction
    right: Fraction
    at: Fraction
    height: Fraction
    thickness: Fraction
    gravity: float
    behind: Fraction = Fraction(0)
    before: Fraction = Fraction(0)
    more: tuple[tuple[Fraction, Fraction], ...] = ()

    @property
    def pieces(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Where each of its pieces begins and ends."""
        return ((self.left, self.right), *self.more)


@dataclass(frozen=True)
class HungCase:
    """A case to hang: `left` is its left side from the wall's left end, `empty` and `contents` its weights in
    pounds, `out` how far from the wall's face the weight acts. `strip` is the highest it has, `lower` the one
    below, None where there is only one.

    Raises ValueError where a weight is less than zero or the case has no size.
    """

    name: str
    left: Fraction
    strip: HangingStrip
    height: Fraction
    depth: Fraction
    empty: Fraction
    contents: Fraction
    lower: HangingStrip | None = None

    def __post_init__(self) -> None:
        for name, pounds in (("weight", self.empty), ("contents", self.contents)):
            if pounds < 0:
                raise ValueError(
                    f"the {name} of {self.name} cannot be less than zero, not {float(pounds):g} lb"
                )
        if min(self.height, self.depth, self.strip.at) <= 0:
            raise ValueError(f"{self.name} needs a height, a depth and a strip above its lower edge")

    @property
    def out(self) -> Fraction:
        """How far from the wall the weight acts: half the depth."""
        return self.depth / 2

    @property
    def full(self) -> Fraction:
        """Pounds with what it holds."""
        return self.empty + self.contents


@dataclass(frozen=True)
class ScrewPlace:
    """Where a screw can go: from the wall's left end and from the case's lower edge, and the middle of the
    stud it goes into, inches."""

    across: Fraction
    up: Fraction
    stud: Fraction


@dataclass(frozen=True)
class HungOnScrews:
    """A case against the studs with one kind of screw, `length` inches long."""

    case: HungCase
    wall: StudWall
    screw: WoodScrew
    length: Fraction

    @cached_property
    def upper_places(self) -> tuple[ScrewPlace, ...]:
        """Every place for a screw in the highest strip, from the left."""
        return tuple(self._places(self.case.strip))

    @cached_property
    def lower_places(self) -> tuple[ScrewPlace, ...]:
        """The same in the strip below."""
        return tuple(self._places(self.case.lower)) if self.case.lower else ()

    def with_length(self, length: Fraction) -> HungOnScrews:
        """The same with longer or shorter screws of its gauge: they go into the same places."""
        other = replace(self, length=length)
        # Looking for places is most of the work of trying screws, and only the gauge matters to them.
        vars(other).update(upper_places=self.upper_places, lower_places=self.lower_places)
        return other

    @property
    def places(self) -> tuple[ScrewPlace, ...]:
        """Every place for a screw, those of the highest strip first."""
        return (*self.upper_places, *self.lower_places)

    def _places(self, strip: HangingStrip) -> Iterator[ScrewPlace]:
        """One in each stud behind the strip, or two, one above the other, where the strip is high enough. The
        middle of the stud is taken, or the nearest place that is far enough from the end of a piece."""
        shank = Fraction(self.screw.shank).limit_denominator(1000)
        end, edge = LONG_ENOUGH * shank, Fraction(WIDE_ENOUGH) * shank
        rooms = [(self.case.left + left + end, self.case.left + right - end) for left, right in strip.pieces]
        apart = strip.height - 2 * edge
        ups: Sequence[Fraction] = ()
        if apart >= ROWS_APART * shank:
            ups = (strip.at - apart / 2, strip.at + apart / 2)
        elif apart >= 0:
            ups = (strip.at,)
        for stud in self.wall.studs:
            near = [min(max(stud, low), high) for low, high in rooms if low <= high]
            across = min(near, key=lambda place: abs(place - stud), default=None)
            if across is not None and abs(across - stud) <= self.wall.stud_width / 2 - edge:
                yield from (ScrewPlace(across, up, stud) for up in ups)

    @cached_property
    def studs(self) -> tuple[Fraction, ...]:
        """The studs that take screws."""
        return tuple(dict.fromkeys(place.stud for place in self.places))

    @cached_property
    def through(self) -> ScrewedThrough:
        """The screw in the highest strip, drywall and stud."""
        return self._through(self.case.strip)

    def _through(self, strip: HangingStrip) -> ScrewedThrough:
        return ScrewedThrough(
            self.screw,
            float(self.length),
            float(strip.thickness),
            strip.gravity,
            float(strip.behind + self.wall.covering),
            lumber_gravities()[self.wall.wood],
            LoadDuration.TEN_YEARS,
            float(strip.before),
        )

    @property
    def pull_share(self) -> float:
        """Pounds of pull off the wall for each pound of weight."""
        return float(self.case.out / self.case.strip.at)

    @cached_property
    def bears(self) -> float:
        """The weight in pounds at which the first of the screws in all the places comes to its design value;
        nothing without a screw in the highest strip.

        The rule for both directions at once lets a little pull raise what is borne down the wall; that is not
        counted.
        """
        if not self.upper_places:
            return 0.0
        down = float(UNEVEN) / len(self.places)
        pull = float(UNEVEN) * self.pull_share / len(self.upper_places)
        upper = self.through
        limits = [
            upper.lateral / down,
            upper.at_angle(degrees(atan2(pull, down))) / hypot(down, pull),
        ]
        if self.lower_places and self.case.lower:
            limits.append(self._through(self.case.lower).lateral / down)
        return min(limits)

    def assumptions(self, told: Callable[[Fraction], str]) -> tuple[str, ...]:
        """What the answer takes for granted, a sentence each; `told` puts a length in inches into words."""
        screw, strip, stud = self.screw, self.case.strip, self.through
        return (
            f"The studs are {self.wall.wood}, specific gravity {stud.stud_gravity:g}: "
            "NDS 2018, Table 12.3.3A.",
            f"#{screw.gauge} wood screws in pilot holes, {told(Fraction(stud.into_stud))} into the stud; the "
            f"strip, {told(strip.thickness)} thick, has a specific gravity of {strip.gravity:g}.",
            "The load stands for ten years in all (NDS load duration factor 1.0), dry, in side grain; "
            "drywall and back bear nothing.",
            f"The hardest pressed screw carries {float(UNEVEN):g} times an even share: our "
            "judgement, no source.",
            f"The weight acts {told(self.case.out)} from the wall; the screws share it evenly, and "
            "those of the highest strip bear the pull.",
            "The strips are held in the case by joints at least as strong as the screws.",
        )


@dataclass(frozen=True)
class HungRow:
    """Cases side by side that are screwed to each other, all against the studs with one kind of screw."""

    cases: tuple[HungOnScrews, ...]

    @cached_property
    def studs(self) -> tuple[Fraction, ...]:
        """The studs that take screws."""
        return tuple(dict.fromkeys(stud for case in self.cases for stud in case.studs))

    @cached_property
    def full(self) -> Fraction:
        """Pounds of the row with what it holds."""
        return sum((case.case.full for case in self.cases), Fraction(0))

    @cached_property
    def bears(self) -> float:
        """The weight in pounds that its screws bear together."""
        return sum(case.bears for case in self.cases)

    @property
    def meets(self) -> bool:
        """Whether its screws meet the design values with every case full. A row on one stud alone does not:
        nothing keeps it from turning about it."""
        return self.bears >= self.full and len(self.studs) > 1


def hung_row(cases: Sequence[HungCase], wall: StudWall, screw: WoodScrew, length: Fraction) -> HungRow:
    """A row hung with one kind of screw."""
    return HungRow(tuple(HungOnScrews(case, wall, screw, length) for case in cases))


def first_that_meets(
    cases: Sequence[HungCase], wall: StudWall, screws: Sequence[WoodScrew], lengths: Sequence[Fraction]
) -> HungRow | None:
    """The thinnest screw, and of that gauge the shortest, with which the full row meets the design values;
    None where none does."""
    first, *longer = sorted(lengths)
    for screw in sorted(screws, key=lambda one: one.gauge):
        shortest = hung_row(cases, wall, screw, first)
        tries = (HungRow(tuple(case.with_length(length) for case in shortest.cases)) for length in longer)
        found = next((row for row in chain([shortest], tries) if row.meets), None)
        if found is not None:
            return found
    return None
