"""Edits change what they name and nothing else: neither comments nor the maker's way of writing."""

from __future__ import annotations

import tomllib
from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.app.editing.text_edits import (
    AddEntry,
    DropEntry,
    Edit,
    MoveEntry,
    SetEntry,
    apply_edits,
    look_up,
)
from casewright.errors import JobError

TEXT = """\
# measured on Tuesday
job = "kitchen"

[materials.ply]
sheet = "birch"  # from the yard
readings = [0.705, "23/32"]

[[runs]]
name = "north"
opening = "120 1/2"
left_filler = { width = 2 }

[[runs.cases]]
mark = "B1" # the sink
width = 24

[[runs.cases.bays]]
fixed = [10]

[[runs.cases.bays]]
adjustable = 2

[[runs.cases]]
mark = "B2"
bays = [{ adjustable = 1 }]
"""
COMMENTS = ("# measured on Tuesday", "# from the yard", "# the sink")


def test_a_changed_width_leaves_every_other_line_alone() -> None:
    after = apply_edits(TEXT, [SetEntry(("runs", 0, "cases", 0, "width"), "27-3/8")])
    changed = [(a, b) for a, b in zip(TEXT.splitlines(), after.splitlines(), strict=True) if a != b]
    assert changed == [("width = 24", 'width = "27-3/8"')]


def test_tables_are_made_where_an_entry_needs_them_and_go_with_their_last_entry() -> None:
    path = ("runs", 0, "cases", 1, "construction", "toe")
    after = apply_edits(TEXT, [SetEntry(path, "none")])
    assert look_up(tomllib.loads(after), path) == "none"
    assert tomllib.loads(apply_edits(after, [SetEntry(path, None)])) == tomllib.loads(TEXT)


def test_a_case_is_added_moved_and_dropped() -> None:
    new = {"mark": "B3", "bays": [{"adjustable": 1}, {"fixed": [12]}]}
    cases = ("runs", 0, "cases")
    added = apply_edits(TEXT, [AddEntry(cases, new, 1)])
    assert [case["mark"] for case in tomllib.loads(added)["runs"][0]["cases"]] == ["B1", "B3", "B2"]
    moved = apply_edits(added, [MoveEntry((*cases, 1), 0)])
    assert tomllib.loads(moved)["runs"][0]["cases"][0] == new
    assert tomllib.loads(apply_edits(moved, [DropEntry((*cases, 0))])) == tomllib.loads(TEXT)


def test_a_text_that_is_no_toml_is_refused_with_its_line() -> None:
    with pytest.raises(JobError) as refused:
        apply_edits("job = 'k'\nwidth = 27 3/8\n", [SetEntry(("job",), "x")])
    assert refused.value.findings[0].line == 2


def test_dropping_what_is_not_there_says_so() -> None:
    with pytest.raises(KeyError, match=r"runs\.0\.cases\.9"):
        apply_edits(TEXT, [DropEntry(("runs", 0, "cases", 9))])


VALUES = st.one_of(st.text(max_size=12), st.integers(-99, 99), st.booleans(), st.lists(st.integers(0, 9)))
EDITS = st.one_of(
    st.builds(
        SetEntry,
        st.sampled_from(
            [
                ("job",),
                ("notes",),
                ("construction", "toe"),
                ("materials", "ply", "readings"),
                ("materials", "new", "name"),
                ("runs", 0, "opening"),
                ("runs", 0, "left_filler", "scribe"),
                ("runs", 0, "cases", 0, "made_of", "back"),
                ("runs", 0, "cases", 1, "width"),
                ("runs", 0, "cases", 1, "bays", 0, "adjustable"),
            ]
        ),
        st.none() | VALUES,
    ),
    st.builds(
        AddEntry,
        st.sampled_from(
            [("runs", 0, "cases"), ("runs", 0, "cases", 0, "bays"), ("runs", 0, "cases", 1, "bays")]
        ),
        st.dictionaries(st.sampled_from(["mark", "adjustable", "fixed"]), VALUES, max_size=2),
        st.none() | st.just(0),
    ),
    st.builds(
        DropEntry, st.sampled_from([("runs", 0, "cases", 0, "bays", 1), ("materials", "ply", "sheet")])
    ),
    st.builds(MoveEntry, st.just(("runs", 0, "cases", 0)), st.just(1)),
)


def plainly(values: dict[str, Any], edit: Edit) -> None:
    """The same edit on plain dicts and lists."""
    here: Any = values
    match edit:
        case SetEntry(path, value):
            trail = [values]
            for step in path[:-1]:
                if isinstance(step, str) and step not in here:
                    if value is None:
                        return
                    here[step] = {}
                here = here[step]
                trail.append(here)
            if value is not None:
                here[path[-1]] = deepcopy(value)
            elif path[-1] in here:
                del here[path[-1]]
                for table, step in zip(trail[-2::-1], path[-2::-1], strict=True):
                    if isinstance(step, str) and not table[step]:
                        del table[step]
                    else:
                        break
        case AddEntry(path, value, index):
            for step in path:
                here = here[step]
            here.insert(len(here) if index is None else index, deepcopy(value))
        case DropEntry(path):
            for step in path[:-1]:
                here = here[step]
            del here[path[-1]]
        case MoveEntry(path, index):
            for step in path[:-1]:
                here = here[step]
            here.insert(index, here.pop(path[-1]))


@settings(deadline=None)
@given(st.lists(EDITS, max_size=5))
def test_edits_mean_the_same_as_on_plain_values_and_keep_the_comments(edits: list[Edit]) -> None:
    values = tomllib.loads(TEXT)
    text = TEXT
    for edit in edits:
        try:
            plainly(values, edit)
        except (KeyError, IndexError, TypeError):
            return
        text = apply_edits(text, [edit])
    assert tomllib.loads(text) == values
    assert COMMENTS[0] in text


DOTTED = """\
job = "kitchen"
shop.workmanship = "careful" # on the bench
shop.table_saw.kerf = "1/8" # the thin blade
"""


def test_a_new_table_in_one_written_with_dotted_keys_keeps_the_comments() -> None:
    said = apply_edits(DOTTED, [SetEntry(("shop", "track_saw", "kerf"), 2)])
    assert set(DOTTED.splitlines()) < set(said.splitlines())
    assert look_up(tomllib.loads(said), ("shop", "track_saw", "kerf")) == 2


def test_an_edit_that_would_take_comments_away_is_refused() -> None:
    """Without its last entry a table of dotted keys is gone, and a rewrite would lose the comments."""
    edit = DropEntry(("shop", "table_saw", "kerf"))
    with pytest.raises(JobError) as refused:
        apply_edits(DOTTED, [edit])
    assert [finding.code for finding in refused.value.findings] == ["comments-in-the-way"]
    bare = DOTTED.replace(" # on the bench", "").replace(" # the thin blade", "")
    assert tomllib.loads(apply_edits(bare, [edit]))["shop"] == {"workmanship": "careful", "table_saw": {}}


def test_a_sign_that_starts_comments_may_stand_in_a_text() -> None:
    said = apply_edits('shop.table_saw.kerf = "# 1/8"\n', [DropEntry(("shop", "table_saw", "kerf"))])
    assert tomllib.loads(said) == {"shop": {"table_saw": {}}}
