"""One rule for what a name that names nothing may have been meant for."""

from __future__ import annotations

import ast

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.lengths.did_you_mean import LONGEST, did_you_mean
from test_architecture import SOURCE, modules

PARTS = ["B1-L", "B1-R", "B1-BOTTOM", "B2-L", "W1-SHELF"]


@pytest.mark.parametrize(
    ("name", "known", "said"),
    [
        ("hieght", ["width", "height", "depth"], "Did you mean “height”?"),
        ("b1-bottom", PARTS, "Did you mean “B1-BOTTOM”?"),
        ("W1-SHELV", PARTS, "Did you mean “W1-SHELF”?"),
        ("abcd", ["abcx", "abxd", "axcd", "xbcd"], "Did you mean “xbcd”, “axcd” or “abxd”?"),
        ("Q", ["in", "mm"], "Write “in” or “mm”."),
        ("Q", ["panel"], "Write “panel”."),
        ("Q", [], "There are none."),
        ("Q", [f"part {n}" for n in range(31)], "Write one like “part 0”, “part 1”, “part 2”; there are 31."),
    ],
)
def test_the_nearest_names_or_all_of_them(name: str, known: list[str], said: str) -> None:
    assert did_you_mean(name, known) == said


@given(st.text(max_size=30), st.lists(st.text(min_size=1, max_size=30), max_size=20))
def test_any_name_gets_one_whole_sentence(name: str, known: list[str]) -> None:
    said = did_you_mean(name, known)
    assert said[0].isupper() and said[-1] in ".?"


@given(st.sampled_from(PARTS))
def test_a_known_name_in_small_letters_is_found_first(name: str) -> None:
    assert did_you_mean(name.lower(), PARTS).startswith(f"Did you mean “{name}”")


def test_thirty_names_are_listed_and_of_more_the_first_few() -> None:
    names = [f"N{number}" for number in range(31)]
    assert did_you_mean("quite other", names[:30]).count("“") == 30
    assert did_you_mean("quite other", names) == "Write one like “N0”, “N1”, “N2”; there are 31."


def test_only_the_beginning_of_a_very_long_name_counts() -> None:
    known = ["x" * LONGEST]
    assert did_you_mean("x" * 1_000_000, known) == f"Did you mean “{known[0]}”?"


def test_nothing_else_in_the_program_looks_for_close_names() -> None:
    asks = [
        path.name
        for path in modules()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom)
        and node.module == "difflib"
        and any(alias.name == "get_close_matches" for alias in node.names)
    ]
    assert asks == ["did_you_mean.py"] and SOURCE.exists()
