"""Whatever has been cut of a sheet, what stands adds up to the sheet less the kerfs."""

from __future__ import annotations

from fractions import Fraction as F

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.engine import MaxIterations
from casewright.planner.plan import PieceRole
from casewright.planner.problem import Problem
from casewright.planner.solve import solve
from casewright.record.part_cut_sheets import standing_pieces
from casewright.workshop.operations import cut_key
from planner.shop import problems, small_job


@settings(deadline=None, max_examples=40)
@given(problems(), st.data())
def test_what_stands_shares_no_wood_and_keeps_every_part(problem: Problem, data: st.DataObject) -> None:
    plan = solve(problem, MaxIterations(50))
    for sheet in plan.sheets:
        cuts = sorted(cut_key("ply", sheet.number, cut.order) for cut in sheet.cuts)
        done = set(data.draw(st.lists(st.sampled_from(cuts), unique=True))) if cuts else set()
        pieces = standing_pieces("ply", [sheet], done)
        assert sum(piece.length * piece.width for piece in pieces) <= sheet.root.area
        for one in pieces:
            for other in pieces:
                apart = (
                    one.x + one.length <= other.x
                    or other.x + other.length <= one.x
                    or one.y + one.width <= other.y
                    or other.y + other.width <= one.y
                )
                assert one is other or apart
        wanted = sorted(part.item for part in sheet.parts if part.item)
        assert sorted(mark for piece in pieces for mark in piece.parts) == wanted


def test_a_sheet_from_whole_to_parts() -> None:
    plan = solve(small_job())
    sheet = plan.sheets[0]
    (whole,) = standing_pieces("ply", [sheet], ())
    assert not whole.begun and whole.role is PieceRole.SHEET and (whole.length, whole.width) == (F(96), F(48))
    keys = [cut_key("ply", sheet.number, cut.order) for cut in sheet.cuts]
    cut = standing_pieces("ply", [sheet], keys)
    freed = {(piece.x, piece.y): piece for piece in cut if piece.role is PieceRole.PART}
    assert {(part.x, part.y) for part in sheet.parts} == set(freed)
    assert all(
        (freed[part.x, part.y].length, freed[part.x, part.y].width) == (part.length, part.width)
        for part in sheet.parts
    )
    assert all(piece.role is not None for piece in cut)
    first, *rest = standing_pieces("ply", [sheet], keys[:1])
    assert first.begun and rest
