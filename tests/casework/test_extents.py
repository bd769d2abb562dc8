"""Places, reach, diagonals and weights in the core, against the solids and against figures by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.directions import Axis, Way
from casewright.casework.extents import (
    RoomBox,
    around,
    case_diagonal,
    case_extent,
    diagonal,
    part_extent,
    stretches_of,
)
from casewright.casework.job import Filler
from casewright.casework.parts.features.feature import place_from
from casewright.casework.parts.features.pin_row import PinRow
from casewright.casework.parts.holes import HoleRow
from casewright.casework.parts.weights import sheet_weight, weight_of
from casewright.casework.project import Project, draw_up
from casewright.shop.materials import per_square_inch
from casewright.sizes.affine import Affine
from casewright.solids.bodies import assemble
from samples import SHEETS, job, spec


@pytest.fixture(scope="module")
def project() -> Project:
    shallow = spec("B2", width=F(18), depth=F(14))
    return draw_up(job(spec("B1"), shallow, opening=F(55), left=Filler(F(1), F(1, 2), "ply"), lift=F(0)))


def test_a_part_reaches_as_far_as_its_solid(project: Project) -> None:
    for mark, body in assemble(project).items():
        extent = part_extent(project, project.parts[mark])
        solid = body.placed_solid().bounding_box()
        assert [float(edge) for edge in (*extent.low, *extent.high)] == pytest.approx(list(solid), abs=1e-5)


def test_a_case_reaches_over_its_parts_but_not_its_filler(project: Project) -> None:
    first, second = (case_extent(project, case) for case in project.cases.values())
    assert first.size == (F(36), F(24), F(69, 2)) and second.size == (F(18), F(14), F(69, 2))
    # Backs stand in one plane, so the shallower case begins ten inches behind the other's front.
    assert (first.low, second.low) == ((F(1), F(-24), F(0)), (F(37), F(-14), F(0)))
    assert project.depths == {1: F(24)}


def test_extents_share_what_lies_side_by_side() -> None:
    one, other = RoomBox((F(0),) * 3, (F(4),) * 3), RoomBox((F(3), F(5), F(-1)), (F(9), F(6), F(2)))
    assert [one.shared(other, axis) for axis in Axis] == [F(1), F(0), F(2)]
    assert around((one, other)) == RoomBox((F(0), F(0), F(-1)), (F(9), F(6), F(4)))


def test_diagonals_are_pythagoras(project: Project) -> None:
    assert diagonal(F(36), F(48)) == 60
    assert case_diagonal(project, project.cases["B1"]) == pytest.approx((36**2 + 34.5**2) ** 0.5)


def test_what_fills_an_opening_adds_up_to_it(project: Project) -> None:
    opening, *stretches = stretches_of(project, project.runs[0])
    assert [one.size.name for one in stretches] == ["run1.left_filler", "B1.width", "B2.width"]
    assert stretches[-1].high == opening.high == F(55)
    assert all(one.high - one.low == project.sizes.of(one.size) for one in (opening, *stretches))


def test_weights_by_hand(project: Project) -> None:
    """A square foot weighs what the ticket says: 36 x 24 in of 2 lb/ft2 is 6 square feet, 12 lb."""
    assert sheet_weight(F(36), F(24), F(2)) == 12
    assert per_square_inch(F(144)) == 1
    assert weight_of(project, project) is None
    heavy = {key: replace(sheet, weight=F(2)) for key, sheet in SHEETS.items()}
    heavier = draw_up(replace(project.job, sheets=heavy))
    bottom = heavier.parts["B1-B"]
    length, width, _ = heavier.dimensions(bottom)
    assert weight_of(heavier, [bottom]) == length * width / 72
    assert weight_of(heavier, []) == 0


def test_a_row_of_holes_by_hand() -> None:
    row = HoleRow(F(6), F(2), 4, F(3, 2), F(1, 4), F(5, 16))
    assert row.holes == (F(6), F(8), F(10), F(12)) and row.length == 6 and row.last == 12


def test_holes_lie_in_from_their_edges(project: Project) -> None:
    side = project.parts["B1-R"]
    rows = [feature for feature in side.features if isinstance(feature, PinRow)]
    assert {row.edge for row in rows} == {Way.FRONT, Way.BACK}
    _, deep, _ = part_extent(project, side).size
    for row in rows:
        (holes,) = row.rows(project.sizes)
        mouths = [bore.mouth for bore in row.bores(side, project.sizes)]
        across = holes.setback if row.edge is Way.FRONT else deep - holes.setback
        assert {mouth[Axis.Y.value] for mouth in mouths} == {across}
        assert [mouth[Axis.Z.value] for mouth in mouths] == list(holes.holes)
    assert place_from(Way.UP, Affine(10), F(3)) == Affine(7)
    assert place_from(Way.DOWN, Affine(10), F(3)) == Affine(3)
