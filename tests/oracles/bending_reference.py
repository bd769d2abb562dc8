"""The shelf's bending worked out by finite elements (scikit-fem), which shares nothing with
`casewright.strength`.

Beams by Hermite elements on a fine mesh, plates by the rectangle of Bogner, Fox and Schmit with the strip as
a beam along its edge, sections by integrating over a mesh of the parts, a whole shelf with its edging as a
solid body.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from skfem import (
    Basis,
    BilinearForm,
    ElementLineHermite,
    ElementQuad1,
    ElementQuadBFS,
    FacetBasis,
    Functional,
    LinearForm,
    MeshLine,
    MeshQuad,
    condense,
    solve,
)
from skfem.helpers import dd, ddot

Array = NDArray[np.float64]


@dataclass(frozen=True)
class ReferenceBeam:
    """A beam: rests as (place, cannot turn), even loads as (lb/in, from, to), loads as (lb, place)."""

    length: float
    stiffness: float
    rests: Sequence[tuple[float, bool]]
    even: Sequence[tuple[float, float, float]] = ()
    at: Sequence[tuple[float, float]] = ()


def beam_by_elements(beam: ReferenceBeam, pieces: int = 120) -> float:
    """The largest sag or rise of a beam at any node."""
    marks = {0.0, beam.length, *(place for place, _ in beam.rests), *(place for _, place in beam.at)}
    marks |= {end for _, start, stop in beam.even for end in (start, stop)}
    fixed = np.array(sorted(marks))
    grid = np.linspace(0, beam.length, pieces + 1)
    apart = np.abs(grid[:, None] - fixed[None, :]).min(axis=1)
    # Beside a mark, a node of the grid would cut off a sliver, whose stiffness spoils the whole solve.
    mesh = MeshLine(np.sort(np.concatenate([fixed, grid[apart > beam.length / pieces / 4]])))
    basis = Basis(mesh, ElementLineHermite())

    def bending(u: Any, v: Any, _: Any) -> Any:
        return beam.stiffness * ddot(dd(u), dd(v))

    def pressed(v: Any, w: Any) -> Any:
        load = sum(((w.x[0] > start) & (w.x[0] < stop)) * each for each, start, stop in beam.even)
        return load * v

    matrix = BilinearForm(bending).assemble(basis)
    forces = LinearForm(pressed).assemble(basis) if beam.even else np.zeros(basis.N)

    def node(place: float) -> int:
        return int(np.argmin(np.abs(mesh.p[0] - place)))

    down, turn = basis.nodal_dofs
    for pounds, place in beam.at:
        forces[down[node(place)]] += pounds
    held = [down[node(place)] for place, _ in beam.rests]
    held += [turn[node(place)] for place, fixed in beam.rests if fixed]
    moved = solve(*condense(matrix, forces, D=np.array(held)))
    return float(np.max(np.abs(moved[down])))


@dataclass(frozen=True)
class ReferencePlate:
    """A shelf as a plate: its ends rest, `held` its back too; `front` and `back` are EI of beams along the
    edges. `along`, `across`, `both` and `twist` are plate stiffnesses, lb in."""

    span: float
    depth: float
    load: float
    along: float
    across: float
    both: float
    twist: float
    front: float = 0.0
    back: float = 0.0
    held: bool = False


def plate_by_elements(plate: ReferencePlate, pieces: int = 24) -> tuple[float, float, float]:
    """The sag halfway along the front edge and the back edge, and the largest of any node."""
    mesh = MeshQuad.init_tensor(
        np.linspace(0, plate.span, pieces + 1), np.linspace(0, plate.depth, pieces // 2 + 1)
    )
    basis = Basis(mesh, ElementQuadBFS(), intorder=8)

    def bending(u: Any, v: Any, _: Any) -> Any:
        one, other = dd(u), dd(v)
        return (
            plate.along * one[0, 0] * other[0, 0]
            + plate.across * one[1, 1] * other[1, 1]
            + plate.both * (one[0, 0] * other[1, 1] + one[1, 1] * other[0, 0])
            + 4 * plate.twist * one[0, 1] * other[0, 1]
        )

    def edge(u: Any, v: Any, _: Any) -> Any:
        return dd(u)[0, 0] * dd(v)[0, 0]

    def pressed(v: Any, _: Any) -> Any:
        return plate.load * v

    matrix = BilinearForm(bending).assemble(basis)
    for stiffness, side in ((plate.front, plate.depth), (plate.back, 0.0)):
        if stiffness:
            facets = mesh.facets_satisfying(
                lambda x, side=side: np.abs(x[1] - side) < 1e-9, boundaries_only=True
            )
            matrix = matrix + stiffness * BilinearForm(edge).assemble(
                FacetBasis(mesh, ElementQuadBFS(), facets=facets, intorder=8)
            )
    down, _, slope_across, _ = basis.nodal_dofs
    x, y = mesh.p
    ends = np.flatnonzero((np.abs(x) < 1e-9) | (np.abs(x - plate.span) < 1e-9))
    held = [down[ends], slope_across[ends]]
    if plate.held:
        rear = np.flatnonzero(np.abs(y) < 1e-9)
        held += [down[rear], basis.nodal_dofs[1][rear]]
    moved = solve(*condense(matrix, LinearForm(pressed).assemble(basis), D=np.unique(np.concatenate(held))))
    sag = moved[down]
    halfway = np.abs(x - plate.span / 2) < 1e-9
    front = sag[halfway & (np.abs(y - plate.depth) < 1e-9)][0]
    rear_sag = sag[halfway & (np.abs(y) < 1e-9)][0]
    return float(front), float(rear_sag), float(np.max(np.abs(sag)))


def section_by_elements(parts: Sequence[tuple[float, float, float, float]]) -> tuple[float, float]:
    """Neutral axis and EI of rectangles given as (width, height, bottom, modulus), integrated over meshes."""

    def moment(w: Any) -> Any:
        return w.x[1] ** w["power"]

    def total(power: int) -> float:
        sums = 0.0
        for width, height, bottom, modulus in parts:
            mesh = MeshQuad.init_tensor(np.linspace(0, width, 4), np.linspace(bottom, bottom + height, 4))
            basis = Basis(mesh, ElementQuad1(), intorder=4)
            sums += modulus * float(Functional(moment).assemble(basis, power=power))
        return sums

    axis = total(1) / total(0)
    return axis, total(2) - axis**2 * total(0)
