"""Cautions come where the danger is."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.lengths.length import Mark
from casewright.shop.machines import Carry, Shop
from casewright.workshop.operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting
from casewright.workshop.safety.hazards import Hazard, cautions, mirrored_caution
from samples import SHOP

BLADE = Setting(Machine.TABLE_SAW, Cutter("blade", F(1, 8)), Guide.FENCE, F(20))
RIP = Operation(
    "rip", OperationKind.RIP, "ply 1", ("B1-L",), BLADE, Hold("near edge", "face", "left edge", True),
    (F(40), F(30), F(3, 4)), F(40),
)  # fmt: skip


def hazards(operation: Operation, weight: F = F(0)) -> set[Hazard]:
    return {caution.hazard for caution in cautions(operation, SHOP, Mark.SIXTEENTH, weight)}


def test_a_plain_rip_is_about_kickback_and_dust() -> None:
    assert hazards(RIP) == {Hazard.KICKBACK, Hazard.DUST}


def test_a_narrow_rip_wants_a_push_stick() -> None:
    assert Hazard.NARROW in hazards(replace(RIP, setting=replace(BLADE, distance=F(3))))
    assert Hazard.NARROW not in hazards(replace(RIP, setting=replace(BLADE, distance=F(6))))


def test_a_dado_takes_the_guard_off() -> None:
    dado = replace(RIP, kind=OperationKind.DADO, setting=replace(BLADE, height=F(1, 4), distance=F(4)))
    assert Hazard.GUARD in hazards(dado) and Hazard.NARROW not in hazards(dado)


def test_a_piece_that_hangs_off_the_table_is_said_and_no_other_edge_is_offered() -> None:
    """60 in wide, fence at 10 and 14 in of table beyond the blade: 36 in hang over. From the other edge
    nobody has measured: a fence set from there cut other pieces of the batch to a wrong size."""
    wide = replace(RIP, size=(F(24), F(60), F(3, 4)), setting=replace(BLADE, distance=F(10)))
    (said,) = [c for c in cautions(wide, SHOP, Mark.SIXTEENTH) if c.hazard is Hazard.SUPPORT]
    assert '36"' in said.text and "other edge" not in said.text and '49 7/8"' not in said.text
    assert Hazard.SUPPORT in hazards(replace(RIP, size=(F(96), F(30), F(3, 4))))


def test_a_sheet_over_the_limit_is_not_lifted_alone() -> None:
    sheet = replace(RIP, size=(F(96), F(48), F(3, 4)))
    assert Hazard.LIFTING in hazards(sheet, F(188, 100))  # 60 lb
    assert Hazard.LIFTING not in hazards(RIP, F(188, 100))


def lifts(piece: Operation, shop: Shop) -> list[str]:
    found = cautions(piece, shop, Mark.SIXTEENTH, F(188, 100))
    return [one.text for one in found if one.hazard is Hazard.LIFTING]


def test_the_only_limit_for_a_lift_is_the_makers_own() -> None:
    """47 lb is over the lifting equation's 32, and under the 50 by which the sheets were planned."""
    piece = replace(RIP, size=(F(75), F(48), F(3, 4)))
    strong = replace(SHOP, carry=Carry(F(50), F(96)))
    said = [
        c.text for c in cautions(piece, strong, Mark.SIXTEENTH, F(188, 100)) if c.hazard is Hazard.LIFTING
    ]
    assert said == []
    weak = replace(SHOP, carry=Carry(F(40), F(96)))
    (over,) = [
        c.text for c in cautions(piece, weak, Mark.SIXTEENTH, F(188, 100)) if c.hazard is Hazard.LIFTING
    ]
    assert "weighs about 47 lb, over your 40 lb: two lift it, or slide it." in over and "NIOSH" not in over
    short = replace(SHOP, carry=Carry(F(50), F(72)))
    (long,) = [
        c.text for c in cautions(piece, short, Mark.SIXTEENTH, F(188, 100)) if c.hazard is Hazard.LIFTING
    ]
    assert long == 'A piece is 75" long; you carry 72" alone: two lift it.'


def test_a_cut_on_the_sled_is_not_told_to_keep_the_spreader_on() -> None:
    sled = replace(RIP, setting=replace(BLADE, guide=Guide.STOP))
    said = " ".join(c.text for c in cautions(sled, SHOP, Mark.SIXTEENTH))
    assert "crosscut sled" in said and "spreader" not in said


def test_mirrored_parts_on_one_setting_are_called_out() -> None:
    left = replace(RIP, piece="B1-L", hold=replace(RIP.hold, leads="front edge"))
    right = replace(RIP, piece="B1-R", hold=replace(RIP.hold, leads="rear edge"))
    said = mirrored_caution((left, right, left))
    assert said is not None and "B1-L front edge first; B1-R rear edge first" in said.text
    assert mirrored_caution((left, left)) is None
