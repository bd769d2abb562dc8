"""The minutes of a repair, step by step: our own first estimates, no source."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.boards.cut_once_more import WoodSource
from casewright.repair.price import Cost, Seen
from casewright.repair.repair_times import RepairPace
from casewright.repair.ways.way import (
    Action,
    Buy,
    BuyBoard,
    CutAgain,
    Forgo,
    GlueOn,
    KeepAsCut,
    MakeOf,
    Mend,
    MillAgain,
    MilledPlace,
    NewPlaces,
    ServeAs,
    SetInput,
    TrimTo,
)


def milled(*, alone: bool = False, within: bool = False, pieces: int = 1) -> MillAgain:
    """Another `B1-RA1` from one place on a board."""
    place = MilledPlace(1, "A", F(1), F(29), F(2), fresh=False, within=within, number=1)
    return MillAgain("B1-RA1", WoodSource.LEFT, (F(28), F(2)), (place,), pieces, alone)


@pytest.mark.parametrize(
    ("action", "features", "minutes"),
    [
        (CutAgain("B1-L", "ply offcut 1"), 0, 8),
        (CutAgain("B1-L", "ply offcut 1"), 3, 8 + 3 * 4),
        (TrimTo("B1-L", F(30), F(20)), 3, 4),
        (GlueOn("B1-L", F(20), F(1), "ply offcut 1"), 3, 25 + 8),
        (Buy("ply", "ply", 2), 3, 90),
        (SetInput("B1.depth", "depth", F(20), F(19)), 3, 3),
        (NewPlaces("ply", ("B1-L",)), 3, 3 + 5 + 1),
        (NewPlaces("ply", ("B1-L", "B1-R"), 2), 3, 3 + 2 * 5 + 2),
        (ServeAs("B1-L", "B1-R"), 3, 1),
        (ServeAs("B1-L", "B1-R", trim=(F(30), F(20))), 3, 1 + 4),
        (Mend("B1-L", F(25), ("Let in a strip.",)), 3, 25),
        (Forgo("B1-A1"), 3, 0),
        (MakeOf("B1-A1", "thin"), 3, 0),
        (KeepAsCut("B1-L"), 3, 0),
        (milled(), 2, 8 + 2 * 4 + 10),
        (milled(alone=True), 2, 8 + 2 * 4 + 10 + 2 * 5),
        (milled(within=True), 2, 8 + 2 * 4),
        (milled(pieces=3), 0, 8 + 3 * 10 + 25),
        (BuyBoard("maple", F(96), F(6), 4, 38, 40), 0, 90),
    ],
)
def test_a_step_takes_its_minutes(action: Action, features: int, minutes: int) -> None:
    assert RepairPace().minutes(action, features) == minutes


def cost(money: int, minutes: int, seen: Seen = Seen.NOTHING, **more: F) -> Cost:
    return Cost(F(money), F(minutes), 0, seen, more.get("in_sight", F(0)), more.get("wood", F(0)))


def test_money_minutes_and_sight_are_one_price() -> None:
    """An hour counts as 60: a purchase of 50 with half an hour stands after 79 minutes, before 81."""
    assert cost(50, 30).price == 80
    assert cost(0, 79).key() < cost(50, 30).key() < cost(0, 81).key()
    assert replace(cost(50, 30), hourly=F(30)).price == 65
    assert cost(0, 30, Seen.HIDDEN_LINE).price == 35
    assert cost(0, 30, Seen.IN_SIGHT).price == 90


def test_what_changes_the_design_comes_after_two_sheets_and_a_day_of_hidden_work() -> None:
    design = cost(0, 0, Seen.DESIGN)
    assert design.ask_client and not cost(0, 0, Seen.IN_SIGHT).ask_client
    assert cost(2 * 150, 8 * 60).key() < design.key()


def test_of_one_price_less_in_sight_comes_first_and_then_the_poorer_wood() -> None:
    plain = cost(0, 10)
    assert plain.key() < cost(0, 10, wood=F(1)).key() < cost(0, 10, in_sight=F(1)).key()
    assert replace(plain, remade=1).key() > cost(0, 10, in_sight=F(1)).key()
