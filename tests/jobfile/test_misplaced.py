"""A key in the wrong table, or by another name, is answered with the table it belongs to."""

from __future__ import annotations

import pytest

from casewright.errors import JobError
from casewright.jobfile.read.misplaced import MOST_PLACES, OTHER_WORDS, where_it_belongs
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.tables import JobTable
from web_bench import JOB

IN_RUN = """
[[runs]]
name = "x"
opening = 36
{}
[[runs.cases]]
mark = "C1"
kind = "base"
{}
"""


def fix_of(text: str, key: str) -> str:
    with pytest.raises(JobError) as refused:
        read_job(text)
    (found,) = [one for one in refused.value.findings if f"“{key}” is not a known key" in one.text]
    return found.fix


@pytest.mark.parametrize(
    ("key", "text", "fix"),
    [
        ("cases", '[[cases]]\nmark = "B1"', "Write [[runs.cases]] instead, below the [[runs]] it stands in."),
        ("cabinets", "[[cabinets]]\nwidth = 3", "Write [[runs.cases]] instead, below the [[runs]] it"),
        ("case", "[[case]]\nwidth = 3", "Write [[runs.cases]] instead"),
        ("bays", "[bays]", "Write [[runs.cases.bays]] instead, below the [[runs.cases]] it stands in."),
        ("sheets", '[[sheets]]\nname = "x"', "Write [materials.KEY] instead."),
        ("openings", "[[openings]]\nwidth = 3", "Write [[runs]] instead."),
        ("rack", "[[rack]]\nwidth = 3", "Write [[shop.rack]] instead."),
        ("ceiling", "[shop]\nceiling = 90", "Write “ceiling” under [[runs]]."),
        ("kerf", "[shop]\nkerf = 3", "Write “kerf” under [shop.hand_saw] or [shop.table_saw]."),
        ("top", '[base]\ntop = "panel"', "Write “top” under [base.construction]."),
        ("shelves", IN_RUN.format("shelves = 3", ""), "“fixed” or “adjustable” under [[runs.cases.bays]]."),
        ("shelves", IN_RUN.format("", "shelves = 3"), "“fixed” or “adjustable” under [[runs.cases.bays]]."),
        ("opening", IN_RUN.format("", "opening = 3"), "Write “opening” under [[runs]]."),
        ("height", IN_RUN.format("height = 34", ""), "Write “height” under [[runs.cases]]."),
        ("heigth", IN_RUN.format("", "heigth = 34"), "Did you mean “height”?"),
    ],
)
def test_the_fix_names_the_place(key: str, text: str, fix: str) -> None:
    assert fix in fix_of(f"{JOB}\n{text}\n", key)


@pytest.mark.parametrize(
    ("line", "fix"),
    [
        ("opening = 36", "Write “opening” under [[runs]]."),
        ("shelves = 3", "Write “fixed” or “adjustable” under [[runs.cases.bays]]."),
        ("readings = [0.7]", "Write “readings” under [materials.KEY]."),
        ('title = "x"', "Write “job”, above the first heading."),
    ],
)
def test_an_entry_above_all_tables_is_sent_to_its_own(line: str, fix: str) -> None:
    assert fix_of(f"{line}\n{JOB}", line.split()[0]) == fix


def test_a_word_of_many_tables_is_sent_to_none_of_them() -> None:
    assert where_it_belongs("width", 3, JobTable, ()) == ""
    assert where_it_belongs("quay", 3, JobTable, ()) == ""


@pytest.mark.parametrize("word", OTHER_WORDS)
def test_every_other_word_leads_somewhere(word: str) -> None:
    """An entry that the job file no longer has would lead nowhere."""
    said = where_it_belongs(word, [{}] if word == "case" else {}, JobTable, ("shop",))
    assert said and said.count(" or ") < MOST_PLACES + 1
