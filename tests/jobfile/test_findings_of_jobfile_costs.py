"""Every finding of what things cost, and the nearest entry that can be; what is told reads back the same."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import Unit
from casewright.shop.prices import NO_PRICES, FinishPrice, GluePrice, Prices, Sharpening, Surfaces
from finding_rows import Provoke, Row, check, each
from jobfile.changed_jobs import PLAIN, of


def costs(entries: str, table: str = "") -> Provoke:
    return of(f"{PLAIN}\n[costs{table}]\n{entries}\n")


def hardware(table: str, entries: str) -> Provoke:
    like = {"hinges": "full overlay", "slides": "side mount"}[table]
    return of(f'{PLAIN}\n[{table}.own]\nlike = "{like}"\n{entries}\n')


ROWS = [
    *(
        Row("number", f"costs.{name}", "-3", "zero or more", costs(f"{name} = -3"), costs(f"{name} = 0"))
        for name in ("pin", "screw", "dowel", "other_hours")
    ),
    Row("number", "costs.pin", "is not an amount", "without quotes", costs('pin = "3"'), costs("pin = 3")),
    *(
        Row(
            "number",
            f"costs.{table}.price",
            "-1",
            "zero or more",
            costs("price = -1", f".{table}"),
            costs("price = 1", f".{table}"),
        )
        for table in ("glue", "finish", "blade", "dado_stack")
    ),
    *(
        Row(
            "number",
            f"{table}.own.price",
            "-2",
            "zero or more",
            hardware(table, "price = -2"),
            hardware(table, "price = 2"),
        )
        for table in ("hinges", "slides")
    ),
    Row("percent", "costs.markup", "101", "from 0 to 100", costs("markup = 101"), costs("markup = 100")),
    Row("percent", "costs.markup", "-1", "from 0 to 100", costs("markup = -1"), costs("markup = 0")),
    Row("percent", "costs.markup", "20 %", "plain number", costs('markup = "20 %"'), costs("markup = 20")),
    Row(
        "area",
        "costs.finish.covers",
        "0 ft2” is too small",
        "greater than zero",
        costs('covers = "0 ft2"', ".finish"),
        costs('covers = "0.1 ft2"', ".finish"),
    ),
    Row(
        "area",
        "costs.finish.covers",
        "125” is not an area",
        "with its unit",
        costs("covers = 125", ".finish"),
        costs('covers = "125 ft2"', ".finish"),
    ),
    Row(
        "area",
        "costs.glue.covers",
        "ft” is not an area",
        "11.6 m2",
        costs('covers = "32 ft"', ".glue"),
        costs('covers = "3 m2"', ".glue"),
    ),
    Row(
        "area",
        "costs.finish.per_hour",
        "too small",
        "greater than zero",
        costs('per_hour = "0 m2"', ".finish"),
        costs('per_hour = "6 m2"', ".finish"),
    ),
    Row(
        "cut-length",
        "costs.blade.lasts",
        "not a length of cut",
        "1500 ft",
        costs("lasts = 1500", ".blade"),
        costs('lasts = "1500 ft"', ".blade"),
    ),
    Row(
        "cut-length",
        "costs.dado_stack.lasts",
        "too small",
        "greater than zero",
        costs('lasts = "0 m"', ".dado_stack"),
        costs('lasts = "450 m"', ".dado_stack"),
    ),
    Row(
        "unknown-name",
        "costs.finish.not_on[1]",
        "birhc",
        "birch",
        costs('not_on = ["birch", "birhc"]', ".finish"),
        costs('not_on = ["birch"]', ".finish"),
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_entry_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


TOLD = """
[costs]
markup = 12.5
other_hours = 8
pin = 0.12
screw = 0.0625
dowel = 0.05

[costs.glue]
price = 9.5
covers = "3 m2"

[costs.finish]
name = "hard wax oil"
price = 41
covers = "125 ft2"
coats = 3
surfaces = "fronts"
per_hour = "60 ft2"
not_on = ["birch"]

[costs.blade]
price = 22
lasts = "1500 ft"

[costs.dado_stack]
price = 48
lasts = "450 m"

[hinges.own]
like = "full overlay"
price = 3.4

[slides.own]
like = "side mount"
price = 14
"""


def test_what_is_told_reads_back_the_same() -> None:
    job = read_job(PLAIN + TOLD)
    square_metre = (F(100000, 254) / 10) ** 2
    assert job.prices == Prices(
        F("12.5"),
        F(8),
        F("0.12"),
        F("0.0625"),
        F("0.05"),
        GluePrice(F("9.5"), 3 * square_metre),
        FinishPrice("hard wax oil", F(41), F(125 * 144), 3, Surfaces.FRONTS, F(60 * 144), ("birch",)),
        Sharpening(F(22), F(1500 * 12)),
        Sharpening(F(48), F(450 * 10000, 254)),
    )
    assert (job.hinges["own"].price, job.slides["own"].price) == (F("3.4"), F(14))
    assert read_job(write_job(job)) == job


def test_nothing_told_is_no_price() -> None:
    job = read_job(PLAIN)
    assert job.prices == NO_PRICES and not job.prices.are_told
    assert read_job(PLAIN + TOLD).prices.are_told


def test_the_other_unit_leaves_prices_and_areas_alone() -> None:
    there = read_job(in_other_unit(PLAIN + TOLD, Unit.MM, exactly=True).text)
    assert there.prices == read_job(PLAIN + TOLD).prices
