"""A part's solid holds what is left of its blank, worked out here by hand."""

from __future__ import annotations

from fractions import Fraction as F
from math import pi

import pytest

from casewright.casework.directions import Way
from casewright.casework.parts.holes import Bore
from casewright.casework.project import draw_up
from casewright.solids.part_shape import Block, PartShape, shape_of
from casewright.solids.part_solid import difference, solid
from samples import job


def test_a_side_holds_its_blank_less_its_features() -> None:
    """A base side 34 1/2 x 24 of 23/32 ply, by hand.

    Dado for the bottom, 23/32 wide and 1/4 deep over the whole 24; groove for the 7/32 back,
    1/64 wider than it, 1/4 deep over the whole 34 1/2; where they cross, the wood goes but once.
    Toe notch 3 x 4 through the thickness. Clear height 34 1/2 - 4 - 2 x 23/32 = 29 1/16; less
    6 above and below, 17 1/16 takes 8 steps of 2: two rows of 9 holes, 1/4 across, 5/16 deep.
    """
    project = draw_up(job())
    side = shape_of(project.parts["B1-L"], project.sizes)
    ply, groove = F(23, 32), F(7, 32) + F(1, 64)
    wood = F(69, 2) * 24 * ply - 3 * 4 * ply
    wood -= (24 * ply + F(69, 2) * groove - groove * ply) * F(1, 4)
    holes = 18 * pi / 64 * 5 / 16
    assert len(side.bores) == 18
    assert solid(side).volume() == pytest.approx(float(wood) - holes, rel=1e-12)


@pytest.mark.parametrize("into", Way)
def test_a_bore_goes_the_way_it_is_told(into: Way) -> None:
    middle = [F(1), F(1), F(1)]
    middle[into.axis.value] = F(2) if into.sign < 0 else F(0)
    bored = solid(PartShape((F(2),) * 3, (), (Bore((middle[0], middle[1], middle[2]), into, F(1, 4), F(1)),)))
    assert bored.volume() == pytest.approx(8 - pi / 16, rel=1e-12)
    assert bored.bounding_box() == (0, 0, 0, 2, 2, 2)


def test_a_cut_of_no_width_takes_nothing() -> None:
    empty = PartShape((F(2),) * 3, (Block((F(1),) * 3, (F(1), F(2), F(2))),))
    assert solid(empty).volume() == 8


def test_two_passes_that_overlap_make_one_groove_and_a_short_pass_does_not() -> None:
    blank = (F(12), F(4), F(3, 4))
    groove = PartShape(blank, (Block((F(0), F(1), F(1, 2)), (F(12), F(19, 16), F(3, 4))),))
    kerfs = [
        Block((F(0), F(1) + moved, F(1, 2)), (F(12), F(9, 8) + moved, F(3, 4))) for moved in (F(0), F(1, 16))
    ]
    assert difference(solid(PartShape(blank, tuple(kerfs))), solid(groove)) < 1e-9
    one_pass = difference(solid(PartShape(blank, (kerfs[0],))), solid(groove))
    assert one_pass == pytest.approx(12 / 16 / 4)
