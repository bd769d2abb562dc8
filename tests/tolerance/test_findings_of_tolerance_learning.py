"""Every finding of what is typed on the sheet of the shop's test, and the nearest reading without it."""

from __future__ import annotations

from casewright.lengths.length import Unit
from casewright.tolerance.learning.shop_test import shop_test
from casewright.tolerance.learning.typed_test import read_test
from finding_rows import Provoke, Row, check, each
from samples import job

TEST = shop_test(job())


def typed(*entries: tuple[str, str], unit: Unit = Unit.INCH) -> Provoke:
    return lambda: read_test(TEST, entries, unit).findings


ENDS = ("five-cut near end", "five-cut far end")
PLACES = ("thickness 1-1", "thickness 1-2", "thickness 1-3")

ROWS = [
    Row("no-such-blank", "stripe 1", "no line of this name", "“strip 1”", typed(("stripe 1", "3")), typed()),
    Row(
        "test-reading",
        "strip 1",
        "“kg”",
        "caliper shows",
        typed(("strip 1", "3 kg")),
        typed(("strip 1", " ")),
    ),
    Row(
        "test-readings-disagree",
        "dado 1",
        "0.750 in and 0.751 in",
        "enter it once",
        typed(("dado 1", "0.75"), ("dado 1", "0.751")),
        typed(("dado 1", "0.75"), ("dado 1", "3/4 in")),
    ),
    Row(
        "test-reading-out-of-reason",
        "strip 1",
        "3.063 in was read where 3.000 in",
        "Read it again",
        typed(("strip 1", "3.0626")),
        typed(("strip 1", "3.0625")),
    ),
    Row(
        "test-reading-out-of-reason",
        "strip 2",
        "76.200 in was read",
        "would fit as mm",
        typed(("strip 2", "76.2")),
        typed(("strip 2", "76.2 mm")),
    ),
    Row(
        "test-reading-out-of-reason",
        "strip 3",
        "3.00 mm was read",
        "would fit as in",
        typed(("strip 3", "3"), unit=Unit.MM),
        typed(("strip 3", "3 in"), unit=Unit.MM),
    ),
    Row(
        "test-readings-apart",
        ENDS[1],
        "differ by 0.063 in",
        "cut again",
        typed((ENDS[0], "2"), (ENDS[1], "2.0626")),
        typed((ENDS[0], "2"), (ENDS[1], "2.0625")),
    ),
    Row(
        "test-readings-apart",
        PLACES[0],
        "the other places are about 0.719 in",
        "Read it again",
        typed((PLACES[0], "0.751"), (PLACES[1], "0.719"), (PLACES[2], "0.718")),
        typed((PLACES[0], "0.75"), (PLACES[1], "0.719"), (PLACES[2], "0.718")),
    ),
]


@each(ROWS)
def test_each_finding_comes_for_its_reading_and_not_for_the_nearest(row: Row) -> None:
    check(row)
