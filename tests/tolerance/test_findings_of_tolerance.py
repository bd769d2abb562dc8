"""Every finding of what was measured, and the nearest reading without it.

The sample shop reads a rule with a deviation of 0.01 in.
"""

from __future__ import annotations

from fractions import Fraction as F

from casewright.casework.project import draw_up
from casewright.findings import Weight
from casewright.lengths.length import Unit, parse_length
from casewright.shop.measuring_tools import MeasuringTool
from casewright.tolerance.as_built.doubtful import doubt_reading
from casewright.tolerance.as_built.readings import AsBuilt, fit_as_built
from casewright.tolerance.outcomes.gap_spread import fit
from finding_rows import Provoke, Row, check, each
from samples import job

PLAN = fit(draw_up(job()))
SQUARE = F("49.8623")  # the diagonal of 36 by 34 1/2: sqrt(1296 + 1190.25)


def read(*readings: tuple[str, F], tool: MeasuringTool = MeasuringTool.RULE) -> Provoke:
    """What is said once these sizes have been read."""
    as_built = AsBuilt()
    for name, value in readings:
        as_built = as_built.read(name, value, tool)
    return lambda: fit_as_built(PLAN, as_built).findings


def twice(apart: F, tool: MeasuringTool = MeasuringTool.RULE) -> Provoke:
    return read(("B1-L.length", F(69, 2)), ("B1-L.length", F(69, 2) + apart), tool=tool)


def diagonals(rising: F, falling: F) -> Provoke:
    return read(("B1.rising", rising), ("B1.falling", falling))


def off(name: str, by: str) -> Provoke:
    return read((name, PLAN.project.sizes.of(name) + F(by)))


def typed(name: str, said: str) -> Provoke:
    """What is asked of a reading before it is kept."""
    doubt = doubt_reading(PLAN.project, name, parse_length(said, Unit.INCH), said)
    return lambda: [doubt.finding] if doubt else []


AGAIN = "Measure again"

ROWS = [
    Row(
        "reading-doubtful",
        "B1-L.length",
        '34 1/2" was planned; 345 is ten times that',
        "Did you mean 34 1/2?",
        typed("B1-L.length", "345"),
        typed("B1-L.length", "34 5/8"),
    ),
    Row(
        "reading-doubtful",
        "ply.thickness",
        "17.6 cannot be a sheet of birch ply",
        "Did you mean 17.6 mm?",
        typed("ply.thickness", "17.6"),
        typed("ply.thickness", "17.6 mm"),
    ),
    Row(
        "reading-doubtful",
        "B1-L.length",
        "less than half",
        "Measure again",
        typed("B1-L.length", "17"),
        typed("B1-L.length", "17 1/4"),
    ),
    Row(
        "no-such-size",
        "B1-L.breadth",
        "not a size",
        "for one of its parts",
        read(("B1-L.breadth", F(24))),
        off("B1-L.width", "0"),
    ),
    Row(
        "no-such-size",
        "B2.rising",
        "not a size",
        "for one of its parts",
        read(("B2.rising", F(50))),
        read(("B1.rising", F(50))),
    ),
    # Four deviations of the difference of two readings: 4 x sqrt(0.01^2 + 0.01^2) = 0.05657.
    Row(
        "readings-disagree",
        "B1-L.length",
        '34 1/2" by rule (reading 1), 34 9/16" by rule (reading 2)',
        "Measure once more",
        twice(F("0.0566")),
        twice(F("0.0565")),
        Weight.WARN,
    ),
    Row(
        "readings-disagree",
        "B1-L.length",
        "by caliper",
        "undo the wrong",
        twice(F("0.00566"), MeasuringTool.CALIPER),
        twice(F("0.00565"), MeasuringTool.CALIPER),
        Weight.WARN,
    ),
    Row(
        "readings-disagree",
        "B1-L.length",
        "by tape",
        "undo the wrong",
        twice(F("0.1768"), MeasuringTool.TAPE),
        twice(F("0.1767"), MeasuringTool.TAPE),
        Weight.WARN,
    ),
    # Four deviations of fence, its scale, cut and rule: 4 x sqrt(3 x 0.01^2 + 0.003^2) = 0.07031.
    Row(
        "misread-or-miscut",
        "B1-L.width",
        '1/16" wider than the 24" planned',
        AGAIN,
        off("B1-L.width", "0.0704"),
        off("B1-L.width", "0.0703"),
        Weight.WARN,
    ),
    Row(
        "misread-or-miscut",
        "B1-L.width",
        '1/16" narrower',
        "spoiled",
        off("B1-L.width", "-0.0704"),
        off("B1-L.width", "-0.0703"),
        Weight.WARN,
    ),
    # A sheet varies by 0.005 over lot, sheet and place: 4 x sqrt(0.01^2 + 0.005^2) = 0.04472.
    Row(
        "misread-or-miscut",
        "ply.thickness",
        "0.764 in, 0.045 in thicker than the 0.719 in planned; the sheet and the reading",
        "that sheet wants a material of its own",
        off("ply.thickness", "0.0448"),
        off("ply.thickness", "0.0447"),
        Weight.WARN,
    ),
    # The cutter's height by 0.004, a sheet not flat by 0.004: 4 x sqrt(0.01^2 + 2 x 0.004^2) = 0.04596.
    Row(
        "misread-or-miscut",
        "B1-L.groove-back.depth",
        "less than",
        AGAIN,
        off("B1-L.groove-back.depth", "-0.0460"),
        off("B1-L.groove-back.depth", "-0.0459"),
        Weight.WARN,
    ),
    # A slip of the rule by its first inch, told to one mark of the rule, 1/32 in.
    Row(
        "misread-or-miscut",
        "B1-L.width",
        "1 in line",
        AGAIN,
        off("B1-L.width", "-31/32"),
        off("B1-L.width", "0"),
        Weight.WARN,
    ),
    # The sine of the lean would be (72^2 - 14^2) / (4 x 36 x 34 1/2), 1.004; with 15 in it is 0.998.
    Row(
        "diagonals",
        "B1",
        "72.0 and 14.0",
        "outside corners",
        diagonals(F(72), F(14)),
        diagonals(F(72), F(15)),
    ),
    # A lean of 34 1/2 x (a^2 - b^2) / (4 x 36 x 34 1/2): the rule's 0.01 is a difference of 0.01444 in.
    Row(
        "out-of-square",
        "B1",
        "to the right",
        "lower left and upper right",
        diagonals(SQUARE + F("0.0073"), SQUARE - F("0.0073")),
        diagonals(SQUARE + F("0.0072"), SQUARE - F("0.0072")),
        Weight.WARN,
    ),
    Row(
        "out-of-square",
        "B1",
        "to the left",
        "upper left and lower right",
        diagonals(SQUARE - F("0.0073"), SQUARE + F("0.0073")),
        diagonals(SQUARE, SQUARE),
        Weight.WARN,
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_reading_and_not_of_its_neighbour(row: Row) -> None:
    check(row)
