"""One price for every way to put right: money, minutes at the shop's hourly figure, and what will be seen.

All of it is counted in money, so that one ranking holds a sheet to buy against an hour at the bench and
a line in sight. The figures are our judgement (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ..shop.machines import HOURLY


class Seen(Enum):
    """What will be seen of a repair when the job is done, the least first."""

    NOTHING = "nothing"
    HIDDEN_LINE = "glue line at a hidden edge"
    IN_SIGHT = "in sight"
    DESIGN = "changed design"


SEEN_MINUTES = {
    Seen.NOTHING: Fraction(0),
    Seen.HIDDEN_LINE: Fraction(5),
    Seen.IN_SIGHT: Fraction(60),
    Seen.DESIGN: Fraction(1200),
}
"""What each counts as, in minutes at the bench (common practice, no source).

A glue line that nobody sees is a little worse than none. A maker works an hour, and not a day, to be rid of
one in sight. Nobody changes what a client has agreed to before two and a half days of work or what they
would pay for: every hidden cure of ordinary cost comes first.
"""


def most_seen(seen: Iterable[Seen]) -> Seen:
    """The one of them that shows most; NOTHING if there are none."""
    order = list(Seen)
    return max(seen, key=order.index, default=Seen.NOTHING)


@dataclass(frozen=True)
class Cost:
    """What a way costs: `money` to spend, `minutes` at the bench, what is `seen` of it.

    Ways of one price are compared by parts made again, by how much changes in sight (inches, weighted), and
    by the worth of the wood on hand that is used up.
    """

    money: Fraction
    minutes: Fraction
    remade: int
    seen: Seen
    in_sight: Fraction
    wood: Fraction
    hourly: Fraction = HOURLY

    @property
    def whole_minutes(self) -> int:
        return round(float(self.minutes))

    @property
    def work(self) -> Fraction:
        """What the minutes come to at the shop's hourly figure."""
        return self.minutes * self.hourly / 60

    @property
    def shown(self) -> Fraction:
        """What the sight of it counts as."""
        return SEEN_MINUTES[self.seen] * self.hourly / 60

    @property
    def price(self) -> Fraction:
        """Money, work and sight in one figure, in the job's money."""
        return self.money + self.work + self.shown

    @property
    def money_figure(self) -> float:
        """The money to spend, as a number for programs to read."""
        return float(self.money)

    @property
    def price_figure(self) -> float:
        """The price, as a number for programs to read."""
        return round(float(self.price), 2)

    @property
    def ask_client(self) -> bool:
        """Whether it changes what the client has agreed to."""
        return self.seen is Seen.DESIGN

    def key(self) -> tuple[Fraction, int, Fraction, Fraction]:
        """Compares ways: the least is the best."""
        return (self.price, self.remade, self.in_sight, self.wood)
