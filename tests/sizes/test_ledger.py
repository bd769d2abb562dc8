"""The ledger works out what it must and no more, and can say why."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.errors import LedgerError
from casewright.sizes.affine import Affine, size
from casewright.sizes.ledger import Book, Greatest, HowMany, Least, Share, Sizes, WholeSteps, explain


def back_of_a_case() -> Sizes:
    book = Book()
    opening = book.given(size("opening"), F(34), "opening")
    groove = book.given(size("groove"), F(1, 4), "groove depth")
    play = book.given(size("play"), F(1, 16), "play")
    other = book.given(size("other"), F(9), "another case")
    book.form(size("twice"), other * 2, "twice another case")
    room = book.form(size("room"), opening + 2 * groove, "room between the groove floors")
    book.form(size("back"), room - play, "back width")
    return book.close()


def test_a_size_says_where_it_comes_from() -> None:
    sizes = back_of_a_case()
    shown = explain(sizes, "room").sentence(str)
    assert shown == "room between the groove floors 69/2 = opening 34 + 2 x groove depth 1/4"
    assert explain(sizes, "back").sentence(str).endswith("room between the groove floors 69/2 - play 1/16")
    assert explain(sizes, "opening").sentence(str) == "opening 34 (given)"


def test_each_way_of_working_out_has_its_sentence() -> None:
    book = Book()
    room, step = book.given(size("room"), F(23), "room"), book.given(size("step"), F(4), "step")
    book.form(size("less"), room - 2 * step - 1, "what is left")
    book.form(size("nothing"), Affine(0), "nothing")
    book.enter(size("most"), Greatest((room, step)), "most")
    book.enter(size("count"), HowMany(room, step), "holes")
    book.enter(size("rise"), WholeSteps(room, step), "rise")
    book.enter(size("share"), Share(room, (F(1), F(3)), 0, F(1, 32)), "share")
    sizes = book.close()
    assert {name: explain(sizes, name).sentence(str) for name in sizes.ledger} == {
        "room": "room 23 (given)",
        "step": "step 4 (given)",
        "less": "what is left 14 = room 23 - 1 - 2 x step 4",
        "nothing": "nothing 0 = 0",
        "most": "most 23 = greatest of room 23 + step 4",
        "count": "holes 5 = count of room 23 + step 4",
        "rise": "rise 20 = whole steps of room 23 + step 4",
        "share": "share 23/4 = share of room 23",
    }
    assert explain(sizes, "less").constant == -1


def test_expansion_reaches_what_comes_from_outside() -> None:
    sizes = back_of_a_case()
    form = sizes.ledger.expand("back")
    assert form == size("opening") + 2 * size("groove") - size("play")
    assert form.coefficient("groove") == 2


def test_only_what_depends_on_a_fact_is_worked_out_again() -> None:
    sizes = back_of_a_case()
    changed = sizes.given({"groove": F(7, 32)})
    assert changed.worked == 3
    assert changed.of("back") == F(34) + F(7, 16) - F(1, 16)
    assert changed.of("twice") == sizes.of("twice")


def test_a_measured_size_replaces_what_defined_it() -> None:
    sizes = back_of_a_case().given({"room": F(137, 4)})
    assert sizes.of("back") == F(137, 4) - F(1, 16)
    later = sizes.given({"opening": F(30)})
    assert later.worked == 1
    assert later.of("back") == sizes.of("back")


def test_a_measured_size_stays_measured_after_others_have_been_changed() -> None:
    """What uses what is worked out at the first change and kept: the measured room is still in that list."""
    changed = back_of_a_case().given({"play": F(1, 8)})
    measured = changed.given({"room": F(137, 4)})
    later = measured.given({"opening": F(30)})
    assert later.worked == 1
    assert later.of("room") == F(137, 4)


@given(
    st.dictionaries(st.sampled_from(["opening", "groove", "play", "other"]), st.fractions(0, 99), min_size=1)
)
def test_putting_facts_in_one_by_one_or_at_once_is_the_same(facts: dict[str, F]) -> None:
    at_once = back_of_a_case().given(facts)
    one_by_one = back_of_a_case()
    for name, value in facts.items():
        one_by_one = one_by_one.given({name: value})
    assert dict(at_once.values) == dict(one_by_one.values)


def test_names_are_defined_once_and_before_use() -> None:
    book = Book()
    book.given(size("a"), 1, "a")
    with pytest.raises(LedgerError, match="a is defined twice"):
        book.given(size("a"), 2, "a")
    with pytest.raises(LedgerError, match="b needs missing"):
        book.form(size("b"), size("missing"), "b")
    with pytest.raises(LedgerError, match="not a size of this job"):
        back_of_a_case().given({"nonsense": F(1)})


def test_steps_that_are_not_affine_stay_visible() -> None:
    book = Book()
    room, step = book.given(size("room"), F(23), "room"), book.given(size("step"), F(4), "step")
    book.enter(size("count"), HowMany(room, step), "holes")
    book.enter(size("rise"), WholeSteps(room, step), "rise")
    most = book.enter(size("most"), Greatest((room, step + 30)), "most")
    book.enter(size("least"), Least((room, step + 30)), "least")
    book.form(size("more"), most + 1, "more")
    sizes = book.close()
    assert [sizes.of(name) for name in ("count", "rise", "most", "least")] == [5, 20, 34, 23]
    assert sizes.ledger.expand("more") == size("most") + 1
    assert explain(sizes, "most").how == "greatest"
    assert sizes.given({"room": F(50)}).of("more") == 51
    assert sizes.given({"step": F(0)}).of("count") == 0


@given(
    st.fractions(10, 200, max_denominator=127),
    st.lists(st.integers(1, 5).map(F), min_size=1, max_size=8),
)
def test_shares_keep_the_whole(whole: F, weights: list[F]) -> None:
    book = Book()
    room = book.given(size("whole"), whole, "whole")
    parts = [
        book.enter(size(f"part{n}"), Share(room, tuple(weights), n, F(1, 32)), f"part {n}")
        for n in range(len(weights))
    ]
    sizes = book.close()
    values = [sizes.of(part) for part in parts]
    assert sum(values) == whole
    for value, weight in zip(values, weights, strict=True):
        assert abs(value - whole * weight / sum(weights)) < F(1, 16)
    assert all((value * 32).denominator == 1 for value in values[:-1])


@given(
    st.fractions(10, 200, max_denominator=127),
    st.lists(st.integers(1, 5).map(F), min_size=1, max_size=8),
)
def test_exact_shares_keep_the_whole_and_their_ratio(whole: F, weights: list[F]) -> None:
    book = Book()
    room = book.given(size("whole"), whole, "whole")
    for n in range(len(weights)):
        book.enter(size(f"part{n}"), Share(room, tuple(weights), n), f"part {n}")
    sizes = book.close()
    assert [sizes.of(f"part{n}") for n in range(len(weights))] == [whole * w / sum(weights) for w in weights]


def test_a_constant_form_needs_nothing() -> None:
    book = Book()
    book.form(size("fixed"), Affine(3), "fixed")
    assert book.close().of("fixed") == 3
