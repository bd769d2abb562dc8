"""Every finding of the check at the saw, and the nearest setting that does not cause it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.casework.project import draw_up
from casewright.findings import Weight
from casewright.lengths.length import MM, Mark, Unit
from casewright.repair.prevention.cut_dimension import CutDimension
from casewright.repair.prevention.saw_check import check_at_saw
from finding_rows import Provoke, Row, check, each
from samples import job, spec

INCH_JOB = job(spec("B1", width=F(18)), spec("B2", width=F(19)))
METRIC_JOB = replace(INCH_JOB, unit=Unit.MM, mark=Mark.MILLIMETRE)
STRETCHER = F(18) - F(23, 16)  # between two sides 23/32 thick
ALLOWED = F(1, 64)
HAIR = F(1, 1000)


def at(read: F, metric: bool = False, dimension: CutDimension = CutDimension.LENGTH) -> Provoke:
    """The stretcher of the narrower case, with the fence at `read`."""
    project = draw_up(METRIC_JOB if metric else INCH_JOB)
    return lambda: [check_at_saw(project, "B1-SF", dimension, read)]


LENGTH = "B1-SF.length"

ROWS = [
    Row(
        "right",
        LENGTH,
        "right length for B1-SF",
        "",
        at(STRETCHER + ALLOWED),
        at(STRETCHER + ALLOWED + HAIR),
        Weight.NOTE,
    ),
    Row(
        "right",
        LENGTH,
        "right length for B1-SF",
        "",
        at(STRETCHER - ALLOWED),
        at(STRETCHER - ALLOWED - HAIR),
        Weight.NOTE,
    ),
    Row(
        "right",
        "B1-SF.width",
        '4" is the right width',
        "",
        at(F(4), dimension=CutDimension.WIDTH),
        at(F(5), dimension=CutDimension.WIDTH),
        Weight.NOTE,
    ),
    Row(
        "other-part",
        LENGTH,
        'set to 17 9/16", but the length of B1-SF is 16 9/16"',
        "the length of B2-",
        at(STRETCHER + 1),
        at(STRETCHER + 1 + ALLOWED + HAIR),
    ),
    Row(
        "mark-off", LENGTH, 'set to 15 9/16"', '1" off', at(STRETCHER - 1), at(STRETCHER - 1 - ALLOWED - HAIR)
    ),
    Row("mark-off", LENGTH, "is set to", "10 mm off", at(STRETCHER - 10 * MM, True), at(STRETCHER - 1, True)),
    Row("wrong-size", LENGTH, 'set to 16 3/4"', 'fence by 3/16"', at(STRETCHER + F(3, 16)), at(STRETCHER)),
]


@each(ROWS)
def test_each_finding_names_the_wrong_setting_and_not_its_neighbour(row: Row) -> None:
    check(row)
