"""Wrong values in every field of every form: the refusal stands in the form, in words for who fills it in."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.app.editing.field_faults import with_faults
from casewright.app.editing.form_fields import Field, FieldKind, changes
from casewright.app.editing.form_groups import Group
from casewright.app.editing.forms import (
    FormOutcome,
    SentForm,
    case_form,
    construction_form,
    kind_form,
    machines_form,
    materials_form,
    run_form,
    settings_form,
    submit_form,
)
from casewright.app.editing.front_forms import hardware_form
from casewright.app.editing.text_edits import apply_edits
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import WorkedJob, open_job
from casewright.errors import JobError
from casewright.findings import Finding
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.read.toml_text import values_of
from web_bench import JOB

TEXT = (
    JOB
    + """
[[runs.cases]]
mark = "B3"
kind = "base"
width = 16
bays = [{ fronts = [{ kind = "door", hung = "right" }, { kind = "drawer", height = 6 }] }]

[hinges.cup]
like = "full overlay"

[slides.side]
like = "side mount"
"""
)
FORMS: dict[str, Callable[[WorkedJob], tuple[Group, ...]]] = {
    "case": lambda worked: case_form(worked, "B1"),
    "run": lambda worked: run_form(worked, 0),
    "materials": materials_form,
    "construction": construction_form,
    "kind": lambda worked: kind_form(worked, "base"),
    "machines": machines_form,
    "settings": settings_form,
    "fronts": lambda worked: tuple(
        group for group in case_form(worked, "B3") if group.title.startswith(("Front", "Hinges"))
    ),
    "hardware": hardware_form,
}
FIELDS = [
    (form, field) for form, make in FORMS.items() for group in make(open_job(TEXT)) for field in group.fields
]
IN_QUOTES = re.compile("“[^”]*”")
"""What was typed, or a name of the shop's list."""
OF_THE_FILE = re.compile(r"[\[\]{}]| = |[a-z]+_[a-z]|\b[a-z]+\w*\.[a-z]|without quotes|in brackets|\bkey\b")
WRONG = {
    FieldKind.LENGTH: ("soon", "-3", "1,5", "3/0", "2 shares"),
    FieldKind.WIDTH: ("soon", "0 shares", "-3", "999999", "{ share = 2 }"),
    FieldKind.AMOUNT: ("soon", "-3", "two sheets", "9999999999"),
    FieldKind.COUNT: ("soon", "-3", "2.5", "999999"),
    FieldKind.CHOICE: ("soon", "-3"),
    FieldKind.YES_NO: ("soon", "true"),
    FieldKind.LENGTHS: ("soon", "0.7; soon", "-3", "1/8", "; ".join(["0.71"] * 201)),
    FieldKind.NAMES: ("\x07", "B1-L; B1-L\x07"),
    FieldKind.TEXT: ("\x07", "x" * 200),
    FieldKind.NOTE: ("\x07", "x" * 3000),
}


@cache
def shop() -> KeptJobs:
    saved = KeptJobs.open(Path(str(mkdtemp())) / "shop.sqlite3")
    saved.start(TEXT)
    return saved


def submitted(form: str, name: str, typed: str) -> FormOutcome:
    """What comes of typing one value into a field of the sound job."""
    saved = shop()
    work = saved.take("larder")
    if work.revision.text != TEXT:
        saved.restore("larder", 1)
        work = saved.take("larder")
    return submit_form(saved, work, FORMS[form], SentForm({name: typed}, work.newest))


def faults_of(outcome: FormOutcome) -> dict[str, tuple[str, ...]]:
    fields = [field for group in outcome.groups for field in group.fields]
    return {field.name: field.faults for field in fields if field.faults}


def said_in_words(outcome: FormOutcome, typed: str) -> None:
    """Each refusal stands at a field of the form and speaks of nothing that only a file has."""
    assert outcome.loose == (), outcome.loose
    for name, faults in faults_of(outcome).items():
        for fault in faults:
            bare = IN_QUOTES.sub("", fault)
            assert not OF_THE_FILE.search(bare), f"{name} ← {typed!r}: {fault}"
            assert fault.endswith((".", "?")), fault
            assert "{typed}" not in fault and "{label}" not in fault


@pytest.mark.parametrize("form", FORMS)
def test_a_wrong_value_is_refused_at_its_field(form: str) -> None:
    """The first wrong value of its kind, and one of the others; which one goes round with the fields."""
    for turn, field in enumerate(field for of, field in FIELDS if of == form):
        refused = []
        first, *others = WRONG[field.kind]
        for typed in (first, others[turn % len(others)]):
            outcome = submitted(form, field.name, typed)
            said_in_words(outcome, typed)
            if faults_of(outcome):
                assert not outcome.kept
                refused.append(faults_of(outcome))
        assert any(field.name in faults for faults in refused) or field.kind is FieldKind.NAMES, field.name


@settings(deadline=None, max_examples=60)
@given(
    st.sampled_from(FIELDS),
    st.sampled_from([typed for kind in WRONG.values() for typed in kind])
    | st.text(max_size=12)
    | st.just(""),
)
def test_whatever_is_typed_is_answered_in_the_words_of_the_form(where: tuple[str, Field], typed: str) -> None:
    form, field = where
    outcome = submitted(form, field.name, typed)
    said_in_words(outcome, typed)


@pytest.mark.parametrize(
    ("form", "name", "typed", "there", "file"),
    [
        (
            "materials",
            "materials.ply.price",
            "soon",
            "“soon” is not an amount. Enter a plain number, such as 89.50.",
            "without quotes",
        ),
        (
            "case",
            "runs.0.cases.0.width",
            "0 shares",
            "“0 shares” is too small. Enter a number greater than zero.",
            "“0” is too small",
        ),
        (
            "materials",
            "materials.ply.size",
            "96",
            "“96” is not a sheet size. Enter two lengths, the one along the grain first: 96; 48.",
            "in brackets",
        ),
        (
            "case",
            "runs.0.cases.0.mark",
            "",
            "“mark” is empty. Enter: short mark to pencil on its parts, such as B1.",
            "Add mark",
        ),
    ],
)
def test_the_file_and_the_form_are_spoken_of_apart(
    form: str, name: str, typed: str, there: str, file: str
) -> None:
    """The command line, which reads the same text as a file, keeps the words for the file."""
    outcome = submitted(form, name, typed)
    assert faults_of(outcome) == {name: (there,)}
    (field,) = [field for of, field in FIELDS if (of, field.name) == (form, name)]
    with pytest.raises(JobError) as raised:
        read_job(apply_edits(TEXT, changes([field], [replace(field, typed=typed)])))
    (finding,) = raised.value.findings
    assert file in str(finding)


def test_no_help_beside_a_field_speaks_of_the_file() -> None:
    for _, field in FIELDS:
        assert not OF_THE_FILE.search(field.help), f"{field.name}: {field.help}"


def test_what_names_no_field_is_said_at_the_head_in_words() -> None:
    found = Finding("x", "cases.B1.bays[1].pin_pitch", "it is too little.", "Make pin_pitch larger.", line=3)
    _, (loose,) = with_faults((), values_of(JOB), [found])
    assert (loose.place, loose.line) == ("B1, bays 2, pin pitch", None)
    assert loose.text == "It is too little. Make pin pitch larger."
