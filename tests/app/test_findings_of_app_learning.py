"""Every finding of the shop's own readings, and the nearest reading without it."""

from __future__ import annotations

from casewright.app.jobs.worked_job import open_job
from casewright.app.learning.figures_in_file import results_of_lines
from casewright.app.learning.shop_figures import shop_figures
from casewright.findings import Weight
from casewright.shop.measuring_tools import MeasuringTool
from casewright.tolerance.learning.own_deviations import CutReading, SetBy
from finding_rows import Provoke, Row, check, each, told
from samples import job
from web_bench import JOB

WORKED = open_job(JOB)


def left_out(value: float) -> Provoke:
    reading = CutReading("larder: B1-K.width", SetBy.FENCE, "one", 4.0, value, MeasuringTool.CALIPER)
    return lambda: shop_figures(job(), [reading]).findings


def line(text: str) -> Provoke:
    return lambda: told(lambda: results_of_lines(WORKED, [text]))


ROWS = [
    Row(
        "reading-left-out",
        "larder: B1-K.width",
        "4.063 in by caliper was read where 4.000 in was set on the fence's scale",
        "Measure again",
        left_out(4.0626),
        left_out(4.0625),
        Weight.WARN,
    ),
    Row(
        "test-line", "readings", "“strip 1 3.0” has no =", "strip 1 = 3.004", line("strip 1 3.0"), line("# 3")
    ),
]


@each(ROWS)
def test_each_finding_comes_for_its_reading_and_not_for_the_nearest(row: Row) -> None:
    check(row)
