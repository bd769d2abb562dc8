"""A piece that the fence does not guide, or whose rest hangs off the table: sled, trestles, words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from types import SimpleNamespace
from typing import cast

import pytest

from casewright.casework.project import draw_up
from casewright.lengths.length import Mark
from casewright.planner.plan import Cut, Piece, PieceRole, Plan, Purpose, SheetPlan
from casewright.planner.problem import Direction, Edge
from casewright.workshop.cut_wording import cut_words
from casewright.workshop.operations import Guide, Machine, Operation, OperationKind
from casewright.workshop.safety.hazards import cautions
from casewright.workshop.sheets import sheet_cuts as sheetcuts
from samples import SHOP, job, spec

HAIR = F(1, 64)
PROJECT = draw_up(job(spec("B1")))
SAW = SHOP.hand_saw


@pytest.mark.parametrize(
    ("wide", "keep", "guide"),
    [
        (F(35, 2), F(20), Guide.FENCE),
        (F(35, 2) - HAIR, F(20), Guide.STOP),
        (F(24), F(36), Guide.FENCE),
        (F(24) - HAIR, F(36), Guide.STOP),
        (F(25), F(50), Guide.FENCE),
        (F(25) - HAIR, F(50), Guide.STOP),
    ],
)
def test_a_piece_shorter_along_the_fence_than_what_is_kept_goes_on_the_sled(
    wide: F, keep: F, guide: Guide
) -> None:
    """A piece so wide is crosscut at so much: any narrower it goes on the sled against a stop. One that is as
    long along the fence as a sled has room for runs along it, down to half the distance."""
    (step,) = sheetcuts.sheet_cuts(SHOP, "ply", F(3, 4), one_crosscut(wide, keep))
    assert (step.setting.distance, step.setting.guide) == (keep, guide)


def one_crosscut(wide: F, keep: F, rest: F = F(10)) -> Plan:
    """A sheet so wide with one crosscut, which leaves so much waste."""
    crosscut = Cut(1, "table saw", Direction.CROSSCUT, keep, F(1, 8), keep, Edge.LEFT, Purpose.SIZE)
    left = Piece(F(0), F(0), keep, wide, PieceRole.PART, "B1-L")
    right = Piece(keep + F(1, 8), F(0), rest, wide, PieceRole.WASTE)
    long = keep + F(1, 8) + rest
    root = Piece(F(0), F(0), long, wide, PieceRole.SHEET, cuts=(crosscut,), children=(left, right))
    return cast("Plan", SimpleNamespace(sheets=(SheetPlan(1, "birch ply", root),)))


def test_pieces_of_one_length_share_the_sled_s_stop_where_the_sled_has_room() -> None:
    """The first is too short along the fence; the second would run along it, the third is too wide for a
    sled."""
    plans = {"ply": SimpleNamespace(sheets=(*(
        replace(one_crosscut(wide, F(20)).sheets[0], number=number)
        for number, wide in enumerate((F(12), F(22), F(30)), 1)
    ),))}  # fmt: skip
    steps = sheetcuts.cuts_of_plans(PROJECT, cast("dict[str, Plan]", plans))
    assert [step.setting.guide for step in steps] == [Guide.STOP, Guide.STOP, Guide.FENCE]


def test_what_may_be_lost_beyond_a_cut_is_no_part_s_and_shared_with_the_cuts_before() -> None:
    """By hand: 10 of waste beyond the first; with a part of 4 and a strip of which 6 are waste beside it, the
    second of two cuts may lose half of 6."""
    (alone,) = sheetcuts.sheet_cuts(SHOP, "ply", F(3, 4), one_crosscut(F(30), F(20)))
    assert alone.spare == 10
    kerf = F(1, 8)
    parted = (Cut(3, "table saw", Direction.CROSSCUT, F(14), kerf, F(4) - kerf, Edge.LEFT, Purpose.SIZE),)
    rest = Piece(F(10) + kerf, F(0), F(10) - kerf, F(30), PieceRole.STRIP, cuts=parted, children=(
        Piece(F(10) + kerf, F(0), F(4) - kerf, F(30), PieceRole.PART, "B1-R"),
        Piece(F(14) + kerf, F(0), F(6) - kerf, F(30), PieceRole.WASTE),
    ))  # fmt: skip
    first = Cut(1, "table saw", Direction.CROSSCUT, F(3), kerf, F(3), Edge.LEFT, Purpose.SIZE)
    second = Cut(2, "table saw", Direction.CROSSCUT, F(10), kerf, F(7) - kerf, Edge.LEFT, Purpose.SIZE)
    root = Piece(F(0), F(0), F(20), F(30), PieceRole.SHEET, cuts=(first, second), children=(
        Piece(F(0), F(0), F(3), F(30), PieceRole.PART, "B1-L"),
        Piece(F(3) + kerf, F(0), F(7) - kerf, F(30), PieceRole.PART, "B1-B"),
        rest,
    ))  # fmt: skip
    plan = cast("Plan", SimpleNamespace(sheets=(SheetPlan(1, "birch ply", root),)))
    spare = [step.spare for step in sheetcuts.sheet_cuts(SHOP, "ply", F(3, 4), plan)]
    assert spare == [F(6) - kerf, (F(6) - kerf) / 2, F(6) - kerf]


def told(cut: Operation) -> str:
    return cut_words(PROJECT, cut)


def long_crosscut(wide: F = F(24), rest: F = F(60)) -> Operation:
    """A crosscut that keeps 20 and leaves so much of a piece, none of it a part's."""
    (cut,) = sheetcuts.sheet_cuts(SHOP, "ply", F(3, 4), one_crosscut(wide, F(20), rest))
    return cut


def test_alone_a_long_piece_is_parted_at_the_trestles_outside_the_line() -> None:
    """Line at 20 and the clean-up of the hand-held saw; the straightedge by its base nearer."""
    line = F(20) + SAW.clean_up
    assert (line, line - SAW.base_offset) == (F(81, 4), F(75, 4))
    said = 'Alone, first crosscut it at the trestles 20 1/4" in from the left edge: straightedge at 18 3/4".'
    assert said in told(long_crosscut()) and "that end of the rest" not in told(long_crosscut())


def test_parts_beyond_lose_the_edge_that_the_hand_held_saw_leaves() -> None:
    lost = 2 * SAW.clean_up + SAW.kerf - SHOP.table_saw.kerf
    assert 'Then take 1/4" off that end of the rest' in told(replace(long_crosscut(), spare=lost))


@pytest.mark.parametrize(
    "cut",
    [
        long_crosscut(rest=F(48)),
        long_crosscut(wide=F(6) - HAIR),
        replace(long_crosscut(), spare=2 * SAW.clean_up + SAW.kerf - SHOP.table_saw.kerf - HAIR),
        replace(
            long_crosscut(), hold=replace(long_crosscut().hold, lengthwise=True), size=(F(80), F(80), F(1))
        ),
    ],
    ids=["not long", "a narrow strip", "no room between the parts", "a rip"],
)
def test_nobody_is_sent_to_the_trestles_for_nothing(cut: Operation) -> None:
    assert "Alone" not in told(cut)


def test_a_narrow_strip_by_hand_lies_between_offcuts() -> None:
    by_hand = replace(long_crosscut().setting, machine=Machine.HAND_SAW, guide=Guide.STRAIGHTEDGE)
    strip = replace(long_crosscut(wide=F(2)), setting=by_hand)
    assert "offcut of the same thickness" in told(strip)
    assert "offcut of the same thickness" not in told(replace(strip, travel=F(6)))
    assert "offcut of the same thickness" not in told(long_crosscut(wide=F(2)))


def test_a_trim_by_hand_says_where_the_straightedge_stands() -> None:
    """1/4 off, and the saw's base of 1 1/2 on the side that is kept."""
    by_hand = replace(
        long_crosscut().setting, machine=Machine.HAND_SAW, guide=Guide.STRAIGHTEDGE, distance=F(3, 2)
    )
    trim = replace(
        long_crosscut(),
        kind=OperationKind.TRIM,
        setting=by_hand,
        size=(F(96), F(24), F(3, 4)),
        makes=F(383, 4),
    )
    assert told(trim).startswith('Take 1/4" off the left edge: straightedge at 1 3/4".')


def test_a_trim_that_no_part_depends_on_is_not_critical() -> None:
    trim = replace(
        long_crosscut(), kind=OperationKind.TRIM, size=(F(24), F(24), F(3, 4)), makes=F(95, 4), leaves=()
    )
    assert 'keep 23 3/4" (takes 1/4" off, not critical).' in told(replace(trim, spare=F(1, 8)))
    assert "not critical" not in told(replace(trim, spare=F(1, 8) - HAIR))


def test_the_end_of_a_long_side_is_not_run_over_the_stack_alone() -> None:
    """84 in, the shoulder at the fence: 70 in hang off a table of 14. A side of 60 in hangs by 46."""
    cut = long_crosscut()
    rabbet = replace(
        cut, kind=OperationKind.RABBET, size=(F(84), F(24), F(3, 4)),
        setting=replace(cut.setting, distance=F(0), height=F(3, 8)),
    )  # fmt: skip
    said = [one.text for one in cautions(rabbet, SHOP, Mark.SIXTEENTH) if "overhangs" in one.text]
    assert len(said) == 1 and "router" in said[0] and '70"' in said[0]
    short = replace(rabbet, size=(F(48), F(24), F(3, 4)))
    assert not any("router" in one.text for one in cautions(short, SHOP, Mark.SIXTEENTH))
