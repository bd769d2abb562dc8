"""Affine forms behave as the functions they stand for."""

from __future__ import annotations

import pickle
from collections.abc import Callable
from fractions import Fraction as F
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.sizes.affine import NOTHING, Addend, Affine, size, total

NAMES = ("a", "b", "c")
numbers = st.fractions(-50, 50, max_denominator=64)
forms = st.builds(Affine, numbers, st.lists(st.tuples(st.sampled_from(NAMES), numbers), max_size=5))
places = st.fixed_dictionaries(dict.fromkeys(NAMES, numbers))


@given(forms, forms, numbers, places)
def test_arithmetic_is_that_of_the_values(one: Affine, other: Affine, k: F, at: dict[str, F]) -> None:
    a, b = one.value(at), other.value(at)
    assert (one + other).value(at) == a + b
    assert (one - other).value(at) == a - b
    assert (k * one).value(at) == (one * k).value(at) == k * a
    assert (one + k).value(at) == (k + one).value(at) == a + k
    assert (k - one).value(at) == k - a
    assert (-one).value(at) == -a
    if k:
        assert (one / k).value(at) == a / k


@given(forms, forms, places)
def test_substitution_is_composition(outer: Affine, inner: Affine, at: dict[str, F]) -> None:
    moved = {**at, "a": inner.value(at)}
    assert outer.substitute({"a": inner}).value(at) == outer.value(moved)


@given(forms, st.sampled_from(NAMES), places, numbers)
def test_the_derivative_is_the_exact_slope(form: Affine, name: str, at: dict[str, F], step: F) -> None:
    moved = {**at, name: at[name] + step}
    assert form.value(moved) - form.value(at) == form.coefficient(name) * step


@given(forms, forms)
def test_equal_forms_are_equal_functions_in_any_order(one: Affine, other: Affine) -> None:
    assert one + other == other + one
    assert hash(one + other) == hash(other + one)
    assert one - one == NOTHING
    assert pickle.loads(pickle.dumps(one)) == one


@given(st.lists(forms, max_size=6), places)
def test_a_total_is_the_sum(several: list[Affine], at: dict[str, F]) -> None:
    assert total(several).value(at) == sum((form.value(at) for form in several), F(0))


def test_cancelled_terms_are_forgotten() -> None:
    assert (size("a") + size("b") - size("a")).names == ("b",)


def test_a_form_does_not_change() -> None:
    with pytest.raises(AttributeError):
        size("a").constant = F(1)


def test_a_form_is_shown_as_it_is_written() -> None:
    assert repr(2 * size("a") - size("b") + F(1, 2)) == "Affine(1/2 + 2*a + -1*b)"
    assert repr(size("a")) == "Affine(1*a)"
    assert repr(NOTHING) == "Affine(0)"


@pytest.mark.parametrize(
    ("form", "single"),
    [
        (size("a"), True),
        (NOTHING, False),
        (Affine(1), False),
        (size("a") + 1, False),
        (2 * size("a"), False),
        (-size("a"), False),
        (size("a") + size("b"), False),
        (size("a") + 2 * size("b"), False),
    ],
)
def test_only_a_size_by_itself_has_a_name(form: Affine, single: bool) -> None:
    assert form.is_size is single
    if single:
        assert form.name == "a"
    else:
        with pytest.raises(ValueError, match="is not a single size"):
            _ = form.name


def test_what_is_no_number_is_refused() -> None:
    form: Any = size("a")
    sums: tuple[Callable[[], object], ...] = (
        lambda: form + "1",
        lambda: form - "1",
        lambda: form * "1",
        lambda: 1.5 + form,
        lambda: form * form,
    )
    for work in sums:
        with pytest.raises(TypeError):
            work()
    assert size("a") != "a"
    assert (0 * size("a")).names == ()


@given(forms, places)
def test_the_lines_of_a_sum_add_up_to_it_and_what_is_added_comes_first(
    form: Affine, at: dict[str, F]
) -> None:
    value = sum(
        (line.times * at.get(line.name, F(1)) * (1 if line.added else -1) for line in form.addends), F(0)
    )
    assert value == form.value(at)
    assert all(line.times >= 0 for line in form.addends)
    assert [line.added for line in form.addends] == sorted(
        (line.added for line in form.addends), reverse=True
    )
    assert (size("a") - 2 * size("b") + 3).addends == (
        Addend(True, F(1), "a"),
        Addend(True, F(3)),
        Addend(False, F(2), "b"),
    )
