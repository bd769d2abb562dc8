"""The job as a binary glTF: a node for each part, named by its mark, in metres, y up.

The format's own axes: x to the right, y up, z towards a viewer in front of the cases. A part's
mark, case, role, material and wall are in its node's extras.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Any

import numpy as np
from trimesh import Scene, Trimesh
from trimesh.exchange.gltf import export_glb
from trimesh.visual import TextureVisuals
from trimesh.visual.material import PBRMaterial

from ..errors import library_call
from ..lengths.length import MM
from .bodies import Bodies, Body
from .palette import Palette
from .part_shape import PartShape
from .part_solid import floats, solid

METRE = 1000 * float(MM)
"""Inches in a metre."""

BETWEEN_WALLS = 1.0
"""Metres between two walls in the model: a job does not say how its walls meet."""


@library_call("trimesh", "writing the job as glTF")
def glb_file(bodies: Bodies, colours: Palette) -> bytes:
    """The bodies as one GLB file, equal parts sharing a mesh; each wall is a node above its parts.

    Walls are shown side by side in the job's order. The same bodies give the same bytes.
    Raises LibraryError when the file cannot be written.
    """
    scene = Scene()
    meshes: dict[tuple[PartShape, str], str] = {}
    start = 0.0
    for wall in dict.fromkeys(body.wall for body in bodies.values()):
        along = [body for body in bodies.values() if body.wall == wall]
        left, right = _reach(along)
        scene.graph.update(frame_to=wall_node(wall), matrix=_moved((start - left, 0.0, 0.0)))
        start += right - left + BETWEEN_WALLS
        for body in along:
            key = (body.shape, body.part.material)
            mesh = meshes.setdefault(key, f"{body.part.mark} in {body.part.material}")
            if mesh not in scene.geometry:
                scene.geometry[mesh] = _mesh(*key)
            scene.graph.update(
                frame_to=body.part.mark,
                frame_from=wall_node(wall),
                matrix=_moved(_turned(np.array(floats(body.corner)))),
                geometry=mesh,
                metadata=_extras(body),
            )
    finish = _Finish(colours)
    return bytes(export_glb(scene, include_normals=True, tree_postprocessor=finish))


def wall_node(wall: str) -> str:
    """The name of the node that holds a wall's parts."""
    return f"wall: {wall}"


def _extras(body: Body) -> dict[str, str]:
    part = body.part
    return {
        "mark": part.mark,
        "case": part.case,
        "role": part.role.value,
        "material": part.material,
        "wall": body.wall,
    }


def _reach(bodies: Iterable[Body]) -> tuple[float, float]:
    bodies = list(bodies)
    left = min(body.corner[0] for body in bodies)
    right = max(body.far_corner[0] for body in bodies)
    return float(left) / METRE, float(right) / METRE


def _turned(points: Any) -> Any:
    """Points in inches with z up, as points in metres with y up."""
    return np.stack([points[..., 0], points[..., 2], -points[..., 1]], axis=-1) / METRE


def _moved(by: Any) -> Any:
    matrix = np.eye(4)
    matrix[:3, 3] = by
    return matrix


@lru_cache(maxsize=1024)
def _mesh(shape: PartShape, material: str) -> Trimesh:
    """A mesh whose faces share no corners with each other, so that a viewer shades each one flat."""
    made = solid(shape).to_mesh64()
    corners = _turned(made.vert_properties[:, :3][made.tri_verts])
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    lengths = np.linalg.norm(normals, axis=1, keepdims=True)
    # The kernel may leave triangles with all corners in one line, which have no area and no normal.
    real = lengths[:, 0] > 0
    corners, normals = corners[real], normals[real] / lengths[real]
    # Triangles of one face have the same normal but for rounding, so they can share corners.
    both = np.concatenate([corners.reshape(-1, 3), np.repeat(normals, 3, axis=0)], axis=1)
    shared, places = np.unique(both.round(7), axis=0, return_inverse=True)
    return Trimesh(
        vertices=shared[:, :3],
        faces=places.reshape(-1, 3),
        vertex_normals=shared[:, 3:],
        visual=TextureVisuals(material=PBRMaterial(name=material)),
        process=False,
    )


class _Finish:
    """Gives each material its colour, and the file our name."""

    def __init__(self, colours: Palette) -> None:
        self.colours = colours

    def __call__(self, tree: dict[str, Any]) -> None:
        tree["asset"]["generator"] = "casewright"
        for material in tree["materials"]:
            material["pbrMetallicRoughness"] = {
                "baseColorFactor": [*map(_linear, self.colours[material["name"]]), 1.0],
                "metallicFactor": 0.0,
                "roughnessFactor": 0.8,
            }


def _linear(level: float) -> float:
    """A screen's level as the linear one the format wants (sRGB transfer, IEC 61966-2-1)."""
    light = level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4
    return round(light, 6)
