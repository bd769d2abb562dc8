"""The maker's own hinges and slides: read from the job file and written back."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.errors import JobError
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import MM, Unit
from casewright.shop.hinges import HingeRow, hinges_needed
from casewright.shop.slides import Slide, SlideKind
from jobfile.changed_jobs import PLAIN

STOCK = packaged_catalogue()
OWN = """
[hinges.long]
like = "full overlay"
plate = "6 mm"
chart = [{ hinges = 2, weight = 8, height = 36 }, { hinges = 3, weight = "9 kg" }]

[slides.soft]
like = "under mount"
lengths = [20, 16]
behind = "5/8"

[slides.plain]
name = "wooden runners"
kind = "side mount"
lengths = [18]
narrower = "1/16"
lower = "1/8"
"""


def test_what_is_said_takes_the_place_of_the_lists_figures() -> None:
    job = read_job(PLAIN + OWN)
    hinge, start = job.hinges["long"], STOCK.hinges["full overlay"]
    assert hinge == replace(start, key="long", plate=6 * MM, charts=hinge.charts)
    assert hinge.charts[0].rows[0] == HingeRow(2, F(8), F(36))
    soft = replace(STOCK.slides["under mount"], key="soft", lengths=(F(16), F(20)), behind=F(5, 8))
    assert job.slides["soft"] == soft
    assert job.slides["plain"] == Slide(
        "plain", "wooden runners", SlideKind.SIDE, (F(18),), F(1, 16), F(1, 8)
    )


def test_an_own_chart_decides_alone() -> None:
    hinge = read_job(PLAIN + OWN).hinges["long"]
    assert hinges_needed(F(7), F(30), F(40), hinge).hinges == 2, "its sheet says nothing of wide doors"
    assert hinges_needed(F(8), F(30), F(15), hinge).hinges == 3
    assert hinges_needed(F(7), F(36), F(15), hinge).beyond is True


@pytest.mark.parametrize("name", sorted(STOCK.hinges))
def test_each_listed_hinge_is_written_by_its_name(name: str) -> None:
    job = read_job(f'{PLAIN}[hinges.h]\nlike = "{name}"\n')
    assert job.hinges["h"] == replace(STOCK.hinges[name], key="h")
    assert f'like = "{name}"' in write_job(job) and read_job(write_job(job)) == job


@pytest.mark.parametrize("name", sorted(STOCK.slides))
def test_listed_slides_are_written_by_their_name(name: str) -> None:
    job = read_job(f'{PLAIN}[slides.s]\nlike = "{name}"\n')
    assert job.slides["s"] == replace(STOCK.slides[name], key="s")
    assert f'like = "{name}"' in write_job(job) and read_job(write_job(job)) == job


def test_own_hardware_reads_back_the_same() -> None:
    """The runners say nothing of the thickest side, so they cannot be like listed slides that do."""
    job = read_job(PLAIN + OWN)
    assert read_job(write_job(job)) == job
    under = replace(job, slides={"s": replace(STOCK.slides["under mount"], key="s", thickest=None)})
    assert read_job(write_job(under)) == under


def test_the_other_unit_keeps_what_a_chart_says() -> None:
    job = read_job(PLAIN + OWN)
    metric = read_job(in_other_unit(PLAIN + OWN, Unit.MM, exactly=True).text)
    assert metric.hinges == job.hinges and metric.slides == job.slides


@pytest.mark.parametrize(
    ("entry", "said", "fix"),
    [
        (
            "slide",
            "side mount mm",
            'Add [slides.side] with like = "side mount mm", and write slide = "side" here.',
        ),
        (
            "hinge",
            "full overlay",
            'Add [hinges.cup] with like = "full overlay", and write hinge = "cup" here.',
        ),
        ("hinge", 'the \\"good\\" ones', "Use lower-case letters, digits, dashes and underscores"),
    ],
)
def test_a_name_of_the_catalogue_is_turned_into_a_table_and_no_other_name_is(
    entry: str, said: str, fix: str
) -> None:
    """Regression: whatever was written there, a table was told that starts from hinges nobody lists."""
    with pytest.raises(JobError) as refused:
        read_job(f'{PLAIN}[fitted_with]\n{entry} = "{said}"\n')
    (finding,) = refused.value.findings
    assert finding.code == "bad-name" and finding.fix.startswith(fix)
