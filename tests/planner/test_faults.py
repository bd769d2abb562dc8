"""Bad problems: every fault at once, each with its place, its value and what would mend it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.errors import PlanError
from casewright.findings import Weight
from casewright.planner.problem import Bin, Goal, Item, Keep, Limits, PatternKind, Problem, Saw, SawKind, Trim
from casewright.planner.problem_faults import faults
from casewright.planner.solve import solve

from .shop import HAND_SAW, SHEET, TABLE_SAW, small_job


def found(problem: Problem) -> dict[str, str]:
    """Code to text of every finding."""
    return {finding.code: f"{finding.place}: {finding.text} {finding.fix}" for finding in faults(problem)}


def test_a_sound_problem_has_none() -> None:
    assert faults(small_job()) == ()


def test_a_part_too_large_says_by_how_much_and_that_turning_does_not_help() -> None:
    text = found(small_job(items=(Item("top", F(97), F(20), may_turn=True),)))["too-large"]
    assert "items.top" in text and "1 1/2 too long" in text and "turning it would not help" in text
    both = found(small_job(items=(Item("top", F(100), F(50)),)))["too-large"]
    assert "4 1/2 too long and 2 1/2 too wide" in both


def test_a_part_that_only_its_grain_keeps_out_says_that_turning_would_fit() -> None:
    items = (Item("end", F(30), F(60)),)
    assert "turned across the grain it would fit" in found(small_job(items=items))["grain"]
    assert found(small_job(items=(replace(items[0], may_turn=True),))) == {}


def test_a_kerf_wider_than_a_part_is_refused_and_a_wide_trim_is_doubted() -> None:
    edging = (Item("edging", F(30), F(1, 4)),)
    wide = Saw("table saw", SawKind.TABLE_SAW, F(3, 8))
    assert "3/8 is wider than the part 'edging'" in found(small_job(items=edging, table_saw=wide))["kerf"]
    trimmed = replace(SHEET, trim=Trim.all_round(F(1, 2)))
    (doubt,) = faults(small_job(items=edging, bins=(trimmed,)))
    assert doubt.code == "trim" and doubt.weight is Weight.WARN


BAD = [
    ("nothing-wanted", {"items": ()}, "No parts"),
    ("no-sheets", {"bins": ()}, "no sheet"),
    ("count", {"items": (Item("a", F(1), F(1), 0),)}, "items.a.count: 0 of them"),
    ("count", {"items": (Item("a", F(1), F(1), 10**5 + 1),)}, "items.a.count: 100001 of them"),
    ("count", {"bins": (replace(SHEET, count=-1),)}, "-1 of them"),
    ("same-name", {"items": (Item("a", F(1), F(1)), Item("a", F(2), F(1)))}, "named 'a'"),
    ("same-name", {"hand_saw": replace(HAND_SAW, name="table saw")}, "Both saws"),
    ("no-name", {"items": (Item(" ", F(1), F(1)),)}, "no name"),
    ("size", {"items": (Item("a", F(-3, 4), F(1)),)}, "It is -3/4"),
    ("size", {"bins": (Bin("s", F(0), F(1)),)}, "bins.s.length"),
    ("price", {"bins": (replace(SHEET, price=F(-1)),)}, "It is -1"),
    ("weight", {"bins": (replace(SHEET, weight_per_area=F(0)),)}, "not above 0"),
    ("trim", {"bins": (replace(SHEET, trim=Trim(left=F(-1))),)}, "trim.left: It is -1"),
    ("trim", {"bins": (replace(SHEET, trim=Trim.all_round(F(24))),)}, "leave nothing"),
    ("kerf", {"table_saw": replace(TABLE_SAW, kerf=F(-1, 8))}, "It is -1/8"),
    ("tool", {"table_saw": HAND_SAW}, "no table saw"),
    ("clean-up", {"hand_saw": replace(HAND_SAW, clean_up=F(-1))}, "It is -1"),
    ("clean-up", {"hand_saw": replace(HAND_SAW, clean_up=F(1, 16))}, "less than the kerf"),
    ("limit", {"limits": Limits(max_weight=F(0))}, "limits.weight"),
    ("goals", {"goals": ()}, "No goal"),
    ("goals", {"goals": (Goal.CUTS, Goal.CUTS)}, "named 2 times"),
    ("stages", {"pattern": PatternKind(stages=0)}, "It is 0"),
    ("keep", {"keep": Keep(F(4), F(3))}, "shorter side first"),
]


@pytest.mark.parametrize(("code", "change", "said"), BAD, ids=[f"{b[0]} {b[2]}" for b in BAD])
def test_each_fault_is_one_clear_refusal(code: str, change: dict[str, object], said: str) -> None:
    problem = small_job(**change)
    assert said in found(problem)[code]
    with pytest.raises(PlanError) as caught:
        solve(problem)
    assert code in {finding.code for finding in caught.value.findings}
    assert all(finding.fix for finding in caught.value.findings)


def test_all_faults_come_together() -> None:
    problem = small_job(items=(Item("a", F(0), F(1), 0),), goals=())
    assert set(found(problem)) == {"size", "count", "goals"}
