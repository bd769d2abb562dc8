"""A shelf as a plate: with strips along its edges, and held by its back or not.

A strip along the front stiffens the front. The back hangs behind it as far as the panel bends across and
twists, and in plywood that is far: the beam formula with the whole section tells of a shelf that cannot
twist. A shelf that its back holds sags at its front alone.

The plate's sag is a row of half waves along the shelf (Levy), w = sum Y(y) sin(m pi x / L), which meets the
simple rests of both ends. Across, from back to front, each Y is the polynomial that makes the energy least
(Ritz): bending both ways, twist, and the strips as beams along the edges. Wood's two moduli are counted
apart.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import numpy as np
from numpy.polynomial import Legendre
from numpy.typing import NDArray

from .panel_stiffness import PanelStiffness
from .section import StiffeningStrip, bare_panel, panel_with_strips

WAVES = np.arange(1, 13, 2)  # an even load has only odd ones; the sixth adds less than a part in ten thousand
POWERS = 9  # of y; with seven the sag is right to five digits, for shelves up to as deep as long
PLACES = np.linspace(0.0, 1.0, 41)  # looked at from back to front; along the shelf the middle is lowest


@dataclass(frozen=True)
class PlateStiffness:
    """How a panel resists bending, in lb in2 for an inch of it: `along` the shelf, `across` from back to
    front, `both` together (by Poisson's effect), and `twist`."""

    along: float
    across: float
    both: float
    twist: float


def plate_stiffness(stiffness: PanelStiffness, thickness: Fraction, *, grain_along: bool) -> PlateStiffness:
    """The stiffness of an orthotropic plate that thick, in inches: E h3 / 12 (1 - nu nu') both ways, G h3 /
    12."""
    along = float(stiffness.lengthwise(grain_along=grain_along).value)
    across = float(stiffness.crosswise(grain_along=grain_along).value)
    poisson = float(stiffness.poisson.value)  # bent along the grain
    other = poisson * float(stiffness.across.value / stiffness.along.value)  # bent across it, by symmetry
    plate = float(thickness**3 / 12) / (1 - poisson * other)
    both = poisson * float(stiffness.across.value)
    return PlateStiffness(
        along * plate, across * plate, both * plate, float(stiffness.shear.value * thickness**3 / 12)
    )


def edging_stiffness(
    depth: Fraction, thickness: Fraction, modulus: Fraction, strip: StiffeningStrip
) -> Fraction:
    """What an edging adds along its edge of the panel, EI in lb in2.

    The edging bends with the panel beside it, but only a quarter of the panel stretches with it: a force
    along the edge of a plate that may bend in its own plane stretches that edge by 1/A + 3/A, four times as
    much as a force along its middle. So the edging counts as glued to a flange a quarter as deep as the
    panel.
    """
    flange = depth / 4
    together = panel_with_strips(flange, thickness, modulus, (strip,)).stiffness
    return together - bare_panel(flange, thickness, modulus).stiffness


@dataclass(frozen=True)
class PlateSag:
    """How far a shelf sags halfway along, inches: at its front edge, at its back edge, and where it is
    most."""

    front: float
    back: float
    most: float


def plate_sag(
    load: float,
    span: float,
    depth: float,
    plate: PlateStiffness,
    *,
    front: float = 0.0,
    back: float = 0.0,
    back_held: bool = False,
) -> PlateSag:
    """How far a shelf sags under an even load of `load` pounds per square inch.

    It rests on both its ends, free to turn, and with `back_held` on its back all along, free to turn there
    too. `front` and `back` are the stiffness EI of strips along those edges. Raises ValueError where a size
    or stiffness is not more than zero.
    """
    if min(span, depth, plate.along, plate.across, plate.twist) <= 0:
        raise ValueError("a shelf needs a length, a depth and a stiffness of more than zero")
    shapes = _shapes(back_held)
    wave = WAVES * np.pi / span
    square = (wave**2)[:, None, None]
    at_back, at_front = shapes.at_places[:, 0], shapes.at_places[:, -1]
    energy = (
        plate.along * depth * square**2 * shapes.still
        - plate.both / depth * square * shapes.mixed
        + plate.across / depth**3 * shapes.bent
        + 4 * plate.twist / depth * square * shapes.turned
        + square**2 * (front * np.outer(at_front, at_front) + back * np.outer(at_back, at_back))
    )
    pressed = (4 * load / (np.pi * WAVES) * depth)[:, None] * shapes.area
    shares = np.linalg.solve(energy, pressed[:, :, None])[:, :, 0]
    halfway = np.sin(WAVES * np.pi / 2) @ (shares @ shapes.at_places)
    return PlateSag(float(halfway[-1]), float(halfway[0]), float(np.max(np.abs(halfway))))


@dataclass(frozen=True)
class _Shapes:
    """The shapes from back (0) to front (1), Legendre's polynomials, and what the energy takes of each
    pair."""

    still: NDArray[np.float64]  # the product, over the depth
    turned: NDArray[np.float64]  # of first derivatives
    bent: NDArray[np.float64]  # of second derivatives
    mixed: NDArray[np.float64]  # of one with the second derivative of the other, both ways
    area: NDArray[np.float64]
    at_places: NDArray[np.float64]


@cache
def _shapes(back_held: bool) -> _Shapes:
    basis = [Legendre.basis(power, domain=[0.0, 1.0]) for power in range(POWERS + 1)]
    if back_held:  # none moves at the back
        basis = [one - one(0.0) for one in basis[1:]]
    points, weights = np.polynomial.legendre.leggauss(POWERS + 1)
    points, weights = (points + 1) / 2, weights / 2

    def values(order: int) -> NDArray[np.float64]:
        return np.array([one.deriv(order)(points) if order else one(points) for one in basis])

    plain, first, second = (values(order) for order in range(3))
    mixed = (plain * weights) @ second.T
    return _Shapes(
        (plain * weights) @ plain.T,
        (first * weights) @ first.T,
        (second * weights) @ second.T,
        mixed + mixed.T,
        plain @ weights,
        np.array([one(PLACES) for one in basis]),
    )
