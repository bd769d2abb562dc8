"""Wood screws: what one bears pulled out, sheared, and both at once, by the published design equations.

The figures are reference design values of the NDS (National Design Specification for Wood Construction,
2018): in withdrawal 2850 G2 D of the 15,700 G2 D at which a screw gives way (Wood Handbook, Eq. 8-10, from
memory). They hold for screws in pilot holes in dry side grain. Pounds and inches, in floats.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from functools import cache
from math import cos, pi, radians, sin, sqrt

from .published import data_tables

THREADED = 2 / 3
"""The share of a wood screw's length that is threaded: NDS Appendix L, from memory."""

TIP = 2
"""The length of a screw's tapered tip in shank diameters; it counts only where 10 diameters go in: NDS
12.3.5.3, from memory."""

LEAST_PENETRATION = 6
"""Shank diameters that must go into the stud for shear: NDS 2018, 12.1.5.6."""

WIDE_ENOUGH = 2.5
"""Shank diameters from a screw to the edge of a strip or stud: NDS commentary, Table C12.1.5.7, from
memory."""

LONG_ENOUGH = 10
"""Shank diameters from a screw to the end of a strip, in a pilot hole: the same table, from memory."""


class LoadDuration(Enum):
    """How long a load stands, with the factor by which design values are multiplied: NDS Table 2.3.2."""

    FOR_GOOD = 0.9
    TEN_YEARS = 1.0
    SEVEN_DAYS = 1.25
    TEN_MINUTES = 1.6


@dataclass(frozen=True)
class WoodScrew:
    """A wood screw by its gauge, inches: across the `shank`, the `root` of the thread and the `head`, and the
    drills for it: through the strip with `clearance`, into a stud's softwood as a `pilot`."""

    gauge: int
    shank: float
    root: float
    head: float
    clearance: Fraction
    pilot: Fraction

    @property
    def yield_strength(self) -> float:
        """Bending yield strength, psi: NDS 2018, Table I1, from memory."""
        if self.shank <= 0.142:
            return 100_000
        return 90_000 if self.shank <= 0.177 else 80_000


@cache
def wood_screws() -> Mapping[int, WoodScrew]:
    """The gauges that are listed."""
    return {
        int(gauge): WoodScrew(
            int(gauge),
            float(table["shank"]),
            float(table["root"]),
            float(table["head"]),
            Fraction(table["clearance"]),
            Fraction(table["pilot"]),
        )
        for gauge, table in data_tables("screws")["gauges"].items()
    }


@cache
def lumber_gravities() -> Mapping[str, float]:
    """Specific gravity of lumber by the name of the wood: NDS 2018, Table 12.3.3A."""
    return {wood: float(gravity) for wood, gravity in data_tables("screws")["gravity"].items()}


@cache
def panel_gravities() -> Mapping[str, float]:
    """Specific gravity of panels by their kind, as the NDS reckons with it; none for boards without plies."""
    return {kind: float(gravity) for kind, gravity in data_tables("screws")["panels"].items()}


def withdrawal(gravity: float, shank: float) -> float:
    """2850 G2 D, pounds for each inch of thread in side grain: NDS 2018, 12.2.2."""
    return 2850 * gravity**2 * shank


def pull_through(gravity: float, head: float, thickness: float) -> float:
    """690 pi D G2 t, pounds at which a head is drawn into a strip: NDS 2018, 12.2.5, from memory.

    More thickness than 2 1/2 heads adds nothing.
    """
    return 690 * pi * head * gravity**2 * min(thickness, 2.5 * head)


def bearing_strength(gravity: float) -> float:
    """16,600 G1.84, psi, of wood against a dowel thinner than 1/4 in: NDS 2018, Table 12.3.3, from memory."""
    return float(16_600 * gravity**1.84)


def reduction(root: float) -> float:
    """Rd, by which a yield load is divided: NDS 2018, Table 12.3.1B."""
    return 2.2 if root <= 0.17 else 10 * root + 0.5


def yield_loads(
    screw: WoodScrew, side: float, side_gravity: float, main: float, main_gravity: float, gap: float = 0.0
) -> Mapping[str, float]:
    """The load of each yield mode in single shear, pounds, divided by Rd.

    `side` is the thickness of the strip, `main` what goes into the stud, `gap` what lies between them and
    gives no hold, as drywall and a back. The general dowel equations of AWC's Technical Report 12 (from
    memory); without a gap they are those of NDS 2018, Table 12.3.1A, with the root for the diameter.
    """
    root = screw.root
    side_hold, main_hold = bearing_strength(side_gravity) * root, bearing_strength(main_gravity) * root
    moment = screw.yield_strength * root**3 / 6
    side_turn, main_turn = side_hold * side**2 / 4, main_hold * main**2 / 4

    def mode(per_side: float, per_main: float, arm: float, held: float) -> float:
        """The root of A P2 + B P = C."""
        square = 1 / (per_side * side_hold) + 1 / (per_main * main_hold)
        return (-arm + sqrt(arm**2 + 4 * square * held)) / (2 * square)

    loads = {
        "Im": main_hold * main,
        "Is": side_hold * side,
        "II": mode(4, 4, side / 2 + gap + main / 2, side_turn + main_turn),
        "IIIm": mode(2, 4, gap + main / 2, moment + main_turn),
        "IIIs": mode(4, 2, side / 2 + gap, side_turn + moment),
        "IV": mode(2, 2, gap, 2 * moment),
    }
    return {name: load / reduction(root) for name, load in loads.items()}


@dataclass(frozen=True)
class ScrewedThrough:
    """A screw through a strip into a stud, inches.

    `between` is what lies between strip and stud (a back, drywall), `before` what lies under the head ahead
    of the strip (a back again) and bears nothing. Gravities are those of `lumber_gravities`, or of the
    strip's own material. `duration` is how long the load stands.
    """

    screw: WoodScrew
    length: float
    strip: float
    strip_gravity: float
    between: float
    stud_gravity: float
    duration: LoadDuration = LoadDuration.FOR_GOOD
    before: float = 0.0

    @property
    def into_stud(self) -> float:
        """How much of the screw goes into the stud, the head being flush with the strip or what lies before
        it; less than zero where the screw ends before the stud."""
        return self.length - self.before - self.strip - self.between

    @property
    def reaches(self) -> bool:
        """Whether enough goes into the stud for a design value."""
        return self.into_stud >= LEAST_PENETRATION * self.screw.shank

    @property
    def withdrawal(self) -> float:
        """Pounds at which the thread may be pulled or the head drawn through, the lesser of the two."""
        thread = max(0.0, min(self.into_stud, THREADED * self.length))
        pulled = withdrawal(self.stud_gravity, self.screw.shank) * thread
        head = pull_through(self.strip_gravity, self.screw.head, self.strip)
        return min(pulled, head) * self.duration.value

    @property
    def lateral(self) -> float:
        """Pounds it may bear along the wall; none where it does not reach."""
        if not self.reaches:
            return 0.0
        into = self.into_stud
        if into < 10 * self.screw.shank:
            into -= TIP * self.screw.shank
        loads = yield_loads(self.screw, self.strip, self.strip_gravity, into, self.stud_gravity, self.between)
        return min(loads.values()) * self.duration.value

    def at_angle(self, degrees: float) -> float:
        """Pounds it may bear at so many degrees out from the wall's face: NDS 2018, 12.4.1.

        W Z / (W cos2 + Z sin2): `lateral` at none, `withdrawal` straight out.
        """
        pulled, sheared = self.withdrawal, self.lateral
        if min(pulled, sheared) <= 0:
            return 0.0
        angle = radians(degrees)
        return pulled * sheared / (pulled * cos(angle) ** 2 + sheared * sin(angle) ** 2)
