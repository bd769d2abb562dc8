"""DXF and SVG files say what the ledger and the plan say, read back by other programs' readers."""

from __future__ import annotations

from io import StringIO
from xml.etree import ElementTree as ET

import pytest
from ezdxf.document import Drawing
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.filemanagement import read

from casewright.casework.parts.features.channel import Channel
from casewright.casework.parts.features.notch import Notch
from casewright.casework.parts.features.pin_row import PinRow
from casewright.casework.parts.part import Part
from casewright.casework.project import Project
from casewright.drawings.drawing_files import part_dxf, part_svg, sheet_dxf, sheet_svg
from casewright.drawings.views.part_drawing import LAYER_OF
from casewright.drawings.views.part_view import FaceView
from casewright.lengths.length import MM
from casewright.planner.plan import SheetPlan
from drawings.shown_jobs import marks, plans, project, project_mm
from example_files import EXAMPLES
from planned_once import planned_once

PARTS = tuple(project().parts.values())
SHEETS = tuple((material, sheet) for material, plan in plans().items() for sheet in plan.sheets)
SVG = "{http://www.w3.org/2000/svg}"


def opened(content: bytes) -> Drawing:
    document = read(StringIO(content.decode().replace("\r\n", "\n")))
    audit = document.audit()
    assert not audit.errors and not audit.fixes
    assert document.dxfversion == "AC1024"  # R2010
    return document


def boxes(document: Drawing, layer: str) -> list[tuple[float, float, float, float]]:
    """Left, low, right, high of every closed outline on a layer."""
    found = []
    for outline in document.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]'):
        assert isinstance(outline, LWPolyline)
        points = list(outline.get_points("xy"))
        if outline.closed:
            xs, ys = [x for x, _ in points], [y for _, y in points]
            found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


def near(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return one == pytest.approx(other, abs=1e-9)


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.mark)
def test_a_parts_dxf_equals_the_ledger(part: Part) -> None:
    document = opened(part_dxf(project(), part))
    of = project().sizes.of
    view = FaceView(part, part.lie.worked, project().sizes)
    blank = (0.0, 0.0, float(of(part.length)), float(of(part.width)))
    assert boxes(document, "BLANK")[:1] == [pytest.approx(blank, abs=1e-9)]
    hatched = bool(document.modelspace().query('*[layer=="HATCHING"]'))
    assert hatched == any(isinstance(feature, Notch) for feature in part.features)
    notches = document.modelspace().query('LWPOLYLINE[layer=="NOTCH"]')
    assert all(isinstance(one, LWPolyline) and one.closed for one in notches)
    for feature in view.features():
        if isinstance(feature, PinRow):
            circles = [
                (c.dxf.center.x, c.dxf.center.y, c.dxf.radius)
                for c in document.modelspace().query('CIRCLE[layer=="BORES"]')
            ]
            for x, y in view.holes(feature):
                wanted = (x, y, float(of(feature.diameter)) / 2)
                assert sum(near(circle, wanted) for circle in circles) == 1
            continue
        assert isinstance(feature, Channel | Notch)
        layer = "NOTCH" if isinstance(feature, Notch) else LAYER_OF[feature.kind].value
        ((low, high),) = view.cuts(feature)
        assert sum(near(box, (*low, *high)) for box in boxes(document, layer)) == 1
        if isinstance(feature, Channel) and feature.edge.axis is part.lie.length:
            wide = abs(high[0] - low[0])
            assert wide == pytest.approx(float(of(feature.width)), abs=1e-9)


def test_every_file_of_an_example_opens_without_a_fault_and_has_a_blank() -> None:
    shown = planned_once((EXAMPLES / "pottery-studio.toml").read_text(), 0.3)
    for part in shown.project:
        assert boxes(opened(part_dxf(shown.project, part)), "BLANK"), part.mark
    for material, plan in shown.plans.items():
        for sheet in plan.sheets:
            opened(sheet_dxf(shown.project, material, sheet, shown.sheet_marks[material, sheet.number]))


def test_a_millimetre_job_is_drawn_in_millimetres() -> None:
    proj: Project = project_mm()
    side = proj.parts["B1-L"]
    document = opened(part_dxf(proj, side))
    long = float(proj.sizes.of(side.length) / MM)
    assert document.header["$INSUNITS"] == 4
    assert any(box[2] == pytest.approx(long, abs=1e-6) for box in boxes(document, "BLANK"))
    assert opened(part_dxf(project(), PARTS[0])).header["$INSUNITS"] == 1


@pytest.mark.parametrize(("material", "sheet"), SHEETS)
def test_a_sheets_dxf_has_every_part_and_cut(material: str, sheet: SheetPlan) -> None:
    document = opened(sheet_dxf(project(), material, sheet, marks()[material, sheet.number]))
    drawn = boxes(document, "PARTS")
    for piece in sheet.parts:
        wanted = (piece.x, piece.y, piece.x + piece.length, piece.y + piece.width)
        assert sum(near(box, tuple(float(size) for size in wanted)) for box in drawn) == 1
    assert len(drawn) == len(sheet.parts)
    lines = [
        outline
        for layer in ("CUTS-BY-HAND", "CUTS-AT-TABLE")
        for outline in document.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]')
        if isinstance(outline, LWPolyline) and not outline.closed
    ]
    assert len(lines) == len(sheet.cuts)


@pytest.mark.parametrize(("material", "sheet"), SHEETS)
def test_a_sheets_svg_shows_each_piece_once_and_what_is_done_by_hand(material: str, sheet: SheetPlan) -> None:
    root = ET.fromstring(sheet_svg(project(), material, sheet, marks()[material, sheet.number]))
    names = [shape.get("data-name") for shape in root.iter() if shape.get("data-name")]
    for piece in sheet.parts:
        assert names.count(piece.item) == 1
    assert names.count("offcut") == 2 * len(sheet.offcuts) or names.count("offcut") == len(sheet.offcuts)
    texts = [text.text for text in root.iter(f"{SVG}text")]
    assert all(names.count(f"cut {cut.order}") == 1 for cut in sheet.cuts)
    hand = [cut for cut in sheet.cuts if cut.tool == project().job.shop.hand_saw.name]
    assert [texts.count(str(number)) for number in range(1, 20)] == [
        number < len(hand) for number in range(19)
    ]
    chalked = [one.chalk for one in marks()[material, sheet.number].carried if one.letter]
    assert all(texts.count(chalk) == 1 for chalk in chalked) and bool(chalked) == bool(hand)
    words = " ".join(str(text) for text in texts)
    assert all(str(piece.item) in words for piece in sheet.parts)


def test_cuts_by_hand_are_drawn_unlike_those_at_the_table() -> None:
    hand = project().job.shop.hand_saw.name
    material, sheet = next(pair for pair in SHEETS if any(cut.tool == hand for cut in pair[1].cuts))
    root = ET.fromstring(sheet_svg(project(), material, sheet, marks()[material, sheet.number]))
    dashed = {cut.order: None for cut in sheet.cuts if cut.tool == hand}
    for shape in root.iter(f"{SVG}polyline"):
        name = shape.get("data-name") or ""
        if name.startswith("cut "):
            assert (shape.get("stroke-dasharray") is not None) == (int(name.split()[1]) in dashed)


def test_the_same_input_gives_the_same_bytes() -> None:
    from ezdxf import options  # type: ignore[attr-defined]

    assert not options.write_fixed_meta_data_for_testing
    part = project().parts["B2-D1"]
    material, sheet = SHEETS[0]
    assert part_dxf(project(), part) == part_dxf(project(), part)
    assert part_svg(project(), part) == part_svg(project(), part)
    drawn = (project(), material, sheet, marks()[material, sheet.number])
    assert sheet_dxf(*drawn) == sheet_dxf(*drawn)
    assert not options.write_fixed_meta_data_for_testing


def test_no_text_of_a_part_drawing_lies_outside_its_picture() -> None:
    for part in PARTS:
        root = ET.fromstring(part_svg(project(), part))
        _, _, wide, tall = (float(size) for size in str(root.get("viewBox")).split())
        for text in root.iter(f"{SVG}text"):
            assert 0 <= float(str(text.get("x"))) <= wide and 0 <= float(str(text.get("y"))) <= tall
