"""A job file gives the job it says, or every problem in one go."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest

from casewright.casework.job import BackKind, CaseKind, ToeKind, TopKind
from casewright.casework.project import draw_up
from casewright.errors import JobError
from casewright.findings import Finding
from casewright.jobfile.read.read_job import read_job
from casewright.lengths.length import MM, Mark, Unit
from casewright.shop.materials import OtherSize
from casewright.workshop.sheets.cut_problems import bins_of

SMALL = """\
job = "bench"
unit = "in"

[materials.ply]
sheet = "birch ply 3/4"
readings = [0.71, "23/32"]

[materials.thin]
sheet = "hardwood ply 1/4"

[made_of]
case = "ply"
back = "thin"

[[runs]]
name = "north"
opening = "10'"

[[runs.cases]]
mark = "B1"
kind = "base"

[[runs.cases]]
mark = "B2"
kind = "base"
width = '27 3/8"'
bays = [{ fixed = [10], adjustable = 1 }, { width = "9 in", adjustable = 2 }]
"""


def problems(text: str) -> tuple[Finding, ...]:
    with pytest.raises(JobError) as raised:
        read_job(text)
    return raised.value.findings


def test_lengths_are_read_as_people_write_them() -> None:
    job = read_job(SMALL)
    first, second = job.runs[0].cases
    assert job.runs[0].opening == 120
    assert first.width is None and second.width == F(219, 8)
    assert second.bays[0].fixed == (F(10),) and second.bays[1].width == F(9)
    assert job.sheets["ply"].readings == (F(71, 100), F(23, 32))


def test_a_bare_number_counts_the_jobs_unit() -> None:
    job = read_job(
        SMALL.replace('unit = "in"', 'unit = "mm"').replace("23/32", "23/32 in").replace('"9 in"', "230.5")
    )
    assert job.unit is Unit.MM and job.mark is Mark.HALF_MILLIMETRE
    assert job.runs[0].cases[1].bays[1].width == F(461, 2) * MM
    assert job.runs[0].cases[1].bays[0].fixed == (10 * MM,)


def test_what_is_left_out_is_what_cases_of_that_kind_usually_are() -> None:
    """Base case 34 1/2 in high and 24 in deep: consumer and trade pages; toe kick 4 by 3: from memory."""
    case = read_job(SMALL).runs[0].cases[0]
    assert (case.height, case.depth) == (F(69, 2), F(24))
    assert (case.construction.toe_height, case.construction.toe_depth) == (F(4), F(3))
    assert case.materials.shelf == "ply" and case.materials.back == "thin"


def test_a_wall_case_hangs_18_in_above_a_counter_at_36() -> None:
    """Bottom at 54 in, 30 in high, 12 in deep: consumer and trade pages."""
    run = read_job(SMALL.replace('kind = "base"', 'kind = "wall"')).runs[0]
    assert run.lift == 36 + 18 and run.cases[0].height == 30 and run.cases[0].depth == 12
    made = run.cases[0].construction
    assert (made.top, made.toe, made.strips) == (TopKind.RABBET, ToeKind.NONE, 2)


def test_a_case_overrides_its_kind_and_its_kind_the_job() -> None:
    text = SMALL.replace(
        'kind = "base"\nwidth', 'kind = "tall"\nconstruction = { dado_depth = "3/16" }\nwidth'
    )
    text = text.replace(
        "[[runs]]",
        '[construction]\nback = "rabbet"\ndado_depth = "5/16"\n\n'
        '[tall]\nheight = 90\nconstruction = { back = "applied" }\n\n[[runs]]',
    )
    base, tall = read_job(text).runs[0].cases
    assert (base.construction.back, base.construction.dado_depth) == (BackKind.RABBET, F(5, 16))
    assert (tall.construction.back, tall.construction.dado_depth) == (BackKind.APPLIED, F(3, 16))
    assert tall.kind is CaseKind.TALL and tall.height == 90
    assert tall.chosen == {"back", "dado_depth"} and not base.chosen


def test_every_problem_is_told_at_once_with_its_place_and_fix() -> None:
    text = SMALL.replace('"9 in"', '"9,5"').replace('mark = "B2"', 'mark = "B1"')
    text = text.replace('kind = "base"\nwidth', 'kind = "bse"\nhieght = 30\nwidth').replace('"thin"', '"thn"')
    text = text.replace('opening = "10\'"', "opening = 10 1/2")
    found = {(finding.line, finding.place): finding for finding in problems(text)}
    assert list(found) == [
        (17, "opening"),
        (25, "cases.B1.kind"),
        (26, "cases.B1.hieght"),
        (28, "cases.B1.bays[1].width"),
    ]
    assert found[17, "opening"].fix == 'Write opening = "10 1/2".'
    assert found[25, "cases.B1.kind"].fix == "Did you mean “base”?"
    assert found[26, "cases.B1.hieght"].fix == "Did you mean “height”?"
    assert "“9,5”" in found[28, "cases.B1.bays[1].width"].text


def test_all_unknown_names_are_reported_at_once() -> None:
    text = SMALL.replace('"thin"', '"thn"').replace('mark = "B2"', 'mark = "B1"')
    text = text.replace('"birch ply 3/4"', '"burch ply 3/4"')
    assert [(finding.code, finding.line) for finding in problems(text)] == [
        ("unknown-name", 5),
        ("unknown-name", 13),
        ("mark-twice", 24),
    ]


def test_other_sizes_are_sheets_to_plan_with() -> None:
    half = 'price = 80\nothers = [{ name = "half", size = [48, "48 in"], price = 42, count = 2 }]\n'
    job = read_job(SMALL.replace("readings =", half + "readings ="))
    assert job.sheets["ply"].others == (OtherSize("half", F(48), F(48), F(42), 2),)
    whole, other = bins_of(job.sheets["ply"], job.shop)
    assert (other.name, other.length, other.price, other.count) == ("half", F(48), F(42), 2)
    assert (whole.price, whole.count, other.trim) == (F(80), None, whole.trim)


def test_sizes_of_which_one_has_no_price_cannot_be_compared() -> None:
    half = 'others = [{ name = "half", size = [48, 48], price = 42 }]\n'
    (finding,) = problems(SMALL.replace("readings =", half + "readings ="))
    assert (finding.code, finding.line) == ("no-price", 6)


FAULTS = [
    ("unquoted", SMALL.replace('"10\'"', "10' 4 1/2\""), "not-toml", 17, 'opening = "10\' 4 1/2"'),
    ("too many quotes", SMALL.replace('"10\'"', '"96"""'), "not-toml", 17, 'opening = "96"'),
    ("open header", SMALL.replace("[materials.thin]", "[materials.thin"), "not-toml", 8, "in brackets"),
    ("open list", SMALL.replace("fixed = [10]", "fixed = [10"), "not-toml", 27, "one key per line"),
    ("key twice", SMALL.replace("unit", 'job = "again"\nunit'), "key-twice", 2, "Keep one"),
    ("table twice", SMALL + "[made_of]\n", "key-twice", 28, "Keep one"),
    ("not a table", SMALL.replace("[made_of]", "[[made_of]]"), "wrong-type", 11, "single brackets"),
    ("empty", "", "missing", 1, "Add job"),
    ("no runs", SMALL[: SMALL.index("[[runs]]")], "missing", 1, "Add runs"),
    ("yes for true", SMALL.replace("readings", "grain = 1\nreadings"), "wrong-type", 6, "true or false"),
    ("half a shelf", SMALL.replace("adjustable = 1", "adjustable = 1.5"), "wrong-type", 27, "whole number"),
    ("a million shelves", SMALL.replace("adjustable = 1", "adjustable = 1000000"), "out-of-range", 27, "40"),
    ("negative", SMALL.replace("opening", "ceiling = -3\nopening"), "not-positive", 17, "greater than zero"),
    ("long mark", SMALL.replace('"B2"', '"B2-left"'), "bad-name", 24, "six letters"),
    ("capital key", SMALL.replace("materials.thin", "materials.Thin"), "bad-name", 8, "lower-case letters"),
    ("no share", SMALL.replace('width = "9 in"', "width = { shares = 2 }"), "share", 27, "{ share = 2 }"),
    ("huge number", SMALL.replace('"9 in"', "9" * 5000), "not-toml", 27, "one key"),
    ("from nothing", SMALL.replace('sheet = "hardwood ply 1/4"', 'name = "q"'), "missing", 8, "nominal"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "code", "line", "fix"), [fault[1:] for fault in FAULTS], ids=[f[0] for f in FAULTS]
)
def test_each_fault_has_its_line_and_its_fix(text: str, code: str, line: int, fix: str) -> None:
    finding = problems(text)[0]
    assert (finding.code, finding.line) == (code, line), str(finding)
    assert fix in finding.fix, str(finding)


EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_examples_draw_up_without_a_word(path: Path) -> None:
    project = draw_up(read_job(path.read_text(encoding="utf-8")))
    assert project.findings == ()
    kinds = {case.spec.kind for case in project.cases.values()}
    assert {CaseKind.BASE, CaseKind.WALL, CaseKind.TALL} <= kinds
    used = {part.material for part in project}
    assert len(used) >= 3 and used == set(project.job.sheets)
    assert {project.job.sheets[key].grain for key in used} == {True, False}
    assert project.job.optional <= set(project.parts)


def test_the_examples_between_them_show_every_way_of_making() -> None:
    jobs = [read_job(path.read_text(encoding="utf-8")) for path in EXAMPLES]
    made = [case.construction for job in jobs for run in job.runs for case in run.cases]
    assert {one.back for one in made} == set(BackKind)
    assert {one.toe for one in made} == set(ToeKind)
    assert {one.top for one in made} == set(TopKind)
    assert {job.unit for job in jobs} == set(Unit)
