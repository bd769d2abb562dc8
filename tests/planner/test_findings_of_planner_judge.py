"""Every finding of the judge of plans, from one small plan broken in one place (`broken_plans`).

The judge's findings are read by programs, so they have no fix.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.findings import Finding
from casewright.planner.plan import PieceRole, PlanStatus, Purpose, Unplaced
from casewright.planner.problem import Direction, Edge, FirstCut, Item, PatternKind, Trim
from finding_rows import Row, check, each

from .broken_plans import (
    ALONG,
    CROSSCUT,
    HALF,
    HAND,
    HIGH,
    LEFT,
    LOW,
    NARROW,
    PROBLEM,
    RIP,
    ROOT,
    SAW,
    SOUND,
    STRIP,
    by_hand,
    carried,
    cut,
    in_bin,
    in_one_piece,
    judged,
    matched,
    money,
    twice,
    with_high,
    with_strip,
)

HIGH_AT, STRIP_AT, ROOT_AT = (
    f"sheet 1, {name}" for name in ("high at 10, 5", "strip at 10, 0", "sheet at 0, 0")
)

ROWS = [
    Row("stock", "sheet 1", "'oak'", "", judged(sheet={"bin": "oak"}), SOUND),
    Row(
        "stock",
        "s",
        "1 used, but only 0 in stock",
        "",
        judged(problem=in_bin(count=0)),
        judged(problem=in_bin(count=1)),
    ),
    Row("stock", "sheets", "do not go up from 1", "", judged(sheet={"number": 0}), SOUND),
    Row("order", "sheet 1", "not numbered one after", "", judged(cut(order=3)), SOUND),
    Row(
        "order",
        "sheet 1",
        "before its piece exists",
        "",
        judged(cut(with_strip(cut(STRIP, order=1)), order=2)),
        SOUND,
    ),
    Row(
        "order",
        "sheet 1",
        "order of its numbers",
        "",
        judged(twice(3, 2), NARROW),
        judged(twice(2, 3), NARROW),
    ),
    Row(
        "order",
        STRIP_AT,
        "order of their position",
        "",
        judged(with_strip(replace(STRIP, children=(HIGH, LOW)))),
        SOUND,
    ),
    Row("count", "ghost", "'ghost'", "", judged(with_high(item="ghost")), SOUND),
    Row(
        "count",
        "high",
        "1 asked for, but 0 placed",
        "",
        judged(with_high(item=None, role=PieceRole.WASTE)),
        SOUND,
    ),
    Row(
        "count",
        "high",
        "2 asked for, but 1 placed",
        "",
        judged(problem={"items": (*PROBLEM.items[:2], replace(PROBLEM.items[2], count=2))}),
        SOUND,
    ),
    Row(
        "count",
        "status",
        "cannot be optimal",
        "",
        judged(status=PlanStatus.OPTIMAL, unplaced=(Unplaced("x", 1),)),
        judged(status=PlanStatus.OPEN, unplaced=(Unplaced("x", 1),)),
    ),
    Row("bound", "figures", "money", "", judged(**money(money=F(4))), SOUND),
    Row("bound", "figures", "number of sheets", "", judged(**money(sheets=2)), SOUND),
    Row("bound", "bound", "bound 6 is above", "", judged(bound=F(6)), judged(bound=F(5))),
    Row("bound", "bound", "2 sheets", "", judged(bound_sheets=2), judged(bound_sheets=1)),
    Row(
        "bound",
        "status",
        "the bound is 4",
        "",
        judged(bound=F(4), status=PlanStatus.OPTIMAL),
        judged(bound=F(4), status=PlanStatus.OPEN),
    ),
    Row(
        "match-split",
        "pair",
        "width 9/2",
        "",
        matched(),
        matched(findings=(Finding("match-split", "pair", "Own."),)),
    ),
    Row(
        "grain-broken",
        "left + low",
        "low is not cut beside left",
        "",
        in_one_piece("left", "low"),
        in_one_piece("left", "low", findings=(Finding("grain-broken", "left + low", "Own."),)),
    ),
    Row(  # the kerf is where a part should be
        "grain-broken",
        "low + high",
        "high is not cut beside low",
        "",
        in_one_piece("low", "high", tree=with_high(y=F(7), width=F(3))),
        in_one_piece("low", "high"),
    ),
    Row(  # parted along the grain, not across it
        "grain-broken",
        "low + high",
        "high is not cut beside low",
        "",
        in_one_piece("low", "high", by=Direction.CROSSCUT),
        in_one_piece("high", "low"),
    ),
    Row(
        "grain-broken",
        "low + high",
        "high is not cut beside low",
        "",
        in_one_piece("low", "high", tree=with_high(turned=True)),
        in_one_piece("low", "high"),
    ),
    Row("size", "sheet 1", "not its bin's", "", judged(problem=in_bin(length=F(21))), SOUND),
    Row("size", "sheet 1", "not its bin's", "", judged(problem=in_bin(width=F(11))), SOUND),
    Row(
        "size",
        HIGH_AT,
        "10 by 5 where the part is 10 by 6",
        "",
        judged(problem={"items": (*PROBLEM.items[:2], Item("high", F(10), F(6)))}),
        SOUND,
    ),
    Row("size", STRIP_AT, "high at 10, 5 has no size", "", judged(with_high(width=F(0))), SOUND),
    Row("role", "sheet 1", "begin with the sheet", "", judged(replace(ROOT, role=PieceRole.BLANK)), SOUND),
    Row(
        "role",
        HIGH_AT.replace("high", "strip"),
        "is not cut",
        "",
        judged(with_high(role=PieceRole.STRIP, item=None)),
        SOUND,
    ),
    Row(
        "role",
        "sheet 1, waste at 10, 0",
        "is cut again",
        "",
        judged(with_strip(replace(STRIP, role=PieceRole.WASTE))),
        SOUND,
    ),
    Row(
        "role",
        HIGH_AT,
        "bears a part's name",
        "",
        judged(with_high(role=PieceRole.WASTE)),
        judged(with_high(role=PieceRole.WASTE, item=None)),
    ),
    Row(
        "role",
        "sheet 1",
        "cut by hand after it was carried",
        "",
        carried(with_strip(cut(STRIP, tool=HAND.name, purpose=Purpose.CARRY)), max_length=F(20)),
        carried(by_hand(), max_length=F(20)),
    ),
    Row(
        "cut-short",
        STRIP_AT,
        "both ways",
        "",
        judged(with_strip(replace(STRIP, cuts=(RIP, replace(CROSSCUT, order=3))))),
        SOUND,
    ),
    Row(
        "cut-short", STRIP_AT, "divided without a cut", "", judged(with_strip(replace(STRIP, cuts=()))), SOUND
    ),
    Row("cut-short", STRIP_AT, "stops short beside high", "", judged(with_high(length=F(9))), SOUND),
    Row("cut-short", STRIP_AT, "From 5 to 6 belongs", "", judged(with_high(y=F(6), width=F(4))), SOUND),
    Row("cut-short", STRIP_AT, "From 9 to 10 belongs", "", judged(with_high(width=F(4))), SOUND),
    Row("kerf", ROOT_AT, "'bread knife'", "", judged(cut(tool="bread knife")), SOUND),
    Row(
        "kerf",
        ROOT_AT,
        "takes 1, its saw takes 2",
        "",
        judged(problem={"table_saw": replace(SAW, kerf=F(2))}),
        SOUND,
    ),
    Row("kerf", STRIP_AT, "share room at 4", "", judged(with_high(y=F(4))), SOUND),
    Row(
        "kerf",
        ROOT_AT,
        "no cut between",
        "",
        judged(replace(cut(at=F(19), setting=F(10)), children=(LEFT, replace(STRIP, x=F(9))))),
        SOUND,
    ),
    Row(
        "carried",
        ROOT_AT,
        "carrying cut at the table saw",
        "",
        judged(cut(purpose=Purpose.CARRY)),
        judged(by_hand(), {"hand_saw": HAND}),
    ),
    Row("carried", "sheet 1", "20 long, over 19", "", carried(max_length=F(19)), carried(max_length=F(20))),
    Row(
        "carried", "sheet 1", "weighs 50.0, over 49", "", carried(max_weight=F(49)), carried(max_weight=F(50))
    ),
    Row(
        "carried",
        "sheet 1",
        "10 long, over 9",
        "",
        carried(by_hand(), max_length=F(9)),
        carried(by_hand(), said=True, max_length=F(9)),
    ),
    Row("outside", ROOT_AT, "Cut 1 at 20", "", judged(cut(at=F(20))), judged(cut(at=F(19)))),
    Row("outside", ROOT_AT, "at -2", "", judged(cut(at=F(-2))), judged(cut(at=F(-1)))),
    Row("outside", "sheet 1", "high at 11, 5 sticks out", "", judged(with_high(x=F(11))), SOUND),
    Row("outside", "sheet 1", "high at 10, 6 sticks out", "", judged(with_high(y=F(6))), SOUND),
    Row(
        "outside",
        "sheet 1",
        "left at -1, 0",
        "",
        judged(replace(ROOT, children=(replace(LEFT, x=F(-1)), STRIP))),
        SOUND,
    ),
    Row("setting", ROOT_AT, "right edge", "", judged(cut(reference=Edge.RIGHT)), SOUND),
    Row("setting", STRIP_AT, "far edge", "", judged(with_strip(cut(STRIP, reference=Edge.FAR))), SOUND),
    Row(
        "setting",
        ROOT_AT,
        "not take off its setting, 9",
        "",
        judged(cut(purpose=Purpose.TRIM)),
        judged(cut(purpose=Purpose.TRIM, setting=F(10))),
    ),
    Row("setting", ROOT_AT, "has the size of its setting, 8", "", judged(cut(setting=F(8))), SOUND),
    Row(
        "overlap",
        "sheet 1",
        "high at 8, 5 and left at 0, 0",
        "",
        judged(with_high(x=F(8))),
        judged(with_high(x=F(9))),
    ),
    Row(
        "overlap",
        "sheet 1",
        "high at 10, 3 and low at 10, 0",
        "",
        judged(with_high(y=F(3))),
        judged(with_high(y=F(4))),
    ),
    Row("trim", "sheet 1", "left at 0, 0 keeps", "", judged(problem=in_bin(trim=Trim(left=F(1, 64)))), SOUND),
    Row("trim", "sheet 1", "high at 10, 5 keeps", "", judged(problem=in_bin(trim=Trim(far=F(1, 64)))), SOUND),
    Row(
        "clean-up",
        "sheet 1",
        "left at 0, 0 keeps",
        "",
        carried(by_hand(), replace(HAND, clean_up=F(1))),
        carried(by_hand(), replace(HAND, clean_up=F(0))),
    ),
    Row(
        "grain",
        HIGH_AT,
        "across the grain",
        "",
        judged(with_high(turned=True), {"items": (*PROBLEM.items[:2], Item("high", F(5), F(10)))}),
        judged(
            with_high(turned=True), {"items": (*PROBLEM.items[:2], Item("high", F(5), F(10), may_turn=True))}
        ),
    ),
    Row(
        "reach",
        "sheet 1",
        "Cut 2 is set to 4",
        "",
        judged(problem={"table_saw": replace(SAW, reach=F(4) - F(1, 64))}),
        judged(problem={"table_saw": replace(SAW, reach=F(4))}),
    ),
    Row(
        "reach",
        "sheet 1",
        "beyond the fence",
        "",
        judged(problem={"table_saw": replace(SAW, reach=F(3))}),
        judged(
            problem={"table_saw": replace(SAW, reach=F(3))},
            findings=(Finding("fence-reach", "sheet 1", "Own."),),
        ),
    ),
    Row(
        "first-cut",
        "sheet 1",
        "first cut by crosscut",
        "",
        judged(HALF, {"pattern": ALONG}),
        judged(HALF, {"pattern": replace(ALONG, first_cut=FirstCut.ACROSS)}),
    ),
    Row(
        "first-cut",
        "sheet 1",
        "sheet at 0, 0",
        "",
        judged(HALF, {"pattern": ALONG}),
        judged(ROOT, {"pattern": ALONG}),
    ),  # one strip fills it
    Row(
        "stages",
        "sheet 1",
        "needs 2 stages, 1",
        "",
        judged(problem={"pattern": PatternKind(1)}),
        judged(problem={"pattern": PatternKind(2)}),
    ),
]


def test_the_plan_is_sound() -> None:
    assert SOUND() == ()


@each(ROWS)
def test_each_is_said_of_the_broken_plan_and_not_of_its_neighbour(row: Row) -> None:
    check(row)
