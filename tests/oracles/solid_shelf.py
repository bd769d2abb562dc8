"""A shelf with an edging as a solid body of hexahedra (scikit-fem): no plate, no beam, no flange is assumed.

Half of it is meshed, from one end to the middle. What it adds to the plate of `casewright.strength` is
everything that is left out there: shear through the thickness, twist of the edging, and the glued face
between the two.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from skfem import (
    Basis,
    BilinearForm,
    ElementHex2,
    ElementVector,
    FacetBasis,
    LinearForm,
    MeshHex,
    condense,
    solve,
)
from skfem.helpers import sym_grad

Array = NDArray[np.float64]
SHEARS = ((1, 2), (0, 2), (0, 1))


@dataclass(frozen=True)
class SolidWood:
    """Moduli in psi along x (the span), y (front to back) and z, Poisson's ratios xy, xz and yz, and moduli
    of rigidity xy, xz and yz."""

    moduli: tuple[float, float, float]
    poisson: tuple[float, float, float]
    rigidity: tuple[float, float, float]

    def stiffness(self) -> Array:
        """Stress from strain, in the order xx, yy, zz, yz, xz, xy."""
        (x, y, z), (xy, xz, yz) = self.moduli, self.poisson
        gives = np.zeros((6, 6))
        gives[:3, :3] = [[1 / x, -xy / x, -xz / x], [-xy / x, 1 / y, -yz / y], [-xz / x, -yz / y, 1 / z]]
        for row, rigidity in enumerate(reversed(self.rigidity), start=3):
            gives[row, row] = 1 / rigidity
        return np.asarray(np.linalg.inv(gives), dtype=np.float64)


@dataclass(frozen=True)
class SolidShelf:
    """A panel with an edging in front, inches, upper faces flush, ends at rest; `load` in lb/in2 on top."""

    span: float
    depth: float
    thickness: float
    panel: SolidWood
    edging_width: float
    edging_height: float
    edging: SolidWood
    load: float


def sag_of_solid(shelf: SolidShelf, pieces: int = 8) -> tuple[float, float]:
    """The sag halfway along, at the middle of the edging and at the back edge."""
    low = shelf.thickness - shelf.edging_height
    heights = np.unique(np.concatenate([np.linspace(low, 0, 3), np.linspace(0, shelf.thickness, 3)]))
    front = shelf.depth + shelf.edging_width
    depths = np.concatenate([np.linspace(0, shelf.depth, 7), np.linspace(shelf.depth, front, 3)[1:]])
    whole = MeshHex.init_tensor(np.linspace(0, shelf.span / 2, pieces + 1), depths, heights)
    middles = whole.p[:, whole.t].mean(axis=1)
    mesh = whole.restrict(np.flatnonzero((middles[1] > shelf.depth) | (middles[2] > 0)))
    in_edging = mesh.p[:, mesh.t].mean(axis=1)[1] > shelf.depth
    element = ElementVector(ElementHex2())
    basis = Basis(mesh, element, intorder=4)
    panel, edging = shelf.panel.stiffness(), shelf.edging.stiffness()

    def strained(u: Any, v: Any, _: Any) -> Any:
        one, other = (_strains(sym_grad(field)) for field in (u, v))
        total = 0.0
        for row, column in np.argwhere(panel):
            stiffness = np.where(in_edging, edging[row, column], panel[row, column])[:, None]
            total = total + stiffness * one[row] * other[column]
        return total

    def pressed(v: Any, _: Any) -> Any:
        return shelf.load * v[2]

    def faces(axis: int, place: float) -> Any:
        return mesh.facets_satisfying(lambda x: np.abs(x[axis] - place) < 1e-9, boundaries_only=True)

    def node(y: float) -> int:
        return int(np.argmin(np.abs(mesh.p - np.array([[shelf.span / 2], [y], [0.0]])).sum(axis=0)))

    forces = LinearForm(pressed).assemble(
        FacetBasis(mesh, element, facets=faces(2, shelf.thickness), intorder=4)
    )
    held = [
        basis.get_dofs(faces(0, 0.0)).all("u^3"),  # the ends rest
        basis.get_dofs(faces(0, shelf.span / 2)).all("u^1"),  # the other half mirrors this one
        basis.nodal_dofs[1, [node(0.0)]],
    ]
    moved = solve(
        *condense(BilinearForm(strained).assemble(basis), forces, D=np.unique(np.concatenate(held)))
    )
    front_node, back_node = node(shelf.depth + shelf.edging_width / 2), node(0.0)
    return float(moved[basis.nodal_dofs[2, front_node]]), float(moved[basis.nodal_dofs[2, back_node]])


def _strains(tensor: Any) -> list[Any]:
    return [*(tensor[axis, axis] for axis in range(3)), *(2 * tensor[one, other] for one, other in SHEARS)]
