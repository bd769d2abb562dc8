"""The sheet plan of a drawn-up job passes the independent checker and holds each part once."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.bench.cutlist import cut_problems
from casewright.breakdown.solve import solve
from casewright.breakdown.verify import verify
from casewright.casework.project import draw_up
from casewright.shop.machines import Carry
from samples import BASE, SHOP, job, spec


def test_every_part_comes_out_of_a_sound_plan_once() -> None:
    strong = replace(SHOP, carry=Carry(F(200), F(120)))
    sample = job(*(spec(f"B{n}", bays=BASE, width=F(30)) for n in range(1, 4)))
    project = draw_up(replace(sample, shop=strong))
    cut: list[str] = []
    for material, problem in cut_problems(project).items():
        plan = solve(problem)
        assert verify(problem, plan) == (), material
        for _, piece in plan.parts():
            assert piece.item is not None
            part = project.parts[piece.item]
            length, width, _ = project.dimensions(part)
            assert (piece.length, piece.width) == (length, width)
            assert part.material == material
            cut.append(piece.item)
    assert sorted(cut) == sorted(project.parts)
