"""What no paper is made of, and the nearest that is."""

from __future__ import annotations

from casewright.app.jobs.worked_job import open_job
from casewright.packet.quote import quote_data
from finding_rows import Provoke, Row, check, each, told
from priced_box import BOX, PRICES


def quoted(text: str) -> Provoke:
    planned = open_job(text).planned(0.1)
    return lambda: told(lambda: quote_data(planned.project, planned.costs))


ROWS = [
    Row(
        "not-priced",
        "costs",
        'wood screws #8 × 1 3/4" (enter screw in [costs])',
        "0 is for what costs you nothing",
        quoted(BOX + PRICES.replace("screw = 0.1", "")),
        quoted(BOX + PRICES.replace("screw = 0.1", "screw = 0")),
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_job_and_not_of_its_neighbour(row: Row) -> None:
    check(row)
