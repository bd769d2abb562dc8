"""Parts that fit no board: how large a board they take, and the nearest job whose boards do."""

from __future__ import annotations

from casewright.app.jobs.worked_job import open_job
from casewright.workshop.boards.board_problems import board_findings
from finding_rows import Provoke, Row, check, each
from loft_job import LOFT


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


@each(ROWS)
def test_every_finding_is_provoked(row: Row) -> None:
    check(row)
