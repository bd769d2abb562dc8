"""The figures that gaps and chances go by: each with its source, and what it does on both sides.

What nobody published is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.build.meetings import Mate, Meeting
from casewright.casework.job import Construction, Filler
from casewright.casework.project import Project, draw_up
from casewright.tolerance.advice import rank_advice as advice
from casewright.tolerance.as_built import cures
from casewright.tolerance.as_built import readings as as_built
from casewright.tolerance.as_built import square as squared
from casewright.tolerance.as_built.cures import gaps_out_of_range
from casewright.tolerance.as_built.readings import AsBuilt, fit_as_built
from casewright.tolerance.as_built.square import square_report
from casewright.tolerance.chains import limits as wanted
from casewright.tolerance.chains.limits import spare_limits
from casewright.tolerance.errors import rounded_size as rounded
from casewright.tolerance.errors.causes import Habits
from casewright.tolerance.outcomes import case_chance as boxes
from casewright.tolerance.outcomes import gap_spread as spread
from casewright.tolerance.outcomes.gap_spread import fit
from casewright.tolerance.tolerance_wording import percent_text
from samples import BASE, job, spec

NONE = "common practice, no source"
HAIR = F(1, 1000)

FIGURES = [
    (
        spread.ONE_IN_A_HUNDRED,
        2.5758,
        "normal distribution, 99.5 % point: 2.5758 (NIST e-Handbook 1.3.6.7.1)",
    ),
    (spread.WORST, 3.0, NONE),
    (as_built.EXPLAINED, 4.0, NONE),
    (squared.ODD, 4.0, NONE),
    (wanted.THIRTY_SECOND, F(1, 32), NONE),
    (wanted.TAPPED_IN, F(1, 200), NONE),
    (wanted.CAULKED, F(1, 8), NONE),
    (wanted.FILLER_LEAST, F(1, 2), NONE),
    (cures.FARTHEST, F(2), NONE),
    (cures.CURES, 6, NONE),
    (advice.MARGIN, 1.5, NONE),
    (advice.COSTLY, 0.02, NONE),
    (advice.AS_GOOD, 0.9, NONE),
    (boxes.DRAWS, 20_000, "a bound on the search"),
    (rounded.REACH, 7.0, "beyond it a normal tail is below 3e-12"),
    (Habits().bow, 0.004, NONE),
    (Habits().caliper, 0.001, NONE),
    (Habits().tape, 1 / 32, NONE),
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


def mate(project: Project, meeting: Meeting) -> Mate:
    return next(one for one in project.cases["B1"].mates if one.meeting is meeting)


def range_at(meeting: Meeting, play: F) -> tuple[F, F, F]:
    """The least and greatest gap at a mate that meets so, and the gap that is asked for there."""
    made = Construction(dado_play=play, back_play=2 * play, groove_play=play)
    project = draw_up(job(spec(construction=made, bays=BASE), construction=made))
    one = mate(project, meeting)
    limits = wanted.gap_limits(one, play)
    return project.sizes.of(limits.low), project.sizes.of(limits.high), project.sizes.of(one.gap)


def test_a_panel_that_slips_into_a_dado() -> None:
    """Up to 1/64 in of play it may come out 1/32 loose, above that twice its play; and 0.005 tight."""
    low, high, gap = range_at(Meeting.SLIP, F(1, 64))
    assert (low, high) == (F(-1, 200), F(1, 32)) and gap == F(1, 64)
    low, high, gap = range_at(Meeting.SLIP, F(1, 64) + HAIR)
    assert (low, high) == (F(-1, 200), 2 * gap) and high > F(1, 32)


def test_a_part_with_play() -> None:
    """From 1/32 in of play it may come out with twice that, below with 1/32 more; never without."""
    low, high, gap = range_at(Meeting.PLAY, F(1, 32))
    assert (low, high) == (F(0), 2 * gap)
    low, high, gap = range_at(Meeting.PLAY, F(1, 32) - HAIR)
    assert (low, high) == (F(0), gap + F(1, 32)) and high != 2 * gap


def test_flush_and_seated_joints_come_out_within_a_thirty_second() -> None:
    for meeting in (Meeting.FLUSH, Meeting.SEATED):
        low, high, gap = range_at(meeting, F(0))
        assert (gap - low, high - gap) == (F(1, 32), F(1, 32))


@pytest.mark.parametrize(
    ("meeting", "why"),
    [
        (Meeting.SLIP, "light tap"),
        (Meeting.PLAY, "twice the play"),
        (Meeting.FLUSH, "proud or shy"),
        (Meeting.SEATED, "clamps and screws"),
    ],
)
def test_each_range_says_why(meeting: Meeting, why: str) -> None:
    project = draw_up(job(spec(bays=BASE)))
    reason = wanted.gap_limits(mate(project, meeting), F(1, 16)).reason
    assert why in reason and reason.endswith("(common practice, no source)")


@pytest.mark.parametrize(
    ("filler", "low", "high"),
    [
        (Filler(F(2), F(3, 4), "ply"), F(-3, 2), F(3, 4)),  # planed down to 1/2, shown wider by its scribe
        (Filler(None, F(3, 4), "ply"), F(-3, 2), F(3, 4)),  # takes the 2 that its case leaves
        (Filler(F(1, 2), F(3, 4), "ply"), F(0), F(3, 4)),
        (Filler(F(3, 8), F(3, 4), "ply"), F(0), F(3, 4)),  # narrower than 1/2 from the start: not planed
        (None, F(0), F(1, 8)),  # caulk covers an eighth
    ],
)
def test_what_may_be_left_beside_a_run(filler: Filler | None, low: F, high: F) -> None:
    wide = F(36) + (filler.width or F(2) if filler else 0)
    project = draw_up(job(left=filler, opening=wide))
    limits = spare_limits(project.runs[0], project.sizes)
    right = F(1, 8)  # the other end is open in every case
    assert project.sizes.of(limits.low) == low and project.sizes.of(limits.high) == high + right


def test_diagonals_both_too_long_are_said_beyond_four_readings() -> None:
    """The sample shop's rule reads to 0.01 in, so 0.04."""
    project = draw_up(job())
    square = F("49.862310")  # of 36 by 34 1/2
    for longer, odd in ((F("0.0399"), False), (F("0.0401"), True)):
        said = " ".join(square_report(project, Habits(), "B1", square + longer, square + longer).sentences)
        assert ("than the sides allow" in said) is odd
        said = " ".join(square_report(project, Habits(), "B1", square - longer, square - longer).sentences)
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
