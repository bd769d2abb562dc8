"""What comes to the table saw, and when a helper is asked for."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.casework.project import Project, draw_up
from casewright.shop.machines import Carry
from casewright.workshop.freed_pieces import StackedPiece
from casewright.workshop.operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting
from casewright.workshop.sheets.lifts import CarriedLift, lifts, lifts_for_two
from samples import SHEETS, SHOP, job

BLADE = Cutter("blade", F(1, 8))


def cut(
    number: int, machine: Machine, length: int, width: int, carried: StackedPiece | None = None
) -> Operation:
    return Operation(
        f"ply 7 cut {number}",
        OperationKind.RIP,
        "ply 7",
        ("B1-L",),
        Setting(machine, BLADE, Guide.FENCE, F(12)),
        Hold("near edge", "other face", "", True),
        (F(length), F(width), F(3, 4)),
        F(length),
        makes=F(12),
        carried=carried,
    )


def shop(pounds: int) -> Project:
    """One case of sheets of 2 lb a square foot, in a shop where one person carries so much, 72 in long."""
    heavy = {key: replace(good, weight=F(2)) for key, good in SHEETS.items()}
    carry = Carry(F(pounds), F(72))
    return draw_up(replace(job(), sheets=heavy, shop=replace(SHOP, carry=carry)))


HAND, TABLE = Machine.HAND_SAW, Machine.TABLE_SAW
CARRIED = StackedPiece("ply", 7, F(0), F(0), F(60), F(48), "ply 7 cut 1", "left", 0, "A")
WORK = (cut(1, HAND, 96, 48), cut(2, TABLE, 60, 48, CARRIED), cut(3, TABLE, 60, 30, CARRIED))


def test_a_lift_is_what_the_first_cut_at_the_table_saw_finds() -> None:
    """Not the sheet that the hand-held saw cuts first, nor what stays at the table saw."""
    assert list(lifts(shop(50), "ply", WORK)) == [CarriedLift(7, "ply 7A", F(40), F(60))]
    assert list(lifts(shop(50), "thin", WORK)) == []


def test_a_sheet_cut_up_by_hand_alone_asks_for_no_helper() -> None:
    assert list(lifts_for_two(shop(20), "ply", WORK[:1])) == []
    assert list(lifts_for_two(shop(40), "ply", WORK)) == []
    (finding,) = lifts_for_two(shop(39), "ply", WORK)
    assert "sheet 7" in finding.place and "40 lb" in finding.text
