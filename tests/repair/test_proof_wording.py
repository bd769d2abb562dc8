"""The sentence on buying claims no more than what is proved."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.casework.project import draw_up
from casewright.repair.facts import Facts
from casewright.repair.price import Cost, Seen
from casewright.repair.way_wording import ENOUGH, proof_of, why_none_is_bought
from casewright.repair.ways.from_wood import Finish, SheetsToBuy
from casewright.repair.ways.way import Action, Buy, Option, WayKind
from samples import job, spec

PROJECT = draw_up(job(spec("B1", width=F(24))))
BOUGHT = Finish({}, {}, (SheetsToBuy("ply", "birch ply", F(80), 1),), {}, F(0), False)


def test_only_what_is_proved_is_called_proved() -> None:
    proved = proof_of(PROJECT, Facts(), BOUGHT, True)
    assert "it is proved" in proved and "1 of birch ply" in proved
    open_ = proof_of(PROJECT, Facts(), BOUGHT, False)
    assert "it is not proved" in open_ and "1 of birch ply" in open_


def test_enough_wood_and_no_sheet_large_enough_are_told_apart() -> None:
    """Where no way was found but a layout was."""
    enough = proof_of(PROJECT, Facts(), Finish({}, {}, (), {}, F(0), True), False)
    none = proof_of(PROJECT, Facts(), None, False)
    assert "enough to finish" in enough and "large enough" in none


def test_a_way_without_buying_says_so_and_no_proof_is_looked_for() -> None:
    turned, recut, bought = (
        way(WayKind.TURN),
        way(WayKind.RECUT),
        way(WayKind.BUY, Buy("ply", "birch ply", 1)),
    )
    assert why_none_is_bought([bought, turned, recut]) == ENOUGH
    assert why_none_is_bought([bought, turned]) == "Nothing need be bought: turn it end for end or over."
    assert why_none_is_bought([bought, way(WayKind.MOVE, seen=Seen.DESIGN)]) is None, "the client is asked"
    assert why_none_is_bought([bought]) is None and why_none_is_bought([]) is None


def way(kind: WayKind, *actions: Action, seen: Seen = Seen.NOTHING) -> Option:
    """A way of that kind with nothing in it but these actions."""
    return Option(kind, actions, PROJECT, {}, {}, Cost(F(0), F(0), 0, seen, F(0), F(0)), "")
