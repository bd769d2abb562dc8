"""A library that fails is said to have failed: no traceback of its own, no empty answer, no other bytes."""

from __future__ import annotations

import json
import os
import struct
import subprocess
import sys
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest
from ezdxf import options  # type: ignore[attr-defined]
from manifold3d import Error, Manifold

import every_answer
from casewright.casework.directions import Way
from casewright.casework.parts.holes import Bore
from casewright.errors import LibraryError, OutOfMemory
from casewright.packet.labels.square_code import code_svg
from casewright.packet.typesetting import typeset
from casewright.planner.engine import Instance, LargeObject, SmallItem
from casewright.planner.engine.kernel_binding import kernel
from casewright.planner.engine.ruin_recreate import RuinRecreate
from casewright.solids import part_solid as part
from casewright.solids.part_shape import PartShape

FLOAT, TRIPLE = 5126, "VEC3"


def test_a_page_that_cannot_be_set_is_said_with_its_template() -> None:
    with pytest.raises(LibraryError, match=r"^Typst failed while typesetting nowhere\.typ: "):
        typeset("nowhere.typ", {})


def test_more_than_a_square_code_holds_is_said() -> None:
    """ISO/IEC 18004, table 7: at level M the largest code holds 2,331 bytes."""
    assert code_svg("a" * 2331).startswith(b"<svg")
    with pytest.raises(LibraryError, match="segno failed while drawing the QR code of a label"):
        code_svg("a" * 2332)


# To look below a home folder that is closed to us is refused by the system.
CLOSED_HOME = """
import pathlib
exists = pathlib.Path.exists
def closed(self):
    if "closed home" in str(self):
        raise PermissionError(13, "Permission denied")
    return exists(self)
pathlib.Path.exists = closed
"""


@pytest.mark.parametrize(
    "settings",
    [b"\xff\xfe[\0c\0o\0r\0e\0]\0", b"no section here", b"[core]\nWRITE_FIXED_META_DATA_FOR_TESTING=1"],
)
def test_settings_of_the_drawing_library_in_the_folder_do_no_harm(tmp_path: Path, settings: bytes) -> None:
    """It would end the whole program over a file that is not UTF-8, and obey another."""
    (tmp_path / "ezdxf.ini").write_bytes(settings)
    script = """
from every_answer import project
from casewright.drawings.drawing_files import part_dxf, part_svg
drawn = project()
part = drawn.parts["B1-L"]
assert part_svg(drawn, part)
print(len(part_dxf(drawn, part)))
"""
    ended = subprocess.run(
        [sys.executable, "-c", CLOSED_HOME + script],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env={**os.environ, "HOME": "/closed home", "PYTHONPATH": os.pathsep.join(sys.path)},
    )
    assert ended.returncode == 0, ended.stderr
    whole = next(make() for path, make in every_answer.paper_answers().items() if path.endswith("B1-L.dxf"))
    assert ended.stdout == f"{len(whole)}\n"


def test_a_drawing_has_fixed_stamps_and_leaves_the_library_as_it_was() -> None:
    before = options.write_fixed_meta_data_for_testing
    make = next(make for path, make in every_answer.paper_answers().items() if path.endswith("B1-L.dxf"))
    text = make().decode().replace("\r\n", "\n")
    assert options.write_fixed_meta_data_for_testing is before is False
    for name in ("TDCREATE", "TDUCREATE", "TDUPDATE", "TDUUPDATE"):
        assert f"${name}\n 40\n2451545.0\n" in text  # Julian date of noon on 1 January 2000
    for name in ("FINGERPRINTGUID", "VERSIONGUID"):
        assert f"${name}\n  2\n{{00000000-0000-0000-0000-000000000000}}\n" in text
    assert text.count("\n0.0 @ 2000-01-01T00:00:00.000000+00:00\n") == 2 and " @ 20" in text
    assert text.count(" @ 20") == 2


def test_a_solid_gone_wrong_is_not_taken_for_an_empty_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """The kernel hands on a faulty solid without a word; one without room would collide with nothing."""
    broken = part._cylinder(Bore((F(1), F(1), F(0)), Way.UP, F(1, 8), F(1, 4))).scale((float("nan"),) * 3)
    assert broken.status() is Error.NonFiniteVertex and broken.volume() == 0
    monkeypatch.setattr(part, "_box", lambda block: broken)
    shape = PartShape((F(2), F(2), F(1, 2)), (), ())
    with pytest.raises(LibraryError, match=r"The geometry kernel failed .* NonFiniteVertex"):
        part.solid.__wrapped__(shape)
    assert isinstance(broken, Manifold)


def test_every_face_in_the_3d_file_looks_some_way() -> None:
    """Triangles without area had normals that are no numbers, which a viewer may refuse."""
    content = every_answer.paper_answers()["job.glb"]()
    length = struct.unpack_from("<I", content, 12)[0]
    tree = json.loads(content[20 : 20 + length])
    binary = content[28 + length :]
    looked_at = 0
    for mesh in tree["meshes"]:
        for primitive in mesh["primitives"]:
            accessor = tree["accessors"][primitive["attributes"]["NORMAL"]]
            assert (accessor["componentType"], accessor["type"]) == (FLOAT, TRIPLE)
            view = tree["bufferViews"][accessor["bufferView"]]
            start = view.get("byteOffset", 0) + accessor.get("byteOffset", 0)
            normals = np.frombuffer(binary, "<f4", 3 * accessor["count"], start).reshape(-1, 3)
            assert np.allclose(np.linalg.norm(normals, axis=1), 1.0, atol=1e-5)
            looked_at += len(normals)
    assert looked_at > 1000


@pytest.mark.parametrize("failing", ["search_run", "search_encode"])
def test_a_plan_that_memory_does_not_suffice_for_is_an_error(
    failing: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Either function answers nought then; `search_run` before it has used its iterations."""
    with RuinRecreate(Instance((SmallItem(40, 30, 4),), (LargeObject(100, 100),)), 1) as search:
        assert search.run(10)[0] and search.state()
        monkeypatch.setattr(kernel(), failing, lambda *_: 0)
        with pytest.raises(OutOfMemory, match="needs more memory than there is"):
            search.run(10) if failing == "search_run" else search.state()
