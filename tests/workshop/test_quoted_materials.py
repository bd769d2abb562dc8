"""A customer reads of every material that parts are made of, in words that are not the shop's own."""

from __future__ import annotations

from casewright.app.jobs.worked_job import open_job
from casewright.workshop.costs.quoted_materials import quoted_materials
from loft_job import LOFT
from priced_box import BOX


def said(text: str) -> tuple[str, ...]:
    return quoted_materials(open_job(text).needed())


def test_shelves_of_another_material_are_not_passed_over() -> None:
    """Two cases, the shelves of one of MDF: both materials are named, each for what it is."""
    other = """
[materials.cheap]
sheet = "mdf 3/4"
name = "offcuts from Joe"
"""
    shelves = "bays = [{ adjustable = 2 }]"
    second = BOX[BOX.index("[[runs.cases]]") :].replace("O1", "O2")
    text = f"{BOX}{shelves}\n\n{second}{shelves.replace('2', '1')}\n".replace("opening = 24", "opening = 48")
    in_mdf = text.replace("[construction]", "[sheet_of]\nO2-A1 = 'cheap'\n\n[construction]") + other
    assert said(text) == ('Hardwood plywood, 3/4": cases and shelves.',)
    assert said(in_mdf) == ('Hardwood plywood, 3/4": cases and most shelves.', 'MDF, 3/4": some shelves.')


def test_the_makers_own_name_of_a_wood_is_not_on_the_quote() -> None:
    rough = LOFT.replace('"hard maple"', '"soft maple, rough"')
    assert said(rough)[-1] == 'Soft maple, 3/4": face frames.'
    by_wood = LOFT.replace('name = "hard maple"', 'name = "from Joe"\nwood = "red maple"')
    assert said(by_wood)[-1] == 'Soft maple, 3/4": face frames.'
    unknown = LOFT.replace('"hard maple"', '"washed lumber"')
    assert said(unknown)[-1] == 'Washed lumber, 3/4": face frames.', "no ash in it"


def test_a_plywood_is_named_by_the_wood_that_its_name_tells() -> None:
    oak = BOX.replace('"hardwood ply 3/4"', '"hardwood ply 3/4"\nname = "oak plywood, A1 face"')
    assert said(oak) == ('Oak plywood, 3/4": cases.',)
