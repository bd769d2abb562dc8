"""Every given size of the ledger is one entry of the list of inputs, and leads to its place in the text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casework.drawer_jobs import SLIDES
from casewright.app.editing.text_edits import SetEntry, apply_edits, look_up
from casewright.casework.front_choices import Front, FrontKind
from casewright.casework.inputs import Input, Sort, input_called, inputs_of
from casewright.casework.job import Bay, Edged, Filler, Job
from casewright.casework.project import Project, draw_up
from casewright.errors import JobError
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.read.toml_text import values_of
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import parse_length
from casewright.shop.edging import Edging
from casewright.sizes.ledger import Given
from samples import job, spec
from strategies import case_specs

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


def drawn_alike(one: Project, other: Project) -> bool:
    return list(one.parts) == list(other.parts) and one.sizes.values == other.sizes.values


def given_names(project: Project) -> set[str]:
    ledger = project.sizes.ledger
    return {name for name, entry in ledger.items() if isinstance(entry.definition, Given)}


def check_every_input(text: str) -> None:
    made = read_job(text)
    project = draw_up(made)
    said = values_of(text)
    inputs = {one.name: one for one in inputs_of(made)}
    assert given_names(project) == {name for name, one in inputs.items() if one.get(made) is not None}
    for name, one in inputs.items():
        assert input_called(made, name) == one or input_called(made, name).place == one.place
        value = one.get(made)
        if value is None:
            assert one.otherwise in project.sizes.ledger
            continue
        assert project.sizes.of(name) == value
        assert project.sizes.ledger[name].words == one.words
        assert one.set(made, value).runs == made.runs
        check_place(one, said, made, value)


def check_place(one: Input, said: Mapping[str, Any], made: Job, value: F) -> None:
    """The place leads to the value in the text, or to nothing where what is usual holds."""
    written = look_up(said, one.place)
    if written is None:
        return
    if one.listed:
        readings = [parse_length(reading, made.unit) for reading in written]
        assert sum(readings, F(0)) / len(readings) == value
    else:
        assert parse_length(written, made.unit) == value


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_given_size_of_an_example_is_an_input(path: Path) -> None:
    check_every_input(path.read_text(encoding="utf-8"))


@settings(max_examples=20, deadline=None)
@given(case_specs("B1"), case_specs("W-3"), st.booleans())
def test_every_given_size_of_any_job_is_an_input(one: Any, other: Any, closed: bool) -> None:
    made = job(one, other, left=Filler(F(1), F(1, 2), "ply") if closed else None, opening=F(120))
    try:
        draw_up(made)
    except JobError:
        return
    check_every_input(write_job(made))


@cache
def sample() -> Job:
    fronts = (Front(FrontKind.TWO_DOORS), Front(FrontKind.DRAWER, F(6)))
    bays = (Bay(width=F(14), fixed=(F(8), F(9)), adjustable=1), Bay(fronts=fronts))
    edging = {"maple": Edging("maple", "maple strip", F(1, 4), F(96))}
    made = job(
        spec("B1", width=F(41), bays=bays, chosen=frozenset({"toe_depth"})),
        spec("B2", width=None, bays=(Bay(fixed=(F(10),)),)),
        opening=F(98),
        left=Filler(F(1), F(1, 2), "ply"),
        right=Filler(F(2), F(1, 2), "ply"),
    )
    runs = tuple(
        replace(run, cases=tuple(replace(one, edged=Edged("maple", "maple")) for one in run.cases))
        for run in made.runs
    )
    return replace(made, edging=edging, runs=runs, slides={"side": replace(SLIDES["side mount"], key="side")})


@cache
def drawn_sample() -> Project:
    return draw_up(sample())


@cache
def written_sample() -> str:
    return write_job(sample())


@pytest.mark.parametrize("one", list(inputs_of(sample())), ids=lambda one: one.name)
def test_a_new_value_shows_in_the_ledger_and_is_written_at_its_place(one: Input) -> None:
    made = sample()
    value = drawn_sample().sizes.of(one.otherwise) - F(1, 16)
    if value < 0:
        value = F(1, 16)
    changed = one.set(made, value)
    assert one.get(changed) == value
    said = float(value)  # sixteenths of an inch are exact in binary
    text = apply_edits(written_sample(), [SetEntry(one.place, [said] if one.listed else said)])
    assert one.get(read_job(text)) == value
    try:
        project = draw_up(changed)
    except JobError:  # the last share given up: what is left over then fills nothing
        assert one.sort in (Sort.BAY, Sort.FRONT) and one.get(made) is None
        return
    assert project.sizes.of(one.name) == value
    assert drawn_alike(draw_up(read_job(text)), project)


def test_what_a_case_leaves_to_the_job_is_said_by_the_job() -> None:
    made = sample()
    left_out = input_called(made, "B2.toe_depth")
    assert left_out.get(made) is None and left_out.otherwise == "job.toe_depth"
    own = left_out.set(made, F(2))
    assert own.runs[0].cases[1].chosen == {"toe_depth"}
    everywhere = input_called(made, "job.toe_depth").set(own, F(1))
    assert [case.construction.toe_depth for case in everywhere.runs[0].cases] == [F(3), F(2)]


def test_every_sort_of_input_is_there() -> None:
    assert {one.sort for one in inputs_of(sample())} == set(Sort)


def test_each_has_a_place_and_a_name_of_its_own() -> None:
    inputs = list(inputs_of(sample()))
    assert len({one.place for one in inputs}) == len({one.name for one in inputs}) == len(inputs)


def test_the_ledger_says_what_the_job_says() -> None:
    """Against the job's own figures, since drawing up asks the list under test."""
    of = draw_up(sample()).sizes.of
    said = {
        "run1.opening": F(98),
        "run1.left_filler": F(1),
        "run1.right_filler": F(2),
        "B1-FL.scribe": F(1, 2),
        "B1.width": F(41),
        "B1.bay1": F(14),
        "B1.below11": F(8),
        "B1.below12": F(9),
        "B2.below11": F(10),
        "B1.toe_depth": F(3),
        "job.toe_height": F(4),
        "ply.thickness": F(23, 32),
    }
    assert {name: of(name) for name in said} == said
