"""The measured distance between two surfaces of placed solids, and the area they share.

Everything is measured on the kernel's meshes: a surface is the set of triangles that lie in
one plane and look one way, and two surfaces face each other over the overlap of their outlines.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from manifold3d import CrossSection, FillRule

from ..casework.build.meetings import Mate, Meeting, Surface
from ..casework.directions import Axis, Way
from ..errors import library_call
from ..sizes.ledger import Sizes
from .bodies import Bodies, Body
from .part_shape import PartShape
from .part_solid import solid

IN_PLANE = 1e-7
"""Triangles within this many inches of each other, along the way they face, lie in one plane."""


@dataclass(frozen=True, slots=True)
class Face:
    """All of a solid's surface in one plane: `at` along the axis, and its outline across it."""

    at: float
    outline: CrossSection


@dataclass(frozen=True, slots=True)
class Clearance:
    """The distance from one surface to another along their axis, negative where they overlap.

    `area` is what they face each other over, in square inches; None where both look the same
    way, or where one of them is a pencil line or a pin and has no area.
    """

    gap: float
    area: float | None


@lru_cache(maxsize=8192)
def faces_towards(shape: PartShape, way: Way) -> tuple[Face, ...]:
    """The faces of a shape's solid that look towards `way`, lowest first, from the part's low corner."""
    mesh = solid(shape).to_mesh64()
    corners = mesh.vert_properties[:, :3][mesh.tri_verts]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    lengths = np.linalg.norm(normals, axis=1)
    looking = corners[normals[:, way.axis.value] * way.sign > lengths * (1 - 1e-9)]
    planes: dict[float, list[np.ndarray]] = defaultdict(list)
    across = [axis.value for axis in Axis if axis is not way.axis]
    for triangle in looking[np.argsort(looking[:, 0, way.axis.value], kind="stable")]:
        at = float(triangle[0, way.axis.value])
        near = next((plane for plane in reversed(planes) if abs(plane - at) < IN_PLANE), at)
        planes[near].append(triangle[:, across])
    with library_call("The geometry kernel", "outlining a part's faces"):
        return tuple(Face(at, CrossSection(parts, FillRule.NonZero)) for at, parts in planes.items())


def clearance(bodies: Bodies, mate: Mate, sizes: Sizes) -> Clearance | None:
    """The gap between a mate's two surfaces, measured on the solids.

    The ledger says only which of a part's faces are meant; how far apart they lie comes from the
    meshes. A pencil line may stand for a face where two parts are to be flush, and so may the
    edge of a shelf pin's hole. None when a face is missing from its solid.
    """
    first = _plane(bodies[mate.first.part], mate.first, mate, sizes)
    second = _plane(bodies[mate.second.part], mate.second, mate, sizes)
    if first is None or second is None or not (first.face or second.face):
        return None
    area = None
    if first.face and second.face and mate.first.looks is not mate.second.looks:
        area = _overlap(first.body, first.face, second.body, second.face, mate.axis)
        if not area and (_is_pin(first.body, mate.first, sizes) or _is_pin(second.body, mate.second, sizes)):
            area = None  # a face of the part that happens to lie level with the pin, elsewhere
    return Clearance(second.at - first.at, area)


@dataclass(frozen=True, slots=True)
class _Plane:
    """A surface found on a standing body: where it lies, and its face unless it is only a line."""

    body: Body
    at: float
    face: Face | None


def _plane(body: Body, surface: Surface, mate: Mate, sizes: Sizes) -> _Plane | None:
    corner = float(body.corner[surface.looks.axis.value])
    meant = sizes.of(surface.at)
    for face in faces_towards(body.shape, surface.looks):
        if abs(face.at - meant) < IN_PLANE:
            return _Plane(body, corner + face.at, face)
    if mate.meeting is Meeting.FLUSH or _is_pin(body, surface, sizes):
        return _Plane(body, corner + float(meant), None)
    return None


def _is_pin(body: Body, surface: Surface, sizes: Sizes) -> bool:
    """Whether a round hole reaches just to the surface: a pin in it carries what lies on it there."""
    looks, at = surface.looks, sizes.of(surface.at)
    across = (bore for bore in body.shape.bores if bore.into.axis is not looks.axis)
    return any(bore.mouth[looks.axis.value] + looks.sign * bore.radius == at for bore in across)


def _overlap(first: Body, here: Face, second: Body, there: Face, axis: Axis) -> float:
    """The area over which two faces overlap when seen along `axis`."""
    across = [other.value for other in Axis if other is not axis]
    shift = [float(second.corner[other] - first.corner[other]) for other in across]
    return float((here.outline ^ there.outline.translate((shift[0], shift[1]))).area())
