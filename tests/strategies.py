"""What hypothesis draws from, kept together for every layer's property tests."""

from fractions import Fraction

from hypothesis import strategies as st

from casewright.measure import Mark, Unit

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
