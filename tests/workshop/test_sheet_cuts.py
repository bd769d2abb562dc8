"""A cut waits for every cut that frees the piece it is made in."""

from __future__ import annotations

from collections.abc import Iterator

from casewright.casework.project import draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Piece
from casewright.planner.problem import Direction
from casewright.planner.solve import solve
from casewright.workshop.operations import cut_key
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.sheets.sheet_cuts import sheet_cuts
from samples import BASE, SHOP, job, spec


def freeing(piece: Piece, above: tuple[int, ...] = ()) -> Iterator[tuple[int, tuple[int, ...]]]:
    """For the first cut of every piece, by number: the cuts along whose kerfs the piece came free."""
    if not piece.cuts:
        return
    yield piece.cuts[0].order, above
    crosscut = piece.cuts[0].direction is Direction.CROSSCUT
    for child in piece.children:
        begin = child.x if crosscut else child.y
        end = begin + (child.length if crosscut else child.width)
        beside = (cut.order for cut in piece.cuts if begin == cut.at + cut.kerf or end == cut.at)
        yield from freeing(child, tuple(beside))


def test_a_piece_is_cut_only_once_it_is_free_on_both_sides() -> None:
    project = draw_up(job(*(spec(f"B{n}", bays=BASE) for n in (1, 2))))
    plan = solve(cut_problems(project)["ply"], MaxIterations(30))
    thickness = project.sizes.of("ply.thickness")
    steps = {step.key: step for step in sheet_cuts(SHOP, "ply", thickness, plan)}
    last_pieces = 0
    for sheet in plan.sheets:
        for first, beside in freeing(sheet.root):
            waits = set(steps[cut_key("ply", sheet.number, first)].after)
            reached = set(waits)
            while waits:
                waits = {other for key in waits for other in steps[key].after} - reached
                reached |= waits
            freed_by = {cut_key("ply", sheet.number, order) for order in beside}
            assert freed_by <= reached, first
            last_pieces += len(beside) == 1
    assert len(steps) == sum(len(sheet.cuts) for sheet in plan.sheets) and last_pieces
