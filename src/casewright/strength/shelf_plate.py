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

WAVES = np.arange(1, 13, 2)  # an even load has only odd ones; the sixth adds less than a part in ten thousand
POWERS = 9  # of y; with seven the sag is right to five digits, for shelves up to as deep as long
PLACES = np.linspace(0.0, 1.0, 41)  # looked at from back to front; along the shelf the middle is lowest


Stiffness = float | NDArray[np.float64]


@dataclass(frozen=True)
class StiffeningStrip:
    """A strip glued to the front or back edge of a panel: `width` from front to back, `height`, and how far
    its upper face stands `above` that of the panel (less than zero: below)."""

    width: Fraction
    height: Fraction
    modulus: Fraction
    above: Fraction = Fraction(0)


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


def strip_stiffness(
    strip: StiffeningStrip,
    span: Fraction,
    depth: Fraction,
    thickness: Fraction,
    stiffness: PanelStiffness,
    *,
    grain_along: bool,
) -> NDArray[np.float64]:
    """What a strip adds along its edge of the panel, EI in lb in2, for each of the plate's waves.

    The strip bends by itself, and glued to the panel it stretches the panel's edge as the panel stretches its
    own: EI of the strip and e2 / (1 / EA of the strip + 1 / EA of the edge), e being how far its middle lies
    from the panel's. The whole panel does not stretch with its edge; how much of it does, `flange_depth`
    says.
    """
    across = float(strip.width * strip.height)
    apart = float(thickness / 2 - (thickness + strip.above - strip.height / 2))
    own, pull = float(strip.modulus) * across * float(strip.height) ** 2 / 12, float(strip.modulus) * across
    modulus = float(stiffness.lengthwise(grain_along=grain_along).value)
    edge = (
        modulus
        * float(thickness)
        * flange_depth(float(span), float(depth), stiffness, grain_along=grain_along)
    )
    return np.asarray(own + apart**2 / (1 / pull + 1 / edge), dtype=np.float64)


def flange_depth(
    span: float, depth: float, stiffness: PanelStiffness, *, grain_along: bool
) -> NDArray[np.float64]:
    """How deep a part of the panel would stretch as its edge does, if it all stretched alike, for each wave.

    The panel in its own plane (plane stress), drawn along one edge, free along the other and to bend
    sideways: by the energy again, u = sum U(y) cos(m pi x / L) along and v = sum V(y) sin(m pi x / L) across.
    In a panel that does not give in shear it is a quarter of the depth, and less the more it gives.
    """
    shapes = _shapes(False)
    along = float(stiffness.lengthwise(grain_along=grain_along).value)
    across = float(stiffness.crosswise(grain_along=grain_along).value)
    both = float(stiffness.poisson.value * stiffness.across.value)
    less = 1 - both**2 / (along * across)
    shear = float(stiffness.shear.value)
    wave = (WAVES * np.pi / span)[:, None, None]
    lengthwise = along / less * wave**2 * depth * shapes.still + shear / depth * shapes.turned
    crosswise = across / less / depth * shapes.turned + shear * wave**2 * depth * shapes.still
    mixed = wave * (shear * shapes.sloped.T - both / less * shapes.sloped)
    energy = np.concatenate(
        [
            np.concatenate([lengthwise, mixed], axis=2),
            np.concatenate([mixed.transpose(0, 2, 1), crosswise], axis=2),
        ],
        axis=1,
    )
    at_edge = shapes.at_places[:, -1]
    drawn = np.concatenate([at_edge, np.zeros(len(at_edge))])[:, None]
    moved = np.linalg.solve(energy, np.broadcast_to(drawn, (len(WAVES), *drawn.shape)))[:, : len(at_edge), 0]
    return np.asarray(1 / (along * wave[:, 0, 0] ** 2 * (moved @ at_edge)), dtype=np.float64)


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
    front: Stiffness = 0.0,
    back: Stiffness = 0.0,
    back_held: bool = False,
) -> PlateSag:
    """How far a shelf sags under an even load of `load` pounds per square inch.

    It rests on both its ends, free to turn, and with `back_held` on its back all along, free to turn there
    too. `front` and `back` are the stiffness EI of strips along those edges, one or one for each wave. Raises
    ValueError where a size or stiffness is not more than zero.
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
        + square**2 * _each_wave(front) * np.outer(at_front, at_front)
        + square**2 * _each_wave(back) * np.outer(at_back, at_back)
    )
    pressed = (4 * load / (np.pi * WAVES) * depth)[:, None] * shapes.area
    shares = np.linalg.solve(energy, pressed[:, :, None])[:, :, 0]
    halfway = np.sin(WAVES * np.pi / 2) @ (shares @ shapes.at_places)
    return PlateSag(float(halfway[-1]), float(halfway[0]), float(np.max(np.abs(halfway))))


def _each_wave(stiffness: Stiffness) -> NDArray[np.float64]:
    return np.broadcast_to(np.asarray(stiffness, dtype=np.float64), WAVES.shape)[:, None, None]


@dataclass(frozen=True)
class _Shapes:
    """The shapes from back (0) to front (1), Legendre's polynomials, and what the energy takes of each
    pair."""

    still: NDArray[np.float64]  # the product, over the depth
    turned: NDArray[np.float64]  # of first derivatives
    bent: NDArray[np.float64]  # of second derivatives
    sloped: NDArray[np.float64]  # of one with the first derivative of the other
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
        (plain * weights) @ first.T,
        mixed + mixed.T,
        plain @ weights,
        np.array([one(PLACES) for one in basis]),
    )
