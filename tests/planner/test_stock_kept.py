"""Room for cuts by hand never makes one sheet of a limited stock into two."""

from fractions import Fraction as F

from casewright.planner.engine import MaxIterations
from casewright.planner.problem import Bin, Item, Limits, Problem, Saw, SawKind, Trim
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify


def test_the_only_sheet_is_used_once_though_not_everything_comes_out_of_it() -> None:
    problem = Problem(
        items=(
            Item("strip", F(60), F(4)),
            Item("one", F(80), F(23)),
            Item("other", F(80), F(23)),
        ),
        bins=(Bin("last sheet", F(96), F(48), count=1, price=F(80), trim=Trim.all_round(F(1, 4))),),
        table_saw=Saw("table saw", SawKind.TABLE_SAW, F(1, 8)),
        hand_saw=Saw("hand saw", SawKind.HAND_SAW, F(1, 8), clean_up=F(1, 4)),
        limits=Limits(max_length=F(72)),
    )
    for work in (0, 1, 50, 400):
        plan = solve(problem, MaxIterations(work))
        assert [finding for finding in verify(problem, plan) if finding.code == "stock"] == []
        assert len(plan.sheets) == 1
