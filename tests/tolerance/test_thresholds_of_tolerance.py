"""The figures that gaps and chances go by: each with its source, and what it does on both sides.

What nobody published is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.project import draw_up
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.shop import thickness_levels
from casewright.shop.deviations import Workmanship
from casewright.tolerance.advice import rank_advice as advice
from casewright.tolerance.as_built import cures
from casewright.tolerance.as_built import readings as as_built
from casewright.tolerance.as_built import square as squared
from casewright.tolerance.as_built.cures import gaps_out_of_range
from casewright.tolerance.as_built.readings import AsBuilt, fit_as_built
from casewright.tolerance.as_built.square import square_report
from casewright.tolerance.chains import bending
from casewright.tolerance.chains import limits as wanted
from casewright.tolerance.errors import rounded_size as rounded
from casewright.tolerance.outcomes import case_outcome as boxes
from casewright.tolerance.outcomes import gap_spread as spread
from casewright.tolerance.outcomes.gap_spread import fit
from casewright.tolerance.tolerance_wording import percent_text
from samples import job

NONE = "common practice, no source"

FIGURES = [
    (
        spread.ONE_IN_A_HUNDRED,
        2.5758,
        "normal distribution, 99.5 % point: 2.5758 (NIST e-Handbook 1.3.6.7.1)",
    ),
    (spread.WORST, 3.0, NONE),
    (as_built.EXPLAINED, 4.0, NONE),
    (squared.ODD, 4.0, NONE),
    (wanted.TAPPED_IN, F(4, 1000), NONE),
    (wanted.SANDED_IN, F(20, 1000), NONE),
    (wanted.BY_HAND, 15, NONE),
    (wanted.BY_CLAMP, 300, NONE),
    (wanted.UNFELT, F(1, 64), NONE),
    (wanted.LEFT_OPEN, F(1, 32), NONE),
    (wanted.ROCKS, F(1, 32), NONE),
    (wanted.PLANED, F(1, 32), NONE),
    (bending.PLYWOOD, 1.2e6, "between 0.95e6 and 1.8e6 psi: AWS ed. 1 (2009), 4.4.14.10"),
    (bending.BOARD, 0.5e6, "ANSI A208.2, from memory"),
    (thickness_levels.PRIOR_READINGS, 4, NONE),
    (wanted.CAULKED, F(1, 8), NONE),
    (wanted.FILLER_LEAST, F(1, 2), NONE),
    (cures.FARTHEST, F(2), NONE),
    (cures.CURES, 6, NONE),
    (cures.SHALLOWEST, F(1, 8), NONE),
    (advice.MARGIN, 1.5, NONE),
    (advice.COSTLY, 0.02, NONE),
    (advice.AS_GOOD, 0.9, NONE),
    (boxes.DRAWS, 8_000, "a bound on the search"),
    (rounded.REACH, 7.0, "beyond it a normal tail is below 3e-12"),
]


@pytest.mark.parametrize(("figure", "value", "source"), FIGURES)
def test_a_figure_is_what_its_source_says(figure: float, value: float, source: str) -> None:
    assert float(figure) == pytest.approx(float(value), abs=5e-5), source


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (0.0, "under 0.1 %"),
        (0.0005, "under 0.1 %"),
        (0.00051, "0.1 %"),
        (0.001, "0.1 %"),
        (0.01, "1.0 %"),
        (0.028, "2.8 %"),
        (0.05, "5.0 %"),
        (0.0994, "9.9 %"),
        (0.1, "10 %"),
        (0.33, "33 %"),
        (0.99, "99 %"),
        (0.9901, "over 99 %"),
        (1.0, "100 %"),
    ],
)
def test_a_chance_is_printed_as_it_is(chance: float, said: str) -> None:
    assert percent_text(chance) == said


def test_diagonals_both_too_long_are_said_beyond_four_readings() -> None:
    """The sample shop's rule reads to 0.01 in, so 0.04."""
    project = draw_up(job())
    square = F("49.862310")  # of 36 by 34 1/2
    for longer, odd in ((F("0.0399"), False), (F("0.0401"), True)):
        said = " ".join(square_report(project, "B1", square + longer, square + longer).sentences)
        assert ("than the sides allow" in said) is odd
        said = " ".join(square_report(project, "B1", square - longer, square - longer).sentences)
        assert ("shorter than the sides allow" in said) is odd


def test_no_cure_moves_a_size_by_more_than_two_inches() -> None:
    project = draw_up(job())
    plan = fit(project)
    length = project.sizes.of("B1-K.length") + F(3)
    known = AsBuilt().cut_now(plan, project.parts).read("B1-K.length", length)
    built = fit_as_built(plan, known)
    assert gaps_out_of_range(built.fit)
    moves = [abs(step.change) for cure in cures.find_cures(built.fit, known) for step in cure.steps]
    assert max(moves, default=F(0)) <= 2
    length = project.sizes.of("B1-K.length") + F(2)
    known = AsBuilt().cut_now(plan, project.parts).read("B1-K.length", length)
    moves = [
        abs(step.change)
        for cure in cures.find_cures(fit_as_built(plan, known).fit, known)
        for step in cure.steps
    ]
    assert max(moves) == 2


TABLE = {
    "fence": (0.010, 0.006, 0.003),
    "scale": (0.010, 0.006, 0.002),
    "fence_again": (0.006, 0.003, 0.002),
    "cut": (0.003, 0.003, 0.002),
    "dado_packed": (0.004, 0.003, 0.002),
    "dado_tried": (0.003, 0.002, 0.0015),
    "groove": (0.005, 0.003, 0.002),
    "height": (0.004, 0.003, 0.002),
    "flatness": (0.004, 0.003, 0.002),
    "hand_saw": (0.020, 0.012, 0.008),
    "rule": (0.010, 0.007, 0.005),
    "tape": (1 / 32, 1 / 32, 1 / 50),
    "fitted": (0.008, 0.005, 0.003),
}
"""The three shops to start from, as they were written down before the program had them: common practice, no
source, but for the tape (NIST Handbook 44)."""


def test_the_three_shops_are_those_of_the_table() -> None:
    known = packaged_catalogue().deviations
    for name, figures in TABLE.items():
        assert [getattr(known[shop], name) for shop in Workmanship] == pytest.approx(list(figures)), name
