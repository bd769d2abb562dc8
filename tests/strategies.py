"""What hypothesis draws from, kept together for every layer's property tests."""

from fractions import Fraction

from hypothesis import strategies as st

from casewright.casework.job import (
    BackKind,
    Bay,
    BottomJoint,
    CaseSpec,
    Construction,
    ShelfJoint,
    ToeKind,
    TopKind,
)
from casewright.lengths.length import Mark, Unit
from samples import spec

units = st.sampled_from(Unit)
marks = st.sampled_from(Mark)


def on_mark(mark: Mark, longest: int = 400) -> st.SearchStrategy[Fraction]:
    """Lengths on the rule's marks, either side of nothing, up to `longest` inches."""
    steps = int(longest / mark.step)
    return st.integers(-steps, steps).map(lambda count: count * mark.step)


def lengths(least: int = -400, most: int = 400) -> st.SearchStrategy[Fraction]:
    """Exact lengths on and off the marks of any rule, in inches."""
    return st.fractions(least, most, max_denominator=25_400)


# Text close enough to a length to get past the door, and text that is nothing like one.
_SCRAPS = (
    *("1", "23", "0", "1/2", "5/4", "3/0", "½", "¹/₂", ".5", "-", "–", " ", "/", "'", '"', "″"),
    *("mm", "cm", "m", "in", "ft.", "foot", "yd", ",", "nan", "1e9", "٣", "²"),
)
near_lengths = st.one_of(
    st.text(alphabet="0123456789 -/.,'\"½¾⅜⁄′″mcinft~+x\u2009", max_size=14),
    st.lists(st.sampled_from(_SCRAPS), max_size=7).map("".join),
)
any_text = st.one_of(near_lengths, st.text(max_size=80))

constructions = st.builds(
    Construction,
    bottom=st.sampled_from(BottomJoint),
    top=st.sampled_from(TopKind),
    back=st.sampled_from(BackKind),
    shelf=st.sampled_from(ShelfJoint),
    toe=st.sampled_from(ToeKind),
    strips=st.integers(0, 3),
    dado_play=st.sampled_from([Fraction(0), Fraction(1, 64)]),
    back_play=st.sampled_from([Fraction(0), Fraction(1, 16), Fraction(1, 10)]),
    dado_depth=st.fractions(Fraction(1, 8), Fraction(11, 32), max_denominator=64),
    rabbet_depth=st.fractions(Fraction(1, 8), Fraction(1, 2), max_denominator=64),
    groove_depth=st.fractions(Fraction(1, 8), Fraction(11, 32), max_denominator=64),
    groove_play=st.sampled_from([Fraction(0), Fraction(1, 64), Fraction(1, 32)]),
    bottom_up=st.sampled_from([Fraction(0), Fraction(3, 4), Fraction(2)]),
    top_down=st.sampled_from([Fraction(0), Fraction(3, 4), Fraction(2)]),
    pin_first=st.sampled_from([Fraction(6), Fraction(3)]),
)

bays = st.builds(
    Bay,
    # Fixed shelves low enough to pass under any strip, and high enough for shelves on pins below.
    fixed=st.lists(st.fractions(Fraction(9), Fraction(11), max_denominator=32), max_size=1).map(tuple),
    adjustable=st.integers(0, 2),
)


def case_specs(mark: str = "B1", width: Fraction | None = None) -> st.SearchStrategy[CaseSpec]:
    """One case that can be built, in any construction, with one to three bays."""
    return st.builds(
        lambda construction, inside, wide, high, deep: spec(
            mark,
            construction=construction,
            width=width or wide,
            height=high,
            depth=deep,
            bays=tuple(inside),
            chosen=frozenset(vars(construction)),
        ),
        constructions,
        st.lists(bays, min_size=1, max_size=3),
        st.fractions(Fraction(24), Fraction(48), max_denominator=32),
        st.fractions(Fraction(45), Fraction(96), max_denominator=32),
        st.fractions(Fraction(10), Fraction(26), max_denominator=32),
    )
