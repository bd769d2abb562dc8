"""The judge: silent about sound plans, and every rule fires on a plan broken that way."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction as F
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Cut, Piece, PieceRole, Plan, PlanStatus, Purpose, SheetPlan, Unplaced
from casewright.planner.problem import Bin, Direction, Edge, FirstCut, Item, Limits, PatternKind, Problem, Saw
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

from .shop import HAND_SAW, SHEET, TABLE_SAW, problems, small_job


def codes(problem: Problem, plan: Plan) -> set[str]:
    return {finding.code for finding in verify(problem, plan)}


@cache
def small_job_planned() -> tuple[Problem, Plan]:
    problem = small_job()
    return problem, solve(problem)


def changed(piece: Piece, where: Callable[[Piece], bool], change: Callable[[Piece], Piece]) -> Piece:
    """The tree with `change` made to the first piece for which `where` holds."""
    done = False

    def visit(node: Piece) -> Piece:
        nonlocal done
        if not done and where(node):
            done = True
            return change(node)
        return replace(node, children=tuple(visit(child) for child in node.children))

    result = visit(piece)
    assert done, "the plan has no such piece"
    return result


def broken(plan: Plan, where: Callable[[Piece], bool], change: Callable[[Piece], Piece]) -> Plan:
    """The plan with one piece of its first sheet changed."""
    first = plan.sheets[0]
    return replace(plan, sheets=(replace(first, root=changed(first.root, where, change)), *plan.sheets[1:]))


def is_part(piece: Piece) -> bool:
    return piece.role is PieceRole.PART


def with_cut(change: Callable[[Cut], Cut], which: Purpose = Purpose.SIZE) -> Callable[[Piece], Piece]:
    """Change the first cut of this purpose."""

    def apply(piece: Piece) -> Piece:
        place = next(i for i, cut in enumerate(piece.cuts) if cut.purpose is which)
        cuts = list(piece.cuts)
        cuts[place] = change(cuts[place])
        return replace(piece, cuts=tuple(cuts))

    return apply


def has_cut(purpose: Purpose) -> Callable[[Piece], bool]:
    return lambda piece: any(cut.purpose is purpose for cut in piece.cuts)


SIZED = has_cut(Purpose.SIZE)

BREAKS: list[tuple[str, str, Callable[[Piece], bool], Callable[[Piece], Piece]]] = [
    ("a part a hair short", "size", is_part, lambda p: replace(p, length=p.length - F(1, 64))),
    ("a part moved over its neighbour", "overlap", is_part, lambda p: replace(p, x=p.x + F(1, 4))),
    (
        "a part turned though the grain is fixed",
        "grain",
        lambda p: p.item == "side",
        lambda p: replace(p, turned=True),
    ),
    ("a part nobody asked for", "count", is_part, lambda p: replace(p, item="ghost")),
    ("a part left on the floor", "count", is_part, lambda p: replace(p, role=PieceRole.WASTE, item=None)),
    ("waste bearing a part's name", "role", is_part, lambda p: replace(p, role=PieceRole.WASTE)),
    ("a part narrower than its strip", "cut-short", is_part, lambda p: replace(p, width=p.width - F(1, 8))),
    ("a part beyond the sheet", "outside", is_part, lambda p: replace(p, x=F(95))),
    ("a kerf not paid", "kerf", SIZED, with_cut(lambda c: replace(c, kerf=F(1, 16)))),
    ("an unknown saw", "kerf", SIZED, with_cut(lambda c: replace(c, tool="bread knife"))),
    ("a cut beside the line", "setting", SIZED, with_cut(lambda c: replace(c, at=c.at + F(1, 32)))),
    (
        "a setting that is not the size",
        "setting",
        SIZED,
        with_cut(lambda c: replace(c, setting=c.setting + 1)),
    ),
    (
        "a cut measured from the wrong edge",
        "setting",
        SIZED,
        with_cut(lambda c: replace(c, reference=Edge.FAR)),
    ),
    ("a cut off the piece", "outside", SIZED, with_cut(lambda c: replace(c, at=F(200)))),
    (
        "a trim that takes off too little",
        "setting",
        has_cut(Purpose.TRIM),
        with_cut(lambda c: replace(c, setting=F(1, 8)), Purpose.TRIM),
    ),
    (
        "no trim taken off",
        "trim",
        lambda p: has_cut(Purpose.TRIM)(p) and SIZED(p),
        lambda p: replace(p, cuts=tuple(c for c in p.cuts if c.purpose is not Purpose.TRIM)),
    ),
    ("a cut left out", "kerf", lambda p: len(p.children) > 2, lambda p: replace(p, cuts=p.cuts[:-1])),
    (
        "both ways in one series",
        "cut-short",
        lambda p: len(p.cuts) > 1,
        lambda p: replace(p, cuts=(replace(p.cuts[0], direction=other(p.cuts[0].direction)), *p.cuts[1:])),
    ),
    ("cut numbers that skip", "order", SIZED, with_cut(lambda c: replace(c, order=c.order + 1000))),
    (
        "a cut before its piece exists",
        "order",
        lambda p: p.role is PieceRole.STRIP and len(p.cuts) > 1,
        lambda p: replace(p, cuts=tuple(replace(c, order=0) for c in p.cuts)),
    ),
    (
        "a carrying cut at the table saw",
        "carried",
        SIZED,
        with_cut(lambda c: replace(c, purpose=Purpose.CARRY)),
    ),
    (
        "a sheet that is not its bin",
        "size",
        lambda p: p.role is PieceRole.SHEET,
        lambda p: replace(p, length=F(97)),
    ),
    (
        "a tree that begins with no sheet",
        "role",
        lambda p: p.role is PieceRole.SHEET,
        lambda p: replace(p, role=PieceRole.BLANK),
    ),
    ("children without a cut", "cut-short", lambda p: bool(p.cuts), lambda p: replace(p, cuts=())),
    ("a piece without size", "size", lambda p: not p.children, lambda p: replace(p, length=F(0))),
]


def other(direction: Direction) -> Direction:
    return Direction.RIP if direction is Direction.CROSSCUT else Direction.CROSSCUT


def test_a_sound_plan_passes() -> None:
    problem, plan = small_job_planned()
    assert verify(problem, plan) == ()
    assert sum(1 for _ in plan.parts()) == problem.parts


@pytest.mark.parametrize(("code", "where", "change"), [b[1:] for b in BREAKS], ids=[b[0] for b in BREAKS])
def test_every_rule_fires(
    code: str, where: Callable[[Piece], bool], change: Callable[[Piece], Piece]
) -> None:
    problem, plan = small_job_planned()
    assert code in codes(problem, broken(plan, where, change))


def test_parts_that_overlap_are_seen_whatever_the_tree_says() -> None:
    problem, plan = small_job_planned()
    first = plan.sheets[0]
    double = replace(
        plan, sheets=(SheetPlan(1, first.bin, replace(first.root, children=first.root.children * 2)),)
    )
    assert "overlap" in codes(problem, double)


def test_stock_bound_and_status() -> None:
    problem, plan = small_job_planned()
    one_only = replace(problem, bins=(replace(SHEET, count=1),))
    assert plan.figures.sheets > 1 and "stock" in codes(one_only, plan)
    assert "stock" in codes(problem, replace(plan, sheets=(replace(plan.sheets[0], bin="oak"),)))
    assert "stock" in codes(
        problem, replace(plan, sheets=(replace(plan.sheets[0], number=7), *plan.sheets[1:]))
    )
    assert "bound" in codes(problem, replace(plan, bound=plan.figures.money + 1))
    assert "bound" in codes(problem, replace(plan, bound_sheets=plan.figures.sheets + 1))
    assert "bound" in codes(problem, replace(plan, status=PlanStatus.OPTIMAL, bound=F(1)))
    assert "bound" in codes(problem, replace(plan, figures=replace(plan.figures, money=F(1))))
    assert "count" in codes(
        problem, replace(plan, status=PlanStatus.OPTIMAL, unplaced=(Unplaced("side", 1),))
    )


def test_limits_of_what_one_person_carries() -> None:
    problem, plan = small_job_planned()
    for limits in (Limits(max_length=F(60)), Limits(max_weight=F(50))):
        carried = replace(problem, hand_saw=HAND_SAW, limits=limits)
        assert codes(carried, plan) == {"carried"}


def test_stages_and_first_cuts() -> None:
    problem, plan = small_job_planned()
    assert codes(replace(problem, pattern=PatternKind(stages=1)), plan) == {"stages"}
    first = plan.sheets[0].root.cuts[0].direction
    wrong = FirstCut.ALONG if first is Direction.CROSSCUT else FirstCut.ACROSS
    assert codes(replace(problem, pattern=PatternKind(None, wrong)), plan) == {"first-cut"}


def leaf(x: F | int, y: F | int, length: F | int, width: F | int, item: str | None = None) -> Piece:
    return Piece(F(x), F(y), F(length), F(width), PieceRole.PART if item else PieceRole.WASTE, item)


def by_hand(clean_up: F) -> tuple[Problem, Plan]:
    """One sheet of 20 by 10, crosscut by hand at 9; a part of 8 by 10 in the left piece whose
    edge beside the hand cut is, or is not, cut again."""
    tool = replace(HAND_SAW, kerf=F(1), clean_up=clean_up)
    saw = replace(TABLE_SAW, kerf=F(1))
    problem = Problem((Item("part", F(9), F(10)),), (Bin("s", F(20), F(10), price=F(1)),), saw, tool)
    cut = Cut(1, tool.name, Direction.CROSSCUT, F(9), F(1), F(9), Edge.LEFT, Purpose.CARRY)
    root = Piece(
        F(0),
        F(0),
        F(20),
        F(10),
        PieceRole.SHEET,
        None,
        False,
        (cut,),
        (leaf(0, 0, 9, 10, "part"), leaf(10, 0, 10, 10)),
    )
    return problem, replace(solve(problem), sheets=(SheetPlan(1, "s", root),))


def test_a_hand_sawn_edge_is_cut_again() -> None:
    problem, plan = by_hand(F(0))
    assert codes(problem, plan) == set()
    problem, plan = by_hand(F(2))
    assert codes(problem, plan) == {"clean-up"}


def split_match() -> tuple[Problem, Plan]:
    """Two equal parts, one cut to its length, the other what is left of the sheet."""
    saw = Saw("saw", TABLE_SAW.kind, F(0))
    items = (Item("a", F(5), F(10), match="pair"), Item("b", F(5), F(10), match="pair"))
    problem = Problem(items, (Bin("s", F(10), F(10), price=F(1)),), saw)
    return problem, solve(problem)


def test_a_split_match_group_must_be_owned_up_to() -> None:
    problem, plan = split_match()
    silent = replace(plan, findings=())
    assert codes(problem, silent) == {"match-split"}
    assert codes(problem, plan) == set()


@settings(max_examples=40, deadline=None)
@given(problems(), st.data())
def test_no_mutation_of_a_position_or_size_goes_unseen(problem: Problem, data: st.DataObject) -> None:
    """Any change of any piece's place or size breaks a rule: nothing in the tree is free."""
    plan = solve(problem, MaxIterations(50))
    assert verify(problem, plan) == ()
    pieces = list(plan.sheets[0].root.walk())
    for _ in range(4):
        target = pieces[data.draw(st.integers(0, len(pieces) - 1))]
        name = data.draw(st.sampled_from(["x", "y", "length", "width"]))
        amount = data.draw(st.sampled_from([F(-1, 2), F(-1, 64), F(1, 64), F(3)]))
        assert verify(problem, _moved(plan, target, name, amount)) != (), (target, name, amount)


def _moved(plan: Plan, target: Piece, name: str, amount: F) -> Plan:
    return broken(
        plan,
        lambda piece: piece is target,
        lambda piece: replace(piece, **{name: getattr(piece, name) + amount}),
    )
