"""Fields hold what the maker typed, and say what is wrong beside themselves."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from casewright.app.choices import KINDS
from casewright.app.editing.field_faults import with_faults
from casewright.app.editing.form_fields import (
    MANY,
    Field,
    FieldKind,
    as_typed,
    changes,
    fields_at,
    keys_at,
    parse_typed,
)
from casewright.app.editing.form_groups import Group
from casewright.app.editing.forms import (
    case_form,
    construction_form,
    kind_form,
    machines_form,
    materials_form,
    run_form,
    settings_form,
)
from casewright.app.editing.front_forms import hardware_form
from casewright.app.editing.merging import SentField, joined
from casewright.app.editing.text_edits import apply_edits
from casewright.app.jobs.worked_job import WorkedJob, open_job
from casewright.findings import Finding
from casewright.jobfile.read.toml_text import values_of
from web_bench import JOB

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
CASE = ("runs", 0, "cases", 0)


def fields(*keys: str) -> tuple[Field, ...]:
    return fields_at(values_of(JOB), CASE, keys)


def test_every_entry_of_the_schema_makes_a_field_of_a_fitting_kind() -> None:
    kinds = {
        field.path[-1]: field.kind
        for path in ((), ("runs", 0), CASE, (*CASE, "bays", 0), ("materials", "ply"), ("construction",))
        for field in fields_at(values_of(JOB), path, _plain_keys(path))
    }
    assert kinds["opening"] is FieldKind.LENGTH
    assert kinds["width"] is FieldKind.WIDTH
    (filler,) = fields_at(values_of(JOB), ("runs", 0, "left_filler"), ["width"])
    assert filler.kind is FieldKind.LENGTH and "rest" in filler.help  # no shares
    assert kinds["kind"] is FieldKind.CHOICE
    assert kinds["fixed"] is FieldKind.LENGTHS
    assert kinds["adjustable"] is FieldKind.COUNT
    assert kinds["grain"] is FieldKind.YES_NO
    assert kinds["price"] is FieldKind.AMOUNT
    assert kinds["notes"] is FieldKind.NOTE
    assert kinds["optional"] is FieldKind.NAMES
    assert kinds["dado_depth"] is FieldKind.LENGTH


def _plain_keys(path: tuple[str | int, ...]) -> list[str]:
    tables = {"runs", "cases", "bays", "construction", "made_of", "materials", "shop", "base", "wall_cases"}
    tables |= {"tall", "open", "left_filler", "right_filler"} | ({"wall"} if not path else set())
    return [key for key in keys_at(path) if key not in tables]


@settings(deadline=None)
@given(
    st.sampled_from(
        [
            FieldKind.LENGTH,
            FieldKind.WIDTH,
            FieldKind.COUNT,
            FieldKind.AMOUNT,
            FieldKind.TEXT,
            FieldKind.LENGTHS,
            FieldKind.NAMES,
        ]
    ),
    st.text(max_size=20),
)
@example(FieldKind.LENGTHS, ";")
@example(FieldKind.NAMES, " ; ")
@example(FieldKind.LENGTH, "0.00001")
@example(FieldKind.WIDTH, "0.00001 shares")
def test_what_is_typed_comes_back_as_typed(kind: FieldKind, typed: str) -> None:
    """Whatever a field holds, the text it makes is TOML, and shows the same again when it is read."""
    said = parse_typed(typed, kind)
    if said is None:
        entries = typed.replace(MANY, "") if kind in (FieldKind.LENGTHS, FieldKind.NAMES) else typed
        assert not entries.strip()
        return
    text = apply_edits("job = 'x'\n", changes([_field(kind, "")], [_field(kind, typed)]))
    read = tomllib.loads(text)["entry"]
    assert parse_typed(as_typed(read), kind) == said


def _field(kind: FieldKind, typed: str) -> Field:
    return Field(("entry",), "entry", "", kind, typed)


def test_numbers_are_numbers_and_everything_else_stays_as_typed() -> None:
    assert parse_typed("27.375", FieldKind.LENGTH) == 27.375
    assert parse_typed("24", FieldKind.WIDTH) == 24
    assert parse_typed("27-3/8", FieldKind.LENGTH) == "27-3/8"
    assert parse_typed("2 shares", FieldKind.WIDTH) == {"share": 2}
    assert parse_typed("10; 12 1/2", FieldKind.LENGTHS) == [10, "12 1/2"]
    assert parse_typed("0.71, 0.70\n0.72", FieldKind.LENGTHS) == [0.71, 0.70, 0.72]
    assert parse_typed("0,71; 0,70", FieldKind.LENGTHS) == ["0,71", "0,70"]  # asked about, not guessed
    assert parse_typed("24", FieldKind.TEXT) == "24"
    assert parse_typed("no", FieldKind.YES_NO) is False
    assert parse_typed("9" * 40, FieldKind.COUNT) == "9" * 40


def test_only_what_was_changed_is_changed() -> None:
    before = fields("width", "height", "depth")
    sent = {"width": SentField("24 ", "24"), "depth": SentField("22", "")}
    after = joined(before, {f"runs.0.cases.0.{key}": one for key, one in sent.items()})
    assert [(edit.path[-1], edit.value) for edit in changes(before, after)] == [("depth", 22)]


def test_a_finding_stands_beside_the_field_it_names() -> None:
    named = Finding("x", "cases.B1.width", "it is too little.", "Write more.")
    by_last_word = Finding("x", "cases.B1.toe_height", "it is too tall.", "")
    elsewhere = Finding("x", "cases.B2.width", "it is too much.", "")
    form = (*fields("width"), *fields_at(values_of(JOB), (*CASE, "construction"), ["toe_height"]))
    shown, loose = with_faults(form, values_of(JOB), [named, by_last_word, elsewhere])
    assert [field.faults for field in shown] == [("It is too little. Write more.",), ("It is too tall.",)]
    assert [(one.place, one.text) for one in loose] == [("B2, width", "It is too much.")]
    # The only field that was typed in is what brought it about.
    shown, loose = with_faults(form, values_of(JOB), [elsewhere], (0,))
    assert (shown[0].faults, loose) == (("It is too much.",), ())


def test_an_empty_field_says_what_holds_meanwhile() -> None:
    job = open_job(JOB)
    usual = {field.name: field.usual for group in case_form(job, "B2") for field in group.fields}
    assert usual["runs.0.cases.1.width"] == "36 1/2"
    assert usual["runs.0.cases.1.height"] == "34 1/2"
    assert usual["runs.0.cases.1.construction.toe"] == "notch"
    assert usual["runs.0.cases.1.made_of.case"] == "ply"
    assert usual["runs.0.cases.1.bays.0.width"] == "~17 3/16", "half of what the case leaves"


def every_group(job: WorkedJob) -> Iterator[Group]:
    assert job.job is not None
    for number, run in enumerate(job.job.runs):
        yield from run_form(job, number)
        for case in run.cases:
            yield from case_form(job, case.mark)
    for kind in KINDS:
        yield from kind_form(job, kind)
    for form in (construction_form, hardware_form, machines_form, materials_form, settings_form):
        yield from form(job)


@pytest.mark.parametrize("text", [JOB, *(path.read_text() for path in EXAMPLES)])
def test_an_empty_field_has_what_holds_unless_the_job_has_nothing_to_say(text: str) -> None:
    silent: set[str] = set()
    for group in every_group(open_job(text)):
        for field in group.fields:
            assert not re.search(r"None|<|\w\(", field.usual), field
            if not field.typed and not field.usual:
                silent.add(".".join(step for step in field.path if isinstance(step, str)))
    assert not silent & {"construction.dado_depth", "shop.table_saw.kerf", "runs.cases.height", "mark"}
    assert silent >= {f"{kind}.construction.toe_height" for kind in KINDS}


def test_marks_are_listed_as_the_maker_writes_them() -> None:
    job = open_job(JOB.replace('unit = "in"', 'unit = "in"\noptional = ["B1-F11", "B1-A1"]'))
    usual = {field.name: field.usual for group in settings_form(job) for field in group.fields}
    assert usual["optional"] == "B1-A1; B1-F11"


def test_no_form_needs_a_job_that_can_be_built() -> None:
    broken = open_job(JOB.replace('"62 1/2"', '"wide"'))
    assert broken.project is None
    for form in (case_form(broken, "B1"), run_form(broken, 0), materials_form(broken)):
        assert all(group.fields for group in form)
    assert construction_form(broken) and settings_form(broken)


def test_each_shelf_of_a_case_has_a_load_of_its_own() -> None:
    worked = open_job(JOB)
    titles = [group.title for group in case_form(worked, "B1")]
    assert "What B1-A1 alone bears" in titles and "What B1-F11 alone bears" in titles
    assert not any("B2-" in title for title in titles)
    (alone,) = (group for group in case_form(worked, "B1") if group.title == "What B1-A1 alone bears")
    holds = next(field for field in alone.fields if field.path[-1] == "holds")
    assert alone.folded and not holds.typed and "anything" in str(holds.usual)
