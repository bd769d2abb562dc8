"""An entry is followed through others' changes, and never taken for its neighbour."""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.app.editing import followed
from casewright.app.editing.followed import follow_edit, follow_path
from casewright.app.editing.text_edits import AddEntry, DropEntry, MoveEntry, SetEntry, look_up

Values = dict[str, Any]


def job(*marks: str) -> Values:
    """One run whose cases each carry a secret that says which they are."""
    cases = [
        {"mark": mark, "secret": number, "bays": [{"w": 1}, {"w": 2}]} for number, mark in enumerate(marks)
    ]
    return {"runs": [{"name": "north", "cases": cases}]}


STEPS = st.lists(
    st.tuples(
        st.sampled_from(["add", "drop", "move", "rename", "change"]), st.integers(0, 9), st.integers(0, 9)
    ),
    max_size=8,
)


def changed(values: Values, what: str, first: int, second: int, fresh: int) -> Values:
    """One person's change: a single entry of the list of cases."""
    after = deepcopy(values)
    cases = after["runs"][0]["cases"]
    here = first % len(cases)
    match what:
        case "add":
            cases.insert(here, {"mark": f"N{fresh}", "secret": 100 + fresh})
        case "drop" if len(cases) > 1:
            del cases[here]
        case "move":
            cases.insert(second % len(cases), cases.pop(here))
        case "rename":
            cases[here]["mark"] = f"R{fresh}"
        case "change":
            cases[here]["width"] = second
    return after


@given(STEPS, st.integers(0, 3))
def test_a_case_is_followed_to_itself_or_said_to_be_gone(
    steps: list[tuple[str, int, int]], index: int
) -> None:
    texts = [job("B1", "B2", "B3", "B4")]
    for fresh, (what, first, second) in enumerate(steps):
        texts.append(changed(texts[-1], what, first, second, fresh))
    now = follow_path(("runs", 0, "cases", index, "width"), texts)
    secrets = [case["secret"] for case in texts[-1]["runs"][0]["cases"]]
    if index in secrets:
        assert now == ("runs", 0, "cases", secrets.index(index), "width")
    else:
        assert now is None


def test_a_bay_is_followed_while_its_case_keeps_its_bays() -> None:
    before = job("B1", "B2")
    moved = changed(before, "move", 0, 1, 0)
    second = ("runs", 0, "cases", 0, "bays", 1)
    assert follow_path(second, [before, moved]) == ("runs", 0, "cases", 1, "bays", 1)
    shorter = deepcopy(moved)
    del shorter["runs"][0]["cases"][1]["bays"][0]
    assert follow_path(second, [before, moved, shorter]) == ("runs", 0, "cases", 1, "bays", 0)
    assert follow_path(("runs", 0, "cases", 0, "bays", 0), [before, moved, shorter]) is None


def test_an_entry_not_there_yet_goes_to_the_table_it_was_meant_for() -> None:
    before: Values = {"runs": [{"name": "a"}, {"name": "b"}]}
    after: Values = {"runs": [{"name": "new"}, {"name": "a"}, {"name": "b"}]}
    filler = ("left_filler", "width")
    assert follow_path(("runs", 1, *filler), [before, after]) == ("runs", 2, *filler)


CASE = ("runs", 0, "cases", 1)


@pytest.mark.parametrize(
    ("edit", "theirs", "goes"),
    [
        (SetEntry((*CASE, "width"), 5), ("change", 1, 7), False),  # both changed it
        (SetEntry((*CASE, "width"), 7), ("change", 1, 7), True),  # to the same
        (SetEntry((*CASE, "width"), 5), ("change", 0, 7), True),
        (SetEntry((*CASE, "width"), 5), ("move", 1, 3), True),
        (SetEntry((*CASE, "width"), 5), ("drop", 1, 0), False),
        (DropEntry(CASE), ("change", 1, 7), False),  # what is taken out is not what was seen
        (DropEntry(CASE), ("change", 0, 7), True),
        (MoveEntry(CASE, 0), ("add", 0, 0), False),  # the place is another one by now
        (MoveEntry(CASE, 0), ("change", 0, 7), True),
        (AddEntry(CASE[:-1], {"mark": "X"}, 2), ("drop", 0, 0), False),
        (AddEntry(CASE[:-1], {"mark": "X"}), ("drop", 0, 0), True),
    ],
)
def test_an_edit_is_made_only_on_what_its_maker_has_seen(
    edit: Any, theirs: tuple[str, int, int], goes: bool
) -> None:
    before = job("B1", "B2", "B3", "B4")
    texts: list[Mapping[str, Any]] = [before, changed(before, *theirs, 0)]
    now = follow_edit(edit, texts)
    assert (now is not None) == goes
    if now is not None and isinstance(edit, SetEntry):
        assert look_up(texts[-1], now.path[:4])["secret"] == 1


def test_a_long_job_costs_each_entry_a_few_looks_and_not_every_pair(monkeypatch: pytest.MonkeyPatch) -> None:
    looks = 0
    name_of = followed._name

    def counted(entry: Any) -> str | None:
        nonlocal looks
        looks += 1
        return name_of(entry)

    monkeypatch.setattr(followed, "_name", counted)
    before = job(*(f"B{number}" for number in range(200)))
    after = changed(before, "move", 3, 150, 0)
    assert follow_path(("runs", 0, "cases", 3, "width"), [before, after]) == (
        "runs",
        0,
        "cases",
        150,
        "width",
    )
    assert 0 < looks <= 4 * 200
