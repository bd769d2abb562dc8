"""Every finding of solid wood that is bought as boards, and the nearest entry that can be."""

from __future__ import annotations

import pytest

from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import Unit
from casewright.shop.lumber import GradeName
from casewright.shop.rough_boards import BoardDefect
from finding_rows import Provoke, Row, check, each
from jobfile.changed_jobs import PLAIN, of

OAK = """
[materials.oak]
name = "red oak"
usual = "3/4"

[materials.oak.boards]
rough = "4/4"
grade = "FAS"
price = 8.5

[[materials.oak.boards.at_hand]]
name = "A"
length = 98
width = [7.25, 7.5, 7]
defects = [{ along = [30, 33], across = [1, 2] }, { along = [94, 98] }]

[[materials.oak.boards.at_hand]]
name = "B"
length = 100
width = 6
"""
WITH_OAK = PLAIN.replace("\n[[runs]]", f"{OAK}\n[[runs]]", 1)
RACK = """
[[shop.rack]]
name = "short"
material = "{material}"
length = 30
width = 6
"""
AT = "materials.oak.boards.at_hand"


def boards(old: str, new: str) -> Provoke:
    """The job with one entry of its boards changed."""
    assert WITH_OAK.count(old) == 1, old
    return of(WITH_OAK.replace(old, new))


ROWS = [
    Row(
        "board-too-thin",
        "materials.oak.usual",
        '13/16"',
        "thicker boards",
        boards('usual = "3/4"', 'usual = "27/32"'),
        boards('usual = "3/4"', 'usual = "13/16"'),
    ),
    Row(
        "strip-too-narrow",
        "materials.oak.boards.widest_strip",
        'strips 15/16" wide',
        'Enter 1" or more',
        boards("price = 8.5", 'price = 8.5\nwidest_strip = "15/16"'),
        boards("price = 8.5", "price = 8.5\nwidest_strip = 1"),
    ),
    Row(
        "boards-and-sheets",
        "materials.oak.price",
        "speaks of sheets",
        "Leave it out",
        boards('usual = "3/4"', 'usual = "3/4"\nprice = 70'),
        boards('usual = "3/4"', 'usual = "3/4"\nweight = 3.3'),
    ),
    Row(
        "defect-outside",
        f"{AT}.A.defects[1].along",
        'the board is 98" long',
        'ends at 98"',
        boards("[94, 98]", "[94, 98.5]"),
        boards("[94, 98]", "[94.5, 98]"),
    ),
    Row(
        "defect-outside",
        f"{AT}.A.defects[0].across",
        'the board is 7 1/2" wide',
        'at 7 1/2"',
        boards("[1, 2]", "[1, 7.75]"),
        boards("[1, 2]", "[1, 7.5]"),
    ),
    Row(
        "defect-outside",
        f"{AT}.A.defects[0].along",
        'begin at 33" and end at 30"',
        "where it begins first",
        boards("[30, 33]", "[33, 30]"),
        boards("[30, 33]", "[30, 30.5]"),
    ),
    Row("name-twice", f"{AT}.A.name", "“A”", "another name", boards('"B"', '"A"'), boards('"B"', '"b"')),
    Row(
        "rack-of-boards",
        "shop.rack.short.material",
        "“short” is of oak",
        "as a board",
        of(f"{WITH_OAK}{RACK.format(material='oak')}"),
        of(f"{WITH_OAK}{RACK.format(material='birch')}"),
    ),
    Row(
        "stretch",
        f"{AT}.A.defects[0].across",
        "“1” is not a stretch",
        "two lengths in brackets",
        boards("[1, 2]", "1"),
        boards("[1, 2]", "[1, 2.5]"),
    ),
    Row(
        "widths",
        f"{AT}.B.width",
        "too few",
        "[7, 6.5]",
        boards("width = 6", "width = []"),
        boards("width = 6", "width = [6]"),
    ),
    Row(
        "not-a-choice",
        "materials.oak.boards.grade",
        "“FSA”",
        "“FAS”",
        boards('grade = "FAS"', 'grade = "FSA"'),
        boards('grade = "FAS"', 'grade = "Selects"'),
    ),
]


@each(ROWS)
def test_every_finding_is_provoked(row: Row) -> None:
    check(row)


def test_boards_are_read_as_they_are_written() -> None:
    oak = read_job(WITH_OAK).sheets["oak"]
    assert oak.boards is not None and oak.boards.grade.name is GradeName.FAS
    first, second = oak.boards.at_hand
    assert [float(size) for size in (first.length, *first.widths)] == [98, 7.25, 7.5, 7]
    assert first.defects == (BoardDefect(*map(type(first.length), (30, 33, 1, 2))), first.defects[1])
    assert first.defects[1].high == first.widest and list(map(float, second.widths)) == [6]
    assert oak.nominal == 1 and float(oak.thickness) == 0.75


@pytest.mark.parametrize("unit", list(Unit))
def test_boards_read_back_as_they_were_written(unit: Unit) -> None:
    text = WITH_OAK if unit is Unit.INCH else in_other_unit(WITH_OAK, unit, exactly=True).text
    made = read_job(text)
    assert read_job(write_job(made)) == made
    assert made.sheets["oak"].boards == read_job(WITH_OAK).sheets["oak"].boards
