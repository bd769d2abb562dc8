"""GLB read back with a mesh library, STEP with a second geometry kernel: what was put in comes out."""

from __future__ import annotations

import io
import json
import struct
import sys
from dataclasses import replace
from fractions import Fraction as F
from math import pi
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import trimesh

from casewright.casework.directions import Way
from casewright.casework.job import BackKind, Construction, Run, ToeKind, TopKind
from casewright.casework.parts.holes import Bore
from casewright.casework.project import Project, draw_up
from casewright.errors import ExtraMissing
from casewright.solids.bodies import assemble
from casewright.solids.gltf import BETWEEN_WALLS, glb_file, wall_node
from casewright.solids.palette import palette
from casewright.solids.part_shape import Block, PartShape
from casewright.solids.part_solid import solid
from casewright.solids.step_export import step_file
from samples import BASE, job, spec

CUBIC_METRE = (1 / 0.0254) ** 3
CUBIC_MM = 25.4**3


def sample() -> Project:
    """Two base cases on one wall and a tall one on another, of different construction."""
    tall = Construction(back=BackKind.RABBET, top=TopKind.RABBET, toe=ToeKind.PLINTH, strips=2)
    plan = job(spec("B1", bays=BASE), spec("B2", width=F(24)))
    other = Run("pantry", F(24), (spec("T1", construction=tall, width=F(24), height=F(84)),), wall="north")
    return draw_up(replace(plan, runs=(*plan.runs, other)))


PROJECT = sample()
BODIES = assemble(PROJECT)


def contents(glb: bytes) -> dict[str, Any]:
    magic, version, length, size, kind = struct.unpack("<4sIII4s", glb[:20])
    assert (magic, version, length, kind) == (b"glTF", 2, len(glb), b"JSON")
    tree = json.loads(glb[20 : 20 + size])
    assert isinstance(tree, dict)
    return tree


def test_glb_holds_every_part_with_its_volume_in_its_place() -> None:
    scene = trimesh.load_scene(io.BytesIO(glb_file(BODIES, palette(PROJECT))), file_type="glb")
    marks = set(scene.graph.nodes_geometry)
    assert marks == set(PROJECT.parts)
    shift = {wall: scene.graph.get(wall_node(wall))[0][0, 3] for wall in ("wall", "north")}
    for mark, body in BODIES.items():
        matrix, name = scene.graph.get(mark)
        mesh = scene.geometry[name].copy()
        mesh.merge_vertices(merge_norm=True)
        assert mesh.is_watertight
        assert mesh.volume * CUBIC_METRE == pytest.approx(solid(body.shape).volume(), rel=1e-4)
        low, high = (matrix @ [*corner, 1] for corner in mesh.bounds)
        x, y, z = (float(place) * 0.0254 for place in body.corner)
        far_x, far_y, far_z = (float(place) * 0.0254 for place in body.far_corner)
        assert low[:3] == pytest.approx([x + shift[body.wall], z, -far_y], abs=1e-6)
        assert high[:3] == pytest.approx([far_x + shift[body.wall], far_z, -y], abs=1e-6)


def test_glb_shows_walls_side_by_side() -> None:
    scene = trimesh.load_scene(io.BytesIO(glb_file(BODIES, palette(PROJECT))), file_type="glb")
    wide = 0.0254 * (36 + 24 + 24) + BETWEEN_WALLS
    assert scene.extents == pytest.approx([wide, 84 * 0.0254, 24 * 0.0254], abs=1e-6)


def test_glb_nodes_say_what_they_are_and_colours_follow_materials() -> None:
    tree = contents(glb_file(BODIES, palette(PROJECT)))
    nodes = {node["name"]: node for node in tree["nodes"]}
    assert nodes["B1-L"]["extras"] == {
        "mark": "B1-L",
        "case": "B1",
        "role": "left side",
        "material": "ply",
        "wall": "wall",
    }
    used: dict[str, set[int]] = {}
    for mark, part in PROJECT.parts.items():
        primitive = tree["meshes"][nodes[mark]["mesh"]]["primitives"][0]
        used.setdefault(part.material, set()).add(primitive["material"])
        assert "NORMAL" in primitive["attributes"]
    assert {key: {tree["materials"][at]["name"] for at in places} for key, places in used.items()} == {
        "ply": {"ply"},
        "thin": {"thin"},
    }
    factors = [material["pbrMetallicRoughness"]["baseColorFactor"] for material in tree["materials"]]
    assert factors[0] != factors[1]


def test_every_triangle_of_the_glb_is_shaded_flat() -> None:
    scene = trimesh.load_scene(io.BytesIO(glb_file(BODIES, palette(PROJECT))), file_type="glb", process=False)
    for mesh in scene.geometry.values():
        at_corners = mesh.vertex_normals[mesh.faces]
        assert np.abs(at_corners - mesh.face_normals[:, None, :]).max() < 1e-4
        assert len(mesh.vertices) < 2.5 * len(mesh.faces)


def test_equal_parts_share_a_mesh() -> None:
    tree = contents(glb_file(BODIES, palette(PROJECT)))
    nodes = {node["name"]: node for node in tree["nodes"]}
    assert nodes["B1-SF"]["mesh"] == nodes["B1-SB"]["mesh"] != nodes["B2-SF"]["mesh"]
    assert len(tree["meshes"]) < len(PROJECT.parts)


def test_the_same_job_gives_the_same_bytes() -> None:
    again = sample()
    assert glb_file(assemble(again), palette(again)) == glb_file(BODIES, palette(PROJECT))
    assert step_file(assemble(again), "sample") == step_file(BODIES, "sample")


def kernel_volume(shape: Any) -> float:
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties)
    return float(properties.Mass())


def kernel_box(shape: Any) -> list[float]:
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    bounds = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, bounds, False, False)
    low, high = bounds.CornerMin(), bounds.CornerMax()
    return [low.X(), low.Y(), low.Z(), high.X(), high.Y(), high.Z()]


def read_step(data: bytes, folder: Path) -> list[tuple[str, Any]]:
    """Every placed solid of a STEP file with the name of its instance."""
    from OCP.collections import Sequence_TDF_Label
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

    path = folder / "job.step"
    path.write_bytes(data)
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.ReadFile(str(path))
    assert reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    free, components = Sequence_TDF_Label(), Sequence_TDF_Label()
    tool.GetFreeShapes(free)
    assert free.Length() == 1
    XCAFDoc_ShapeTool.GetComponents_s(free.Value(1), components)
    found = []
    for place in range(1, components.Length() + 1):
        label, name = components.Value(place), TDataStd_Name()
        assert label.FindAttribute(TDataStd_Name.GetID_s(), name)
        found.append((name.Get().ToExtString(), XCAFDoc_ShapeTool.GetShape_s(label)))
    return found


def solids_in(shape: Any) -> int:
    from OCP.TopAbs import TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    explorer, number = TopExp_Explorer(shape, TopAbs_SOLID), 0
    while explorer.More():
        number += 1
        explorer.Next()
    return number


def test_step_read_back_holds_every_part_as_one_solid_in_its_place(tmp_path: Path) -> None:
    found = read_step(step_file(BODIES, "sample"), tmp_path)
    assert [name for name, _ in found] == list(PROJECT.parts)
    for mark, shape in found:
        body = BODIES[mark]
        assert solids_in(shape) == 1
        # Two kernels, one from meshes and one from surfaces, agree on what is left of the blank.
        assert kernel_volume(shape) / CUBIC_MM == pytest.approx(solid(body.shape).volume(), rel=1e-9)
        corners = [float(place * F(254, 10)) for place in (*body.corner, *body.far_corner)]
        assert kernel_box(shape) == pytest.approx(corners, abs=1e-5)


def test_step_declares_millimetres_and_names_its_parts() -> None:
    text = step_file({"B1-L": BODIES["B1-L"]}, "left side").decode()
    assert "SI_UNIT(.MILLI.,.METRE.)" in text
    assert "PRODUCT('B1-L','B1-L'" in text and "PRODUCT('left side'" in text
    assert "CYLINDRICAL_SURFACE" in text and "2000-01-01T00:00:00" in text


def test_a_bored_and_notched_block_by_hand_in_both_kernels() -> None:
    """A block 10 x 4 x 1, less a groove 10 x 1/2 x 1/4 and a hole 1/2 across, 3/4 deep."""
    from casewright.solids.boundary import exact_solid

    block = PartShape(
        (F(10), F(4), F(1)),
        (Block((F(0), F(1), F(3, 4)), (F(10), F(3, 2), F(1))),),
        (Bore((F(5), F(3), F(0)), Way.UP, F(1, 4), F(3, 4)),),
    )
    by_hand = 40 - 10 / 8 - pi / 16 * 3 / 4
    assert solid(block).volume() == pytest.approx(by_hand, rel=1e-12)
    assert kernel_volume(exact_solid(block)) / CUBIC_MM == pytest.approx(by_hand, rel=1e-9)


def test_without_its_kernel_step_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(sys.modules, "casewright.solids.boundary", raising=False)
    monkeypatch.setitem(sys.modules, "OCP.BRepAlgoAPI", None)
    with pytest.raises(ExtraMissing, match="extra `step`"):
        step_file(BODIES, "sample")
