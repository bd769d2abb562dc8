"""The sentence on buying claims no more than what is proved."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.casework.project import draw_up
from casewright.repair.facts import Facts
from casewright.repair.way_wording import proof_of
from casewright.repair.ways.from_wood import Finish, SheetsToBuy
from samples import job, spec

PROJECT = draw_up(job(spec("B1", width=F(24))))
BOUGHT = Finish({}, {}, (SheetsToBuy("ply", "birch ply", F(80), 1),), {}, F(0), False)


def test_only_what_is_proved_is_called_proved() -> None:
    proved = proof_of(PROJECT, Facts(), BOUGHT, True)
    assert "it is proved" in proved and "1 of birch ply" in proved
    open_ = proof_of(PROJECT, Facts(), BOUGHT, False)
    assert "it is not proved" in open_ and "1 of birch ply" in open_


def test_enough_wood_and_no_sheet_large_enough_are_told_apart() -> None:
    enough = proof_of(PROJECT, Facts(), Finish({}, {}, (), {}, F(0), True), False)
    none = proof_of(PROJECT, Facts(), None, False)
    assert "enough to finish" in enough and "large enough" in none
