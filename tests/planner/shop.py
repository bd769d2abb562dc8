"""Problems the planner's tests share: a small made-up job, and random ones."""

from __future__ import annotations

from fractions import Fraction as F

from hypothesis import strategies as st

from casewright.planner.problem import Bin, FirstCut, Item, Limits, PatternKind, Problem, Saw, SawKind, Trim

TABLE_SAW = Saw("table saw", SawKind.TABLE_SAW, F(1, 8))
HAND_SAW = Saw("hand saw", SawKind.HAND_SAW, F(3, 32), clean_up=F(1, 4))
SHEET = Bin("birch", F(96), F(48), price=F(60), trim=Trim.all_round(F(1, 4)), weight_per_area=F(70, 96 * 48))


def small_job(**changes: object) -> Problem:
    """Two cases' worth of parts on 8 by 4 ft sheets."""
    fields: dict[str, object] = {
        "items": (
            Item("side", F("34.5"), F("23.25"), 4, match="sides"),
            Item("bottom", F("28.5"), F("23.25"), 2, match="sides"),
            Item("shelf", F("28.375"), F("21.5"), 4, match="shelves"),
            Item("strip", F("28.5"), F(4), 4, may_turn=True),
        ),
        "bins": (SHEET,),
        "table_saw": TABLE_SAW,
    }
    return Problem(**(fields | changes))  # type: ignore[arg-type]


def lengths(low: int, high: int) -> st.SearchStrategy[F]:
    """Lengths in whole sixteenths or thirty-seconds between two whole lengths."""
    return st.integers(low * 32, high * 32).map(lambda n: F(n, 32))


@st.composite
def problems(draw: st.DrawFn, carry: bool = False) -> Problem:
    """Random jobs in which every part fits a sheet."""
    sides = st.tuples(lengths(3, 90), lengths(2, 44))
    drawn = draw(st.lists(st.tuples(sides, st.integers(1, 4), st.booleans()), min_size=1, max_size=8))
    items = tuple(
        Item(f"part {place}", size[0], size[1], count, may_turn)
        for place, (size, count, may_turn) in enumerate(drawn)
    )
    trim = Trim(*draw(st.tuples(*[st.sampled_from([F(0), F(1, 16), F(1, 4)])] * 4)))
    bins = [Bin("whole", F(96), F(48), price=F(60), trim=trim, weight_per_area=F(1, 64))]
    if draw(st.booleans()):
        bins.append(Bin("rack", F(60), F(30), count=1, price=F(5), offcut=True, weight_per_area=F(1, 64)))
    kerf = draw(st.sampled_from([F(0), F(3, 32), F(1, 8)]))
    kind = PatternKind(None, draw(st.sampled_from(FirstCut)))
    return Problem(
        items,
        tuple(bins),
        Saw("table saw", SawKind.TABLE_SAW, kerf),
        HAND_SAW if carry else None,
        Limits(F(45), F(64)) if carry else Limits(),
        kind,
    )
