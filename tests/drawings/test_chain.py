"""The picture of a gap: its parts, its links in order, and the loose link where the gap is."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise

import pytest

from casewright.casework.directions import Axis
from casewright.casework.job import Filler
from casewright.casework.project import draw_up
from casewright.drawings.kit.pages import fit_to_room
from casewright.drawings.kit.scene import Dimension, Scene, Words
from casewright.drawings.kit.svg import svg
from casewright.drawings.views.chain_view import chain_scene
from casewright.tolerance.chains.gaps import Gap, gaps_of
from samples import BASE, job, spec

PROJECT = draw_up(
    job(spec("B1", bays=BASE), spec("B2", width=None), opening=F(80), right=Filler(F(2), F(1, 2), "ply"))
)
GAPS = gaps_of(PROJECT)


def picture(gap: Gap) -> Scene:
    return chain_scene(PROJECT, gap, "loose")


@pytest.mark.parametrize("gap", GAPS, ids=lambda gap: gap.name)
def test_links_stand_in_order_and_end_where_the_loose_link_begins(gap: Gap) -> None:
    scene = picture(gap)
    lines = [item for item in scene if isinstance(item, Dimension)]
    values = [PROJECT.sizes.of(link.step) for link in gap.links if link.part or not gap.parts]
    assert [line.high - line.low for line in lines] == pytest.approx([abs(float(v)) for v in values if v])
    offsets = [abs(line.offset) for line in lines]
    assert offsets == sorted(offsets) and len(set(offsets)) == len(offsets)
    # Each link begins where the one before it ended.
    if gap.parts:
        ends = [{line.low, line.high} for line in lines]
        for one, next_one in pairwise(ends):
            assert min(abs(a - b) for a in one for b in next_one) < 1e-9
    (loose,) = scene.shapes("loose link")
    assert any(isinstance(item, Words) and item.text == "loose" for item in scene)
    if gap.parts:
        case = PROJECT.cases[gap.place]
        chain = next(chain for chain in case.chains if chain.links == gap.links)
        first = chain.mate.first
        at = float(PROJECT.sizes.of(case.placement.corners[first.part, chain.mate.axis] + first.at))
        middle = at + float(PROJECT.sizes.of(chain.gap)) / 2
        index = 1 if chain.mate.axis is Axis.Z else 0
        assert sum(point[index] for point in loose.points) / 4 == pytest.approx(middle)


def test_every_part_of_the_chain_is_in_the_section() -> None:
    gap = next(gap for gap in GAPS if gap.name == "B1: B1-K in the groove of B1-R")
    scene = picture(gap)
    for mark in ("B1-K", "B1-L", "B1-B", "B1-R"):
        assert len(scene.shapes(mark)) == 1


def test_a_run_s_cases_fill_its_opening_side_by_side() -> None:
    gap = next(gap for gap in GAPS if gap.name == "run: its cases in the opening")
    scene = picture(gap)
    first, second = scene.shapes("B1")[0], scene.shapes("B2")[0]
    assert max(x for x, _ in first.points) == min(x for x, _ in second.points) == 36
    assert max(x for x, _ in second.points) == 78


def test_the_picture_fits_a_page_and_is_the_same_every_time() -> None:
    placed = fit_to_room(picture(GAPS[5]), 400.0, 300.0)
    assert placed.wide <= 400 and placed.tall <= 300
    assert svg(placed) == svg(fit_to_room(picture(GAPS[5]), 400.0, 300.0))
