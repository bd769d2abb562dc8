"""Who lifts a sheet, a piece of one or a case: one answer for every page, paper and command.

The figure is the maker's own, `[shop.carry]`; where he gives none, what the lifting equation recommends for
that lift. Neither says that a lift is safe.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..lengths.length import Unit
from ..lengths.quantities import weighed
from ..shop.machines import Carry
from ..strength.lift_limit import LIFTING_SOURCE, TWO_TOGETHER, LiftLimit, limit_for_two
from ..strength.usual_lifts import limit_of_hung_case, limit_of_piece, limit_of_standing_case, limit_on_edge

LIGHT = Fraction(1, 2)
"""A long piece of no more than this share of the weight limit is carried alone without a word: a long filler
is awkward, not heavy. Common practice, no source."""


@dataclass(frozen=True)
class Lifters:
    """Who lifts a load: `people`, one or two, or None where it is over the limit for two, who then need
    `aid`. `held` is a load that a second person holds in any case, while it is screwed.
    """

    people: int | None
    limit: LiftLimit
    aid: str
    held: bool

    @property
    def alone(self) -> bool:
        """Whether nobody else is needed."""
        return self.people == 1 and not self.held

    @property
    def short(self) -> str:
        """Who, in a word or a few: for a row of a table."""
        if self.people == 1:
            return "one, a second holds it" if self.held else "one"
        return "two" if self.people == 2 else f"two with {self.aid.partition(',')[0]}"

    def words(self, unit: Unit) -> str:
        """Who, as half a sentence."""
        if self.people == 1:
            return "one lifts it, a second holds it while it is screwed" if self.held else "one lifts it"
        if self.people == 2:
            return "two lift it"
        return f"two with {self.aid} (over the {weighed(int(self.limit.two), unit)} for two)"


@dataclass(frozen=True)
class LiftRule:
    """What one person and two lift of a kind of load, and how long it may be for one."""

    limit: LiftLimit
    longest: Fraction
    aid: str
    held: bool = False

    def lifters(self, pounds: Fraction | None, length: Fraction) -> Lifters:
        """Who lifts a load of this weight and longest side: two, if it is too heavy for one, or long and not
        light. One of unknown weight is for two if it is long."""
        long = length > self.longest
        if pounds is None:
            people: int | None = 2 if long else 1
        else:
            people = self.limit.people(pounds)
            if people == 1 and long and pounds > LIGHT * self.limit.one:
                people = 2
        return Lifters(people, self.limit, self.aid, self.held)


def sheet_rule(carry: Carry) -> LiftRule:
    """For a whole sheet that is raised on edge off the floor onto the trestles."""
    return LiftRule(_limit(carry, limit_on_edge()), carry.length, "a cart, or one end at a time")


def piece_rule(carry: Carry) -> LiftRule:
    """For a piece of a sheet that goes from the trestles to the table saw: by this the sheets are planned."""
    return LiftRule(_limit(carry, limit_of_piece()), carry.length, "a cart")


def standing_rule(carry: Carry, narrow: Fraction) -> LiftRule:
    """For a case that goes to its place on the floor; `narrow` is the lesser of its width and depth."""
    return LiftRule(_limit(carry, limit_of_standing_case(narrow)), carry.length, "a cart")


def hanging_rule(carry: Carry, deep: Fraction, low: Fraction) -> LiftRule:
    """For a case so deep that is hung with its lower edge `low` inches above the floor."""
    limit = _limit(carry, limit_of_hung_case(deep, low))
    return LiftRule(limit, carry.length, "a prop or a cabinet lift", held=True)


def _limit(carry: Carry, recommended: LiftLimit) -> LiftLimit:
    return recommended if carry.weight is None else limit_for_two(carry.weight)


def over_limit_words(carry: Carry, limit: LiftLimit, unit: Unit) -> str:
    """Whose limit for one person a load passes, and which: `your 50 lb`."""
    whose = "the lifting equation’s" if carry.weight is None else "your"
    return f"{whose} {weighed(limit.one, unit)}"


def whose_figures(carry: Carry, unit: Unit) -> str:
    """By whose figures it is told who lifts, and what they assume."""
    by_two = f"two lift a third more than one ({TWO_TOGETHER.source})"
    if carry.weight is not None:
        limit = limit_for_two(carry.weight)
        one, two = weighed(limit.one, unit), weighed(limit.two, unit)
        return f"Who lifts is told by the shop’s own limit: {one} for one, {two} for two; {by_two}."
    pieces, sheets = (
        f"{weighed(limit.one, unit)} for one and {weighed(limit.two, unit)} for two"
        for limit in (limit_of_piece(), limit_on_edge())
    )
    return (
        f"Who lifts is told by {LIFTING_SOURCE}: {sheets} for a sheet raised on edge off the floor, {pieces} "
        "for a piece slid on edge off trestles as high as the saw’s table, less for cases, by how they are "
        f"held and how high they go; {by_two}."
    )
