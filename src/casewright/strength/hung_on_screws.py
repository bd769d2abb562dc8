"""Hanging a case: which screws can go through its strip into studs, and whether they bear it empty and full.

Only the highest strip counts. Its screws carry all the weight down the wall, and the pull that keeps the case
from turning about its lower back edge: weight times how far out it acts, over the height of the strip.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import atan2, ceil, degrees, hypot

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

TALL_WALL_CASE = Fraction(24)


def wall_test_load(height: Fraction) -> tuple[int, str]:
    """The static load a wall cabinet so high, in inches, is tested with, in pounds, and its source."""
    return (600 if height > TALL_WALL_CASE else 500), "ANSI/KCMA A161.1 (2012), 5.2"


@dataclass(frozen=True)
class HangingStrip:
    """A hanging strip, inches: from `left` to `right` of the case's left side, its middle `at` above the
    case's lower edge. `gravity` is its specific gravity, `behind` what lies between it and the wall's face,
    such as the back."""

    left: Fraction
    right: Fraction
    at: Fraction
    height: Fraction
    thickness: Fraction
    gravity: float
    behind: Fraction = Fraction(0)


@dataclass(frozen=True)
class HungCase:
    """A case to hang: `left` is its left side from the wall's left end, `empty` and `contents` its weights in
    pounds, `out` how far from the wall's face the weight acts. The strip is the highest it has.

    Raises ValueError where a weight is less than zero or the case has no size.
    """

    name: str
    left: Fraction
    strip: HangingStrip
    height: Fraction
    depth: Fraction
    empty: Fraction
    contents: Fraction

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
    def places(self) -> tuple[ScrewPlace, ...]:
        """Every place for a screw, from the left: one in each stud behind the strip, or two, one above the
        other, where the strip is high enough. The middle of the stud is taken, or the nearest place that is
        far enough from the strip's end."""
        return tuple(self._places())

    def _places(self) -> Iterator[ScrewPlace]:
        strip, shank = self.case.strip, Fraction(self.screw.shank).limit_denominator(1000)
        end, edge = LONG_ENOUGH * shank, Fraction(WIDE_ENOUGH) * shank
        low, high = self.case.left + strip.left + end, self.case.left + strip.right - end
        apart = strip.height - 2 * edge
        ups: Sequence[Fraction] = ()
        if apart >= ROWS_APART * shank:
            ups = (strip.at - apart / 2, strip.at + apart / 2)
        elif apart >= 0:
            ups = (strip.at,)
        for stud in self.wall.studs:
            across = min(max(stud, low), high)
            if low <= high and abs(across - stud) <= self.wall.stud_width / 2 - edge:
                yield from (ScrewPlace(across, up, stud) for up in ups)

    @property
    def studs(self) -> tuple[Fraction, ...]:
        """The studs that take screws."""
        return tuple(dict.fromkeys(place.stud for place in self.places))

    @cached_property
    def through(self) -> ScrewedThrough:
        """The screw in its strip, drywall and stud."""
        strip = self.case.strip
        return ScrewedThrough(
            self.screw,
            float(self.length),
            float(strip.thickness),
            strip.gravity,
            float(strip.behind + self.wall.covering),
            lumber_gravities()[self.wall.wood],
            LoadDuration.TEN_YEARS,
        )

    @property
    def pull_share(self) -> float:
        """Pounds of pull off the wall for each pound of weight."""
        return float(self.case.out / self.case.strip.at)

    @cached_property
    def each_bears(self) -> float:
        """Pounds that one screw may bear in the direction in which this case loads it.

        The rule for both at once lets a little pull raise what is borne down the wall; that is not counted.
        """
        downward = self.through.lateral * hypot(1.0, self.pull_share)
        return min(self.through.at_angle(degrees(atan2(self.pull_share, 1.0))), downward)

    def needed(self, pounds: Fraction) -> int | None:
        """How many screws a weight needs; None where none of them bears anything."""
        if self.each_bears <= 0:
            return None
        force = float(pounds * UNEVEN) * hypot(1.0, self.pull_share)
        return max(1, ceil(force / self.each_bears))

    @property
    def bears(self) -> float:
        """The weight in pounds that screws in all the places bear by the same reckoning."""
        return len(self.places) * self.each_bears / (float(UNEVEN) * hypot(1.0, self.pull_share))

    def meets(self, pounds: Fraction) -> bool:
        """Whether screws in all the places meet the design values under a weight. A case on one stud alone
        does not: nothing keeps it from turning about it."""
        return len(self.studs) > 1 and self.bears >= pounds

    @property
    def assumptions(self) -> tuple[str, ...]:
        """What the answer takes for granted, a sentence each."""
        screw, strip, stud = self.screw, self.case.strip, self.through
        return (
            f"The studs are {self.wall.wood}, specific gravity {stud.stud_gravity:g}: "
            "NDS 2018, Table 12.3.3A.",
            f"#{screw.gauge} wood screws in {screw.soft_pilot} in pilot holes, {stud.into_stud:.2f} in "
            f"into the stud; the strip, {float(strip.thickness):g} in thick, has a specific gravity of "
            f"{strip.gravity:g}.",
            "The load stands for ten years in all (NDS load duration factor 1.0), dry, in side grain; "
            "drywall and back bear nothing.",
            f"The hardest pressed screw carries {float(UNEVEN):g} times an even share: our "
            "judgement, no source.",
            f"The weight acts {float(self.case.out):g} in from the wall; only the highest strip counts.",
            "The strip is held in the case by joints at least as strong as the screws.",
        )


def first_that_meets(
    case: HungCase, wall: StudWall, screws: Sequence[WoodScrew], lengths: Sequence[Fraction]
) -> HungOnScrews | None:
    """The thinnest screw, and of that gauge the shortest, with which the full case meets the design values;
    None where none does."""
    tries = (
        HungOnScrews(case, wall, screw, length)
        for screw in sorted(screws, key=lambda one: one.gauge)
        for length in sorted(lengths)
    )
    return next((one for one in tries if one.meets(case.full)), None)
