"""One small plan drawn by hand, what the judge says of it, and the plan broken in one place.

The plan: a sheet of 20 by 10 is crosscut at 9 with a kerf of 1; what lies right of the kerf, 10 by
10, is ripped at 4. So `left` is 9 by 10, `low` 10 by 4 and `high` 10 by 5.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casewright.findings import Finding
from casewright.planner.plan import Cut, Piece, PieceRole, Purpose, SheetPlan
from casewright.planner.problem import (
    Bin,
    Direction,
    Edge,
    FirstCut,
    Item,
    Limits,
    OnePiece,
    PatternKind,
    Problem,
    Saw,
    SawKind,
)
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from finding_rows import Provoke

SAW = Saw("table saw", SawKind.TABLE_SAW, F(1))
HAND = Saw("hand saw", SawKind.HAND_SAW, F(1))
SHEET = Bin("s", F(20), F(10), price=F(5), weight_per_area=F(1, 4))
PROBLEM = Problem(
    (Item("left", F(9), F(10)), Item("low", F(10), F(4)), Item("high", F(10), F(5))), (SHEET,), SAW
)
CROSSCUT = Cut(1, SAW.name, Direction.CROSSCUT, F(9), F(1), F(9), Edge.LEFT, Purpose.SIZE)
RIP = Cut(2, SAW.name, Direction.RIP, F(4), F(1), F(4), Edge.NEAR, Purpose.SIZE)


def piece(
    x: int, y: int, length: int, width: int, role: PieceRole, item: str | None = None, **more: Any
) -> Piece:
    return Piece(F(x), F(y), F(length), F(width), role, item, **more)


LEFT = piece(0, 0, 9, 10, PieceRole.PART, "left")
LOW = piece(10, 0, 10, 4, PieceRole.PART, "low")
HIGH = piece(10, 5, 10, 5, PieceRole.PART, "high")
STRIP = piece(10, 0, 10, 10, PieceRole.STRIP, cuts=(RIP,), children=(LOW, HIGH))
ROOT = piece(0, 0, 20, 10, PieceRole.SHEET, cuts=(CROSSCUT,), children=(LEFT, STRIP))
PLAN = replace(solve(PROBLEM), sheets=(SheetPlan(1, "s", ROOT),))


def judged(
    root: Piece = ROOT,
    problem: dict[str, Any] | None = None,
    sheet: dict[str, Any] | None = None,
    **plan: Any,
) -> Provoke:
    """What the judge says of the plan with another tree, sheet or entry, or by another problem."""

    def findings() -> tuple[Finding, ...]:
        sheets = (replace(SheetPlan(1, "s", root), **(sheet or {})),)
        return verify(replace(PROBLEM, **(problem or {})), replace(PLAN, sheets=sheets, **plan))

    return findings


def cut(root: Piece = ROOT, **changes: Any) -> Piece:
    """A piece with its first cut changed."""
    return replace(root, cuts=(replace(root.cuts[0], **changes), *root.cuts[1:]))


def with_strip(strip: Piece) -> Piece:
    return replace(ROOT, children=(LEFT, strip))


def with_high(**changes: Any) -> Piece:
    return with_strip(replace(STRIP, children=(LOW, replace(HIGH, **changes))))


def in_bin(**changes: Any) -> dict[str, Any]:
    return {"bins": (replace(SHEET, **changes),)}


def money(**changes: Any) -> dict[str, Any]:
    return {"figures": replace(PLAN.figures, **changes)}


SOUND = judged()


def by_hand(tree: Piece = ROOT) -> Piece:
    """The crosscut made by the hand-held saw, so that its right piece is carried to the table saw."""
    cuts = (replace(CROSSCUT, tool=HAND.name, purpose=Purpose.CARRY),)
    return replace(tree, cuts=cuts, children=(LEFT, replace(STRIP, role=PieceRole.CARRIED)))


def carried(root: Piece = ROOT, hand: Saw = HAND, said: bool = False, **limits: F) -> Provoke:
    """By a problem with a hand-held saw and limits of what is carried; `said`: the plan owns up to it."""
    own = (Finding("limit-bent", "sheet 1", "No."),) if said else ()
    return judged(root, {"hand_saw": hand, "limits": Limits(**limits)}, findings=own)


def matched(**plan: Any) -> Provoke:
    """`low` and `high` as wide as each other: one is cut to it, the other is what the cut leaves."""
    items = (
        Item("left", F(9), F(10)),
        *(Item(name, F(10), F(9, 2), match="pair") for name in ("low", "high")),
    )
    low, high = replace(LOW, width=F(9, 2)), replace(HIGH, y=F(11, 2), width=F(9, 2))
    strip = replace(cut(STRIP, at=F(9, 2), setting=F(9, 2)), children=(low, high))
    return judged(with_strip(strip), {"items": items}, **plan)


def in_one_piece(*names: str, tree: Piece = ROOT, by: Direction = Direction.RIP, **plan: Any) -> Provoke:
    """By a problem in which these parts come of one piece."""
    return judged(tree, {"one_piece": (OnePiece(names, by),)}, **plan)


def twice(first: int, second: int) -> Piece:
    """The strip cut in two passes, `high` brought to 4 and what is left of it wasted."""
    again = replace(RIP, order=second, at=F(9), setting=F(4))
    children = (LOW, replace(HIGH, width=F(4)))
    return with_strip(replace(STRIP, cuts=(replace(RIP, order=first), again), children=children))


NARROW = {"items": (*PROBLEM.items[:2], Item("high", F(10), F(4)))}


ALONG = PatternKind(None, FirstCut.ALONG)
WASTE = replace(LEFT, role=PieceRole.WASTE, item=None)
HALF = replace(
    ROOT, children=(WASTE, replace(STRIP, children=(LOW, replace(HIGH, role=PieceRole.WASTE, item=None))))
)
