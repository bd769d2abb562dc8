"""The sheet plan of a drawn-up job passes the independent checker and holds each part once."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction as F

from casewright.casework.project import draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from casewright.shop.machines import Carry
from casewright.shop.materials import Offcut, OtherSize
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.sheets.purchases import buying_list
from samples import BASE, SHOP, job, spec


def test_every_part_comes_out_of_a_sound_plan_once() -> None:
    strong = replace(SHOP, carry=Carry(F(200), F(120)))
    sample = job(*(spec(f"B{n}", bays=BASE, width=F(30)) for n in range(1, 4)))
    project = draw_up(replace(sample, shop=strong))
    cut: list[str] = []
    for material, problem in cut_problems(project).items():
        plan = solve(problem, MaxIterations(200))
        assert verify(problem, plan) == (), material
        for _, piece in plan.parts():
            assert piece.item is not None
            part = project.parts[piece.item]
            length, width, _ = project.dimensions(part)
            assert (piece.length, piece.width) == (length, width)
            assert part.material == material
            cut.append(piece.item)
    assert sorted(cut) == sorted(project.parts)


def test_what_the_plans_use_is_what_is_bought() -> None:
    half = OtherSize("half sheet", F(48), F(48), F(41), count=1)
    sample = job(*(spec(f"B{n}", bays=BASE, width=F(30)) for n in range(1, 4)))
    sheets = {**sample.sheets, "ply": replace(sample.sheets["ply"], others=(half,))}
    rack = (Offcut("rack", "ply", F(40), F(26)),)
    project = draw_up(replace(sample, sheets=sheets, shop=replace(SHOP, rack=rack)))
    plans = {key: solve(problem, MaxIterations(200)) for key, problem in cut_problems(project).items()}
    used = Counter(sheet.bin for plan in plans.values() for sheet in plan.sheets)
    bought = {one.name: one.sheets for one in buying_list(project, plans)}
    bought["half sheet"] = bought.pop("birch ply (half sheet)")  # a list to buy by names the material too
    from_rack = Counter(dict(pair for one in buying_list(project, plans) for pair in one.offcuts))
    assert used == Counter({**bought}) + from_rack
    assert from_rack["rack"] == 1 and bought["half sheet"] == 1 and bought["birch ply"] > 1
    money = sum(one.money for one in buying_list(project, plans) if one.material == "ply")
    assert money == plans["ply"].figures.money
