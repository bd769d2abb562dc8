"""A job's figures in the other unit: the same job, the maker's own text, and what was rounded."""

from __future__ import annotations

import re
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.job import Job
from casewright.errors import JobError
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.other_unit import in_other_unit, read_anew
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import MM, Unit, parse_length
from job_texts import ALCOVE, TEXTS
from jobfile.test_write_job import jobs

OTHER = {Unit.INCH: Unit.MM, Unit.MM: Unit.INCH}


def unit_of(text: str) -> Unit:
    return read_job(text).unit


def without_figures(text: str) -> list[str]:
    """A text's lines with every value of digits, and the unit and marks, taken out."""
    text = re.sub(r'(?m)^(unit|mark|rounding) = ".*?"', r"\1", text)
    text = re.sub(r'"?(?:\d+ )?\d+(?:[./]\d+)?(?: lb| kg)?"?', "1", text)
    return text.split("\n")


@pytest.mark.parametrize("text", [*TEXTS, ALCOVE])
def test_only_figures_change_and_every_comment_stays(text: str) -> None:
    made = in_other_unit(text, OTHER[unit_of(text)])
    assert made.text != text and unit_of(made.text) is OTHER[unit_of(text)]
    assert without_figures(made.text) == without_figures(text)


@pytest.mark.parametrize("text", [*TEXTS, ALCOVE])
def test_exact_figures_are_the_same_lengths(text: str) -> None:
    """Every opening, case, reading and sheet of the two jobs, compared as the reader reads them."""
    unit = OTHER[unit_of(text)]
    made = in_other_unit(text, unit, exactly=True)
    before, after = read_job(text), read_job(made.text)
    assert made.lengths and not made.rounded
    assert [run.opening for run in before.runs] == [run.opening for run in after.runs]
    for one, other in zip(before.runs, after.runs, strict=True):
        assert (one.along, one.ceiling, one.left, one.right) == (
            other.along,
            other.ceiling,
            other.left,
            other.right,
        )
        assert [case.width for case in one.cases] == [case.width for case in other.cases]
        assert [case.bays for case in one.cases] == [case.bays for case in other.cases]
    for key, sheet in before.sheets.items():
        assert (sheet.readings, sheet.sheet_length) == (
            after.sheets[key].readings,
            after.sheets[key].sheet_length,
        )
    assert before.shop.carry.weight == after.shop.carry.weight or "weight" not in text
    back = in_other_unit(made.text, unit_of(text), exactly=True).text
    assert [run.cases for run in read_job(back).runs] == [run.cases for run in before.runs]


@pytest.mark.parametrize("text", [*TEXTS, ALCOVE])
def test_rounded_figures_say_by_how_much_and_no_more_than_half_a_mark(text: str) -> None:
    unit = OTHER[unit_of(text)]
    made = in_other_unit(text, unit)
    for one in made.lengths:
        was, now = parse_length(one.before, unit_of(text)), parse_length(one.after, unit)
        assert now - was == one.off_by
        assert abs(one.off_by) <= (MM / 20 if unit is Unit.MM else F(1, 128))
    assert [one for one in made.lengths if one.off_by] == list(made.rounded)


@settings(deadline=None, max_examples=40)
@given(jobs(), st.booleans())
def test_any_job_there_and_back_is_itself(job: Job, exactly: bool) -> None:
    """What the file leaves out follows its unit's usual practice, so only what it says is compared."""
    text = write_job(job)
    there = in_other_unit(text, OTHER[job.unit], exactly=exactly).text
    again = in_other_unit(there, job.unit, exactly=exactly).text
    openings = [run.opening for run in job.runs]
    near = [run.opening for run in read_job(again).runs]
    assert all(
        abs(one - other) <= (0 if exactly else F(1, 32)) for one, other in zip(openings, near, strict=True)
    )


FIGURES = [
    (Unit.MM, '"27 3/8"', "695.3"),
    (Unit.MM, "24", "609.6"),
    (Unit.MM, '"1/8"', "3.18"),
    (Unit.MM, "0.0005", "0.013"),
    (Unit.MM, '"695 mm"', '"695 mm"'),
    (Unit.MM, '"rest"', '"rest"'),
    (Unit.MM, "{ share = 2 }", "{ share = 2 }"),
    (Unit.INCH, "600", '"23 5/8"'),
    (Unit.INCH, "695.325", '"27 3/8"'),
    (Unit.INCH, "609.6", "24"),
    (Unit.INCH, "9", "0.354"),
    (Unit.INCH, '"27 3/8 in"', '"27 3/8 in"'),
]


@pytest.mark.parametrize(("unit", "before", "after"), FIGURES)
def test_a_figure_is_written_as_a_maker_would(unit: Unit, before: str, after: str) -> None:
    text = f'unit = "{OTHER[unit].value}"  # as measured\n[[runs]]\n[[runs.cases]]\nwidth = {before}  # why\n'
    said = in_other_unit(text, unit).text
    assert said == text.replace(OTHER[unit].value, unit.value, 1).replace(f"= {before} ", f"= {after} ")


def test_weights_say_the_unit_they_were_in_and_marks_become_their_likes() -> None:
    text = 'unit = "in"\nmark = "1/32 in"\nrounding = "1/16 in"\n[shop.carry]\nweight = 50\n'
    assert in_other_unit(text, Unit.MM).text == (
        'unit = "mm"\nmark = "0.5 mm"\nrounding = "1 mm"\n[shop.carry]\nweight = "50 lb"\n'
    )
    assert read_anew(text, Unit.MM).text == text.replace('"in"', '"mm"').replace("1/32 in", "0.5 mm").replace(
        "1/16 in", "1 mm"
    )


def test_letters_of_more_than_a_byte_and_lines_of_windows_shift_nothing() -> None:
    text = 'job = "Küche, 30 m² €"\r\nunit = "mm" # größer\r\n[base]\r\nheight = 600 # nötig\r\n'
    assert in_other_unit(text, Unit.INCH).text == (
        'job = "Küche, 30 m² €"\nunit = "in" # größer\n[base]\nheight = "23 5/8" # nötig\n'
    )


def test_a_text_that_is_no_toml_is_refused_with_its_line() -> None:
    with pytest.raises(JobError) as refused:
        in_other_unit('unit = "in"\nwidth 3\n', Unit.MM)
    assert refused.value.findings[0].line == 2
