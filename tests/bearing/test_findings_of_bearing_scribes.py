"""Findings of what is cut to a wall: each provoked, and not by a near miss."""

from __future__ import annotations

from bearing.hung_jobs import changed, on_studs
from casewright.findings import Weight
from finding_rows import Provoke, Row, check, each


def read(gaps: str, sight: str = "2") -> Provoke:
    """A filler of that width in sight with 1/2 in to plane away, 23/32 in thick, beside a wall read so."""
    job = changed(on_studs(f"left_gaps = {gaps}"), ("width = 2,", f'width = "{sight}",'))
    return lambda: job.findings


def read_at(side: str) -> Provoke:
    """A wall read at an end; only the left one has a filler."""
    job = on_studs(f"{side}_gaps = [0, 0]")
    return lambda: job.findings


ROWS = [
    Row(
        "scribe-too-narrow",
        "runs.upper.left_filler.scribe",
        '17/32" back from the plumb line',
        'a scribe of 17/32": it is then cut 2 17/32" wide',
        read('[0, "17/32"]'),
        read('[0, "1/2"]'),
        Weight.WARN,
    ),
    Row(
        "scribed-too-thin",
        "runs.upper.left_filler.scribe",
        '11/16" is left of W1-FL',
        "more width in sight",
        read('[0, "1/4"]', "11/16"),
        read('["1/32", "1/4"]', "11/16"),
        Weight.WARN,
    ),
    Row(
        "gaps-not-used",
        "runs.upper.right_gaps",
        "the wall at the right end of upper was read",
        "a filler at the right",
        read_at("right"),
        read_at("left"),
        Weight.NOTE,
    ),
]


@each(ROWS)
def test_a_finding_comes_for_its_fault_and_not_for_the_near_miss(row: Row) -> None:
    check(row)
