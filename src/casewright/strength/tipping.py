"""Whether a standing case tips over its front with doors and drawers open, and what holds it.

Moments about the line it would tip over: the front of what it stands on, which a toe kick sets back.
Distances in inches, weights in pounds, moments in pound inches.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from .published import PublishedFigure

CLOTHING_UNITS = "ASTM F2057-23"

HUNG_ON_DRAWER = PublishedFigure(Fraction(60), f"{CLOTHING_UNITS}, a test laboratory's page: 60 lb", True)
"""What is hung on the front edge of an open drawer, pounds."""

UNDER_BACK = PublishedFigure(
    Fraction("10.9") / Fraction("25.4"),
    f"{CLOTHING_UNITS}, a test laboratory's page: a block of 10.9 mm",
    True,
)
"""What is put under the back so that the case leans as on carpet, inches."""

IN_DRAWERS = PublishedFigure(Fraction("8.5") / 1728, f"{CLOTHING_UNITS}: 8.5 lb/ft3 in drawers", False)
"""What loaded drawers hold, pounds for each cubic inch."""


@dataclass(frozen=True)
class StandingWeight:
    """A weight at a place: how far `behind` the front of the case (less than zero: in front), and how
    high."""

    pounds: Fraction
    behind: Fraction
    up: Fraction


@dataclass(frozen=True)
class StandingDrawer:
    """A drawer: its box with front weighs `pounds`, it holds `volume` cubic inches, is `deep` from front to
    back, comes out by `travel`, and its middle is `up` above the floor."""

    pounds: Fraction
    volume: Fraction
    deep: Fraction
    travel: Fraction
    up: Fraction


@dataclass(frozen=True)
class StandingDoor:
    """A door: its weight, its width, and the height of its middle above the floor."""

    pounds: Fraction
    width: Fraction
    up: Fraction


@dataclass(frozen=True)
class FreestandingCase:
    """A case on the floor, fastened to nothing: `pounds` without doors and drawers acts at its middle.

    `foot` is how far the front of what it stands on lies behind its front, `on_top` what is fixed on it.
    Raises ValueError where a size or weight is not more than zero, or the foot lies behind the case.
    """

    name: str
    pounds: Fraction
    depth: Fraction
    height: Fraction
    foot: Fraction = Fraction(0)
    drawers: tuple[StandingDrawer, ...] = ()
    doors: tuple[StandingDoor, ...] = ()
    on_top: StandingWeight | None = None

    def __post_init__(self) -> None:
        if min(self.pounds, self.depth, self.height) <= 0:
            raise ValueError(f"{self.name} needs a weight, a depth and a height of more than zero")
        if not 0 <= self.foot < self.depth:
            raise ValueError(
                f"{self.name} stands on a foot {float(self.foot):g} in behind its front, not within it"
            )


@dataclass(frozen=True)
class TippingCheck:
    """A case with everything open: the moments that hold it and tip it, and the height a strap would be
    at."""

    case: FreestandingCase
    holding: Fraction
    tipping: Fraction
    test_weight: Fraction

    @property
    def meets(self) -> bool:
        """Whether it stays on its feet in this test by itself."""
        return self.holding > self.tipping

    def strap(self, up: Fraction) -> Fraction:
        """The pull in pounds that keeps it standing, by a fastening so high above the floor; none where it
        stands by itself. Raises ValueError for one that is not above the floor."""
        if up <= 0:
            raise ValueError(f"a fastening to the wall must be above the floor, not at {float(up):g} in")
        return max(Fraction(0), (self.tipping - self.holding) / up)


def tips_when_open(
    case: FreestandingCase,
    test_weight: Fraction = HUNG_ON_DRAWER.value,
    under_back: Fraction = UNDER_BACK.value,
) -> TippingCheck:
    """Open every door and drawer, fill the drawers, hang the test weight where it tips most, and lean the
    case.

    The weight hangs on the front edge of the drawer that comes out furthest (of these the highest), or,
    without drawers, on the end of the widest door. The lean is as small as a block under the back makes it:
    each weight moves forward by its height times the block over the depth of the feet.
    """
    lean = under_back / (case.depth - case.foot)
    arms = [
        (weight.pounds, weight.behind - case.foot - lean * weight.up)
        for weight in _weights(case, test_weight)
    ]
    holding = sum((pounds * arm for pounds, arm in arms if arm > 0), Fraction(0))
    tipping = sum((-pounds * arm for pounds, arm in arms if arm < 0), Fraction(0))
    return TippingCheck(case, holding, tipping, test_weight)


def _weights(case: FreestandingCase, test_weight: Fraction) -> Iterator[StandingWeight]:
    yield StandingWeight(case.pounds, case.depth / 2, case.height / 2)
    if case.on_top:
        yield case.on_top
    for drawer in case.drawers:
        filled = drawer.pounds + drawer.volume * IN_DRAWERS.value
        yield StandingWeight(filled, drawer.deep / 2 - drawer.travel, drawer.up)
    for door in case.doors:
        yield StandingWeight(door.pounds, -door.width / 2, door.up)
    reaches = [(drawer.travel, drawer.up) for drawer in case.drawers] or [
        (door.width, door.up) for door in case.doors
    ]
    if reaches:
        out, up = max(reaches)
        yield StandingWeight(test_weight, -out, up)
