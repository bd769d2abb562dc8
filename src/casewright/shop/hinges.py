"""Cup hinges: where their cups and plates are bored, what overlay they give, and how many a door needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ..lengths.length import MM

FROM_END = Fraction(4)
"""Inches from the end of a door to the center of its last cup. Hardware pages: 76 to 100 mm, and 4 in."""

LOW_DOOR = Fraction(1, 4)
"""The most of a door's height that a cup is away from its end, so that the hinges of a low door keep half
its height between them. Common practice, no source."""

INSET_SETBACK = MM * 3 / 2
"""How much further back than its own thickness an inset door sets the plates: a hinge maker's sheet."""


class HingeReason(Enum):
    """What about a door decides how many hinges it needs."""

    WEIGHT = "weight"
    HEIGHT = "height"
    WIDTH = "width"


@dataclass(frozen=True)
class HingeRow:
    """One step of a chart: `hinges` carry a door lighter than `weight` pounds and lower than `height` inches.

    None where the chart says nothing of it.
    """

    hinges: int
    weight: Fraction | None = None
    height: Fraction | None = None


@dataclass(frozen=True)
class HingeChart:
    """How many hinges doors need, by a chart: its steps from the fewest hinges up.

    A door wider than `widest` inches takes one more.
    """

    name: str
    rows: tuple[HingeRow, ...]
    widest: Fraction | None = None


@dataclass(frozen=True)
class Hinge:
    """A cup hinge, by the figures of its maker's sheet; lengths in inches.

    `cup` is the diameter of the hole in the door and `cup_depth` its depth. `cup_edge` is the least and the
    greatest distance from the door's edge to the edge of that hole. With the arm's `crank` and a `plate` of
    that thickness the door covers `reach` + distance - plate - crank of the side; less than nothing is the
    gap beside an inset door. The plate's holes are `plate_setback` from the case's front edge and
    `plate_holes` apart, each `plate_pilot` wide and `plate_pilot_depth` deep; an `inset` hinge sets them
    back by the door as well. The cup's two screws are `screws` apart, `screws_back` further from the door's
    edge than its center, in pilots `cup_pilot` wide. `from_end` is how far from a door's end its last cup is;
    `price` is for one with its plate, None where it is not told.
    """

    key: str
    name: str
    cup: Fraction
    cup_depth: Fraction
    cup_edge: tuple[Fraction, Fraction]
    reach: Fraction
    crank: Fraction
    plate: Fraction
    plate_setback: Fraction
    plate_holes: Fraction
    plate_pilot: Fraction
    plate_pilot_depth: Fraction
    screws: Fraction
    screws_back: Fraction
    cup_pilot: Fraction
    charts: tuple[HingeChart, ...]
    inset: bool = False
    from_end: Fraction = FROM_END
    price: Fraction | None = None

    @property
    def overlays(self) -> tuple[Fraction, Fraction]:
        """The least and the greatest overlay it gives, in inches; below zero it leaves a gap."""
        bare = self.reach - self.plate - self.crank
        return bare + self.cup_edge[0], bare + self.cup_edge[1]


@dataclass(frozen=True)
class HingeCount:
    """How many hinges a door needs, what about it decides that, and by which chart.

    `beyond` is True where no chart goes as far as this door: the count is then the least it can be.
    """

    hinges: int
    reason: HingeReason
    chart: str
    beyond: bool = False


def cup_edge_for(overlay: Fraction, hinge: Hinge) -> Fraction | None:
    """The distance from the door's edge to the edge of the cup that gives `overlay`, all in inches.

    None where the hinge does not give that overlay with its plate: see `Hinge.overlays`.
    """
    least, most = hinge.overlays
    return hinge.cup_edge[0] + overlay - least if least <= overlay <= most else None


def plate_line(hinge: Hinge, door_thickness: Fraction) -> Fraction:
    """The distance from the case's front edge to the line of the plates' holes, in inches."""
    return hinge.plate_setback + (door_thickness + INSET_SETBACK if hinge.inset else 0)


def hinges_needed(weight_lb: Fraction, height: Fraction, width: Fraction, hinge: Hinge) -> HingeCount:
    """How many hinges a door of that weight (pounds, with its handle) and size (inches) needs.

    Charts of different makers disagree; the most cautious answer of the hinge's charts counts.
    """
    answers = [one for chart in hinge.charts for one in _by_chart(chart, weight_lb, height, width)]
    most = max(answers, key=lambda one: one.hinges)
    alike = [one for one in answers if one.reason is most.reason]
    return HingeCount(most.hinges, most.reason, most.chart, all(one.beyond for one in alike))


def _by_chart(chart: HingeChart, weight: Fraction, height: Fraction, width: Fraction) -> list[HingeCount]:
    """What a chart says of a door: one answer by each thing it goes by."""
    steps = {
        HingeReason.WEIGHT: (weight, [(row.hinges, row.weight) for row in chart.rows]),
        HingeReason.HEIGHT: (height, [(row.hinges, row.height) for row in chart.rows]),
    }
    answers = []
    for reason, (value, limits) in steps.items():
        known = [(hinges, limit) for hinges, limit in limits if limit is not None]
        if known:
            within = [hinges for hinges, limit in known if value < limit]
            count = min(within, default=max(hinges for hinges, _ in known) + 1)
            answers.append(HingeCount(count, reason, chart.name, not within))
    if chart.widest is not None and width > chart.widest and answers:
        most = max(answers, key=lambda one: one.hinges)
        answers.append(HingeCount(most.hinges + 1, HingeReason.WIDTH, chart.name, most.beyond))
    return answers


def too_close(places: Sequence[Fraction], width: Fraction) -> bool:
    """Whether a door `width` wide hangs badly on cups at those places: its outermost hinges ought to be
    further apart than it is wide. A hinge maker's quick reference."""
    return max(places) - min(places) <= width
