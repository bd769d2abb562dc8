"""Parts that fit no board: how large a board they take, and the nearest job whose boards do."""

from __future__ import annotations

from casewright.app.jobs.worked_job import open_job
from casewright.findings import Weight
from casewright.workshop.boards.board_problems import board_findings
from finding_rows import Provoke, Row, check, each
from loft_job import LOFT
from parlor_job import PARLOR


def with_boards(length: str) -> Provoke:
    """The loft with no board at hand, its usual boards of this length and 7 in wide."""
    before, rest = LOFT.split("[[materials.maple.boards.at_hand]]")
    text = before.replace("size = [96, 7]", f"size = [{length}, 7]") + rest[rest.index("[made_of]") :]
    worked = open_job(text)
    return lambda: board_findings(worked.needed(), "maple", worked.board_problems["maple"])


ROWS = [
    Row(
        "part-needs-larger-board",
        "B1-ST1",
        'a clear board 34 3/8" × 1 7/8", rough; the largest of hard maple is 34 1/4" × 7"',
        "Enter a larger board under materials.maple.boards",
        with_boards('"34 1/4"'),
        with_boards('"34 3/8"'),
    )
]


def parlor(old: str, new: str) -> Provoke:
    """The parlor, whose door panels are glued up, with one entry changed."""
    assert old in PARLOR
    worked = open_job(PARLOR.replace(old, new))
    return lambda: board_findings(worked.needed(), "panel", worked.board_problems["panel"])


ROWS += [
    Row(
        "part-needs-longer-board",
        "B2-DO1P",
        'clear boards 29 1/2" long, rough; the longest of hard maple, panels is 29 3/8"',
        "Enter longer boards under materials.panel.boards",
        parlor("[120, 7]", '["29 3/8", 7]'),
        parlor("[120, 7]", '["29 1/2", 7]'),
    ),
    Row(
        "panel-comes-out-thinner",
        "materials.panel.usual",
        'B1-DO1P, B2-DO1P and B2-DO2P of hard maple, panels are glued up, and boards 5/8" thick',
        'a usual of 13/32" or less',
        parlor(
            'usual = "1/4"\nwood = "hard maple"\n\n[materials.panel.boards]\nrough = "4/4"',
            'usual = "7/16"\nwood = "hard maple"\n\n[materials.panel.boards]\nrough = "5/8"',
        ),
        parlor(
            'usual = "1/4"\nwood = "hard maple"\n\n[materials.panel.boards]\nrough = "4/4"',
            'usual = "13/32"\nwood = "hard maple"\n\n[materials.panel.boards]\nrough = "5/8"',
        ),
        Weight.NOTE,
    ),
]


@each(ROWS)
def test_every_finding_is_provoked(row: Row) -> None:
    check(row)
