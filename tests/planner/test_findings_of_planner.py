"""Every finding of a problem that cannot be planned, or of a plan to look at, and the nearest without it."""

from __future__ import annotations

import itertools
import json
from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest

from casewright.app.jobs.worked_job import open_job
from casewright.errors import SolverError
from casewright.findings import Finding, Weight
from casewright.planner import solve as door
from casewright.planner.effort import AboutSeconds
from casewright.planner.engine import MaxIterations
from casewright.planner.problem import (
    Bin,
    Direction,
    Goal,
    Item,
    Keep,
    Limits,
    OnePiece,
    PatternKind,
    Problem,
    Trim,
)
from casewright.planner.problem_faults import faults
from casewright.planner.problem_json import read_problem
from casewright.planner.solve import solve
from finding_rows import Provoke, Row, check, each, told
from job_texts import ALCOVE

from .shop import HAND_SAW, SHEET, TABLE_SAW, small_job

HAIR = F(1, 64)
LID = Item("lid", F(30), F(30))
DOOR = Item("door", F(30), F(20))
WORTH = (Goal.SHEET_MONEY, Goal.CUTS)


def of(**fields: Any) -> Provoke:
    """What is wrong with the small job once some of it is otherwise."""
    return lambda: faults(small_job(**fields))


def item(**fields: Any) -> Provoke:
    return of(items=(replace(DOOR, **fields),))


def bins(**fields: Any) -> Provoke:
    return of(bins=(replace(SHEET, **fields),))


def planned(problem: Problem) -> Provoke:
    """What a plan of it says of itself."""
    return lambda: solve(problem, MaxIterations(5)).findings


def one_sheet(*items: Item, length: int = 20, width: int = 10, kerf: F = F(0), **fields: Any) -> Problem:
    sheet = Bin("s", F(length), F(width), price=F(1), weight_per_area=F(1))
    return Problem(items, (sheet,), replace(TABLE_SAW, kerf=kerf, reach=fields.pop("reach", None)), **fields)


def read(text: str) -> Provoke:
    return lambda: told(lambda: read_problem(text))


ENTRY = {"name": "door", "length": 30, "width": 20}
PLAIN: dict[str, Any] = {"items": [ENTRY], "bins": [{"name": "sheet", "length": 96, "width": 48}]}


def said(**fields: Any) -> Provoke:
    """A problem in JSON with some fields otherwise."""
    return read(json.dumps(PLAIN | fields))


def entry(**fields: Any) -> Provoke:
    return said(items=[ENTRY | fields])


def without(name: str) -> Provoke:
    return said(items=[{key: value for key, value in ENTRY.items() if key != name}])


PAIR = [Item("one", F(10), F(5), match="pair"), Item("other", F(10), F(5), match="pair")]
ONE_PIECE = OnePiece(("one", "other"), Direction.RIP)


def planned_of_one_piece(*names: str, longer: F = F(0), stages: int | None = None) -> Provoke:
    """What is wrong with a problem in which these come of one piece; the other may be `longer`."""
    items = (PAIR[0], replace(PAIR[1], length=PAIR[1].length + longer))
    problem = one_sheet(*items, pattern=PatternKind(stages))
    return lambda: faults(replace(problem, one_piece=(OnePiece(names, Direction.RIP),)))


PROBLEMS = [
    Row("no-name", "items", "no name", "name of its own", item(name=" "), item(name="x")),
    Row(
        "same-name",
        "items.door",
        "'door'",
        "name of its own",
        of(items=(DOOR, DOOR)),
        of(items=(DOOR, replace(DOOR, name="lid"))),
    ),
    Row(
        "same-name", "bins.birch", "2 entries", "name of its own", of(bins=(SHEET, SHEET)), of(bins=(SHEET,))
    ),
    Row(
        "same-name",
        "hand_saw.name",
        "'table saw'",
        "each saw",
        of(hand_saw=replace(HAND_SAW, name="table saw")),
        of(hand_saw=HAND_SAW),
    ),
    Row("nothing-wanted", "items", "No parts", "one part", of(items=()), of(items=(DOOR,))),
    Row("no-sheets", "bins", "no sheet", "one sheet", of(bins=()), of()),
    Row("count", "items.door.count", "0 of them", "1 or more", item(count=0), item(count=1)),
    Row(
        "count",
        "items.door.count",
        "100001 of them",
        "split the job",
        item(count=100_001),
        item(count=100_000),
    ),
    Row(
        "count",
        "items",
        "200001 parts",
        "split the job",
        of(
            items=(
                replace(DOOR, count=100_000),
                replace(DOOR, name="lid", count=100_000),
                replace(DOOR, name="end"),
            )
        ),
        of(items=(replace(DOOR, count=100_000), replace(DOOR, name="lid", count=100_000))),
    ),
    Row("count", "bins.birch.count", "-1 of them", "0 or more", bins(count=-1), bins(count=1)),
    Row(
        "count",
        "bins.birch.count",
        "None of them",
        "Leave the count out",
        bins(count=0),
        bins(count=1),
        Weight.WARN,
    ),
    Row("size", "items.door.length", "It is 0", "above 0", item(length=F(0)), item(length=HAIR)),
    Row("size", "bins.birch.width", "It is -1/64", "above 0", bins(width=-HAIR), bins(width=HAIR)),
    Row("price", "bins.birch.price", "It is -1/64", "0 or more", bins(price=-HAIR), bins(price=F(0))),
    Row(
        "weight",
        "bins.birch.weight",
        "not above 0",
        "leave it out",
        bins(weight_per_area=F(0)),
        bins(weight_per_area=HAIR),
    ),
    Row(
        "trim",
        "bins.birch.trim.far",
        "It is -1/64",
        "0 or more",
        bins(trim=Trim(far=-HAIR)),
        bins(trim=Trim(far=F(0))),
    ),
    Row(
        "trim",
        "bins.birch.trim",
        "96 by 48",
        "trim and its unit",
        of(items=(LID,), bins=(replace(SHEET, trim=Trim.all_round(F(24))),)),
        of(items=(LID,), bins=(replace(SHEET, trim=Trim.all_round(F(24) - HAIR)),)),
    ),
    Row(
        "trim",
        "bins.birch.trim",
        "20 1/64 is wider than the smallest part, 20",
        "its unit",
        of(items=(DOOR,), bins=(replace(SHEET, trim=Trim(left=F(20) + HAIR)),)),
        of(items=(DOOR,), bins=(replace(SHEET, trim=Trim(left=F(20))),)),
        Weight.WARN,
    ),
    Row("tool", "kerf", "no table saw", "right saw", of(table_saw=HAND_SAW), of()),
    Row(
        "tool",
        "hand_saw",
        "no hand saw",
        "right saw",
        of(hand_saw=replace(TABLE_SAW, name="x")),
        of(hand_saw=HAND_SAW),
    ),
    Row(
        "kerf",
        "kerf",
        "It is -1/64",
        "0 or more",
        of(table_saw=replace(TABLE_SAW, kerf=-HAIR)),
        of(table_saw=replace(TABLE_SAW, kerf=F(0))),
    ),
    Row(
        "kerf",
        "kerf",
        "20 1/64 is wider than the part 'door', 30 by 20",
        "its unit",
        of(items=(DOOR,), table_saw=replace(TABLE_SAW, kerf=F(20) + HAIR)),
        of(items=(DOOR,), table_saw=replace(TABLE_SAW, kerf=F(20))),
    ),
    Row(
        "kerf",
        "hand_saw.kerf",
        "20 1/64 is wider",
        "its unit",
        of(items=(DOOR,), hand_saw=replace(HAND_SAW, kerf=F(20) + HAIR)),
        of(items=(DOOR,), hand_saw=replace(HAND_SAW, kerf=F(20))),
    ),
    Row(
        "clean-up",
        "hand_saw.clean_up",
        "It is -1/64",
        "0 or more",
        of(hand_saw=replace(HAND_SAW, clean_up=-HAIR)),
        of(hand_saw=replace(HAND_SAW, clean_up=F(0))),
    ),
    Row(
        "clean-up",
        "hand_saw.clean_up",
        "It is 7/64",
        "at least 1/8",
        of(hand_saw=replace(HAND_SAW, clean_up=F(1, 8) - HAIR)),
        of(hand_saw=replace(HAND_SAW, clean_up=F(1, 8))),
    ),
    Row(
        "limit",
        "limits.weight",
        "It is 0",
        "above 0",
        of(limits=Limits(max_weight=F(0))),
        of(limits=Limits(max_weight=HAIR)),
    ),
    Row(
        "limit",
        "limits.length",
        "It is 0",
        "above 0",
        of(limits=Limits(max_length=F(0))),
        of(limits=Limits(max_length=HAIR)),
    ),
    Row("goals", "goals", "No goal", "sheet-money", of(goals=()), of(goals=(Goal.SHEET_MONEY,))),
    Row("goals", "goals", "cuts is named 2 times", "once", of(goals=(*WORTH, Goal.CUTS)), of(goals=WORTH)),
    Row(
        "stages",
        "stages",
        "It is 0",
        "1 or more",
        of(pattern=PatternKind(stages=0)),
        of(pattern=PatternKind(stages=1)),
    ),
    Row("keep", "keep", "4 by 3", "shorter side first", of(keep=Keep(F(4), F(3))), of(keep=Keep(F(4), F(4)))),
    Row("keep", "keep", "-1 by 3", "0 or more", of(keep=Keep(F(-1), F(3))), of(keep=Keep(F(0), F(3)))),
    Row(
        "grain", "items.door", "30 by 60", "Let it turn", item(width=F(60)), item(width=F(60), may_turn=True)
    ),
    Row(
        "too-large",
        "items.door",
        "1/64 too long for 'birch', of which 95 1/2 by 47 1/2",
        "larger sheet",
        item(length=F(191, 2) + HAIR),
        item(length=F(191, 2)),
    ),
    Row(
        "too-large",
        "items.door",
        "1/64 too long and 1/64 too wide",
        "larger sheet",
        item(length=F(191, 2) + HAIR, width=F(95, 2) + HAIR),
        item(length=F(191, 2), width=F(95, 2)),
    ),
]

READ = [
    Row("json", "the file", "not JSON", "", read("{"), read("{}")),
    Row("json", "the file", "nested too deeply", "", read("[" * 100_000), read("[]")),
    Row("field", "the problem", "[] is no object", "bins, items", read("[]"), said()),
    Row("field", "unit", '"yard"', "“in” or “mm”", said(unit="yard"), said(unit="mm")),
    Row("field", "goals", '"cuts" is no list', "List goals", said(goals="cuts"), said(goals=["cuts"])),
    Row("field", "goals[0]", '"speed"', "cuts", said(goals=["speed"]), said(goals=["cuts"])),
    Row("field", "items", "{} is no list", "one entry", said(items={}), said()),
    Row("field", "items[0].name", "[] is no name", "text", entry(name=[]), entry(name=7)),
    Row("field", "items[0].length", "true is no number", "number", entry(length=True), entry(length=30.5)),
    Row("field", "items[0].length", "inf", "number", entry(length=float("inf")), entry(length=30)),
    Row(
        "field",
        "items[0].length",
        "out of all measure",
        "Check",
        entry(length=10**12 + 1),
        entry(length=10**12),
    ),
    Row("field", "items[0].length", "out of all measure", "Check", entry(length=9e-10), entry(length=1e-9)),
    Row(
        "field",
        "items[0].count",
        "1.5 is no whole number",
        "whole number",
        entry(count=1.5),
        entry(count=2.0),
    ),
    Row("field", "items[0].may_turn", '"yes"', "true or false", entry(may_turn="yes"), entry(may_turn=False)),
    Row(
        "unknown-field",
        "items[0].colour",
        "no such field",
        "may_turn",
        entry(colour="red"),
        entry(match="red"),
    ),
    Row("missing-field", "items[0].width", "missing", "Give", without("width"), said()),
    Row("length", "items[0].length", "thirty", "", entry(length="thirty"), entry(length="30 1/2")),
]

PLANS = [
    Row(
        "limit-bent",
        "sheet 1",
        "door",
        "Two lift it",
        planned(
            one_sheet(
                Item("door", F(19), F(10)),
                hand_saw=replace(HAND_SAW, kerf=F(0), clean_up=F(0)),
                limits=Limits(max_length=F(19) - HAIR),
            )
        ),
        planned(
            one_sheet(
                Item("door", F(19), F(10)),
                hand_saw=replace(HAND_SAW, kerf=F(0), clean_up=F(0)),
                limits=Limits(max_length=F(19)),
            )
        ),
        Weight.WARN,
    ),
    Row(
        "fence-reach",
        "sheet 1",
        "rip at 9 is beyond the fence, which reaches 8 63/64",
        "Turn the piece around and set the fence to 1 from its far edge, or rip it by hand",
        planned(one_sheet(Item("door", F(20), F(9)), reach=F(9) - HAIR)),
        planned(one_sheet(Item("door", F(20), F(9)), reach=F(9))),
        Weight.WARN,
    ),
    Row(  # nor is what lies beyond the cut within reach
        "fence-reach",
        "sheet 1",
        "rip at 9 is beyond",
        "Rip it by hand along a straightedge",
        planned(one_sheet(Item("door", F(20), F(9)), width=20, reach=F(8))),
        planned(one_sheet(Item("door", F(20), F(9)), width=20, reach=F(9))),
        Weight.WARN,
    ),
    Row(
        "match-split",
        "pair",
        "width",
        "together",
        planned(one_sheet(*PAIR, length=10)),
        planned(one_sheet(*PAIR, length=10, width=11)),
        Weight.WARN,
    ),
    Row(
        "grain-broken",
        "one + other",
        "The grain does not run on between one and other: one piece for all its neighbours fits no sheet",
        "use a larger sheet",
        planned(one_sheet(*PAIR, length=10, width=10, kerf=HAIR, one_piece=(ONE_PIECE,))),
        planned(one_sheet(*PAIR, length=10, width=11, kerf=HAIR, one_piece=(ONE_PIECE,))),
        Weight.NOTE,
    ),
    Row(
        "one-piece",
        "one_piece.one + door",
        "one that is not wanted",
        "equal across",
        planned_of_one_piece("one", "door"),
        planned_of_one_piece("one", "other"),
    ),
    Row(
        "one-piece",
        "one_piece.one + one",
        "of another piece too",
        "single parts",
        planned_of_one_piece("one", "one"),
        planned_of_one_piece("one", "other"),
    ),
    Row(
        "one-piece",
        "one_piece.one + other",
        "lengths of its parts are not the same",
        "equal across",
        planned_of_one_piece("one", "other", longer=F(1)),
        planned_of_one_piece("one", "other"),
    ),
    Row(
        "one-piece",
        "one_piece.one + other",
        "where stages are limited",
        "single parts",
        planned_of_one_piece("one", "other", stages=3),
        planned_of_one_piece("one", "other"),
    ),
]


@each(PROBLEMS)
def test_each_is_said_of_the_wrong_problem_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


@each(READ)
def test_each_is_said_of_the_wrong_json_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


def test_a_field_that_is_null_counts_as_absent() -> None:
    assert said(unit=None, kerf=None, hand_saw=None, goals=None)() == entry(match=None, count=None)() == ()


def test_a_search_that_stops_early_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object) -> None:
        raise SolverError("HiGHS", "choosing cutting patterns", "kError")

    def searched(broken: bool) -> Provoke:
        def findings() -> tuple[Finding, ...]:
            with monkeypatch.context() as patch:
                if broken:
                    patch.setattr(door, "refine", fails)
                return solve(small_job(), MaxIterations(5)).findings

        return findings

    names = "HiGHS failed while choosing cutting patterns: kError"
    wrong, near = searched(True), searched(False)
    check(Row("search-stopped", "plan", names, "The plan can be cut as it is", wrong, near, Weight.WARN))


def test_a_search_that_was_too_slow_says_so() -> None:
    def searched(step: float) -> Provoke:
        return lambda: solve(small_job(), AboutSeconds(0.1, lambda: next(ticks) * step)).findings

    ticks = itertools.count()
    row = Row(
        "time-ceiling",
        "plan",
        "too busy to finish the search",
        "planning again may give another one",
        searched(1.0),
        searched(0.0),
        Weight.NOTE,
    )
    check(row)


def test_a_search_that_was_stopped_says_so() -> None:
    def searched(stopped: bool) -> Provoke:
        return lambda: open_job(ALCOVE).planned(0.05, stopped=lambda: stopped).plans["ply"].findings

    row = Row(
        "stopped-early",
        "plan",
        "stopped before it was done",
        "plan again",
        searched(True),
        searched(False),
        Weight.NOTE,
    )
    check(row)


@each(PLANS)
def test_each_plan_owns_up_to_what_it_asks_and_to_nothing_else(row: Row) -> None:
    check(row)
