"""Small jobs against exhaustive search, written from the rules of guillotine cutting alone.

For every set of parts the smallest rectangles it can be cut from are built up from all ways to
part the set in two, a kerf between; a job's fewest sheets follow by trying every partition. It
works in true lengths and knows nothing of the planner's enlarged sizes.
"""

from __future__ import annotations

from fractions import Fraction as F
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.planner.engine import MaxIterations
from casewright.planner.plan import PlanStatus
from casewright.planner.problem import Bin, Item, Problem, Saw, SawKind, Trim
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify

Size = tuple[F, F]


def smallest(sizes: list[Size]) -> list[Size]:
    """Those sizes no other of them fits into."""
    kept: list[Size] = []
    for size in sorted(set(sizes)):
        if not any(other[0] <= size[0] and other[1] <= size[1] for other in kept):
            kept.append(size)
    return kept


def fewest_sheets(parts: tuple[tuple[F, F, bool], ...], usable: Size, kerf: F) -> int | None:
    """The fewest sheets, by exhaustion; None when some part fits no sheet."""
    everything = (1 << len(parts)) - 1

    @cache
    def rectangles(chosen: int) -> tuple[Size, ...]:
        if chosen & (chosen - 1) == 0:
            x, y, may_turn = parts[chosen.bit_length() - 1]
            return tuple(smallest([(x, y), (y, x)] if may_turn else [(x, y)]))
        found: list[Size] = []
        first = (chosen - 1) & chosen
        while first:
            if first > chosen ^ first:
                for ax, ay in rectangles(first):
                    for bx, by in rectangles(chosen ^ first):
                        found.append((ax + kerf + bx, max(ay, by)))
                        found.append((max(ax, bx), ay + kerf + by))
            first = (first - 1) & chosen
        return tuple(smallest(found))

    def fits(chosen: int) -> bool:
        return any(x <= usable[0] and y <= usable[1] for x, y in rectangles(chosen))

    @cache
    def least(chosen: int) -> int | None:
        if not chosen:
            return 0
        best: int | None = None
        low = chosen & -chosen
        sheet = chosen
        while sheet:
            if sheet & low and fits(sheet):
                rest = least(chosen ^ sheet)
                if rest is not None and (best is None or rest + 1 < best):
                    best = rest + 1
            sheet = (sheet - 1) & chosen
        return best

    return least(everything)


SIDES = st.integers(4, 40).map(lambda quarter: F(quarter, 4))


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(SIDES, SIDES, st.booleans()), min_size=1, max_size=7),
    st.sampled_from([F(0), F(1, 8), F(1, 2)]),
    st.sampled_from([F(0), F(1, 4)]),
)
def test_the_planner_finds_the_fewest_sheets_of_small_jobs(
    parts: list[tuple[F, F, bool]], kerf: F, trim: F
) -> None:
    sheet = Bin("sheet", F(12), F(9), price=F(1), trim=Trim.all_round(trim))
    items = tuple(Item(f"part {i}", x, y, 1, turn) for i, (x, y, turn) in enumerate(parts))
    problem = Problem(items, (sheet,), Saw("table saw", SawKind.TABLE_SAW, kerf))
    best = fewest_sheets(tuple(parts), (12 - 2 * trim, 9 - 2 * trim), kerf)
    plan = solve(problem, MaxIterations(3000))
    assert verify(problem, plan) == ()
    if best is None:
        assert plan.status is PlanStatus.IMPOSSIBLE
    else:
        assert plan.figures.sheets == best
        assert plan.bound_sheets <= best


def test_the_exhaustive_search_itself() -> None:
    """Two by two parts of 4 by 3 just fill 8 1/8 by 6 1/8 with a kerf of 1/8."""
    four = ((F(4), F(3), False),) * 4
    assert fewest_sheets(four, (F("8.125"), F("6.125")), F(1, 8)) == 1
    assert fewest_sheets(four, (F("8.125"), F("6")), F(1, 8)) == 2
    assert fewest_sheets(four, (F(3), F(3)), F(0)) is None
    # Five parts in a pinwheel fill 5 by 5, but no cut from edge to edge begins it.
    pinwheel = ((F(3), F(2), True),) * 4 + ((F(1), F(1), False),)
    assert fewest_sheets(pinwheel, (F(5), F(5)), F(0)) == 2
