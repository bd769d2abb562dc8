"""Cases on studs: where screws can go, how many it takes, and walls that are refused."""

from dataclasses import replace
from fractions import Fraction as F
from math import atan2, degrees, hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.shop.walls import Framing
from casewright.strength.hung_on_screws import (
    HangingStrip,
    HungCase,
    HungOnScrews,
    HungRow,
    first_that_meets,
    hung_row,
)
from casewright.strength.stud_wall import StudWall, wall_question
from casewright.strength.wood_screws import wood_screws

EIGHT, TEN = wood_screws()[8], wood_screws()[10]
STRIP = HangingStrip(F(3, 4), F("35.25"), F(28), F(3), F(3, 4), 0.5, F(1, 4))
CASE = HungCase("W1", F(10), STRIP, F(30), F(12), F(50), F(120))
WALL = StudWall(tuple(F(16 * number) for number in range(1, 8)), "spruce-pine-fir")
HUNG = HungOnScrews(CASE, WALL, TEN, F(3))


def test_screws_go_where_studs_stand_behind_the_strip() -> None:
    """The strip lies from 10 3/4 to 45 1/4 along the wall: studs at 16 and 32 are behind it, 48 is not."""
    assert HUNG.studs == (F(16), F(32))
    assert [place.across for place in HUNG.places] == [16, 16, 32, 32]
    low, high = HUNG.places[0].up, HUNG.places[1].up
    assert low + high == 2 * STRIP.at
    assert low - (STRIP.at - STRIP.height / 2) >= F("2.5") * F("0.19")
    assert high - low >= 5 * F("0.19")


def test_a_screw_moves_off_the_middle_of_a_stud_near_the_strips_end() -> None:
    """#10: 1.9 in from the strip's end, 0.475 in from the stud's edge, so up to 0.275 in off its middle."""
    near = StudWall((F("12.5"), F("28.5")), "spruce-pine-fir")
    places = replace(HUNG, wall=near).places
    assert places[0].across == F("10.75") + F("1.9") == F("12.65")
    too_near = StudWall((F("12.3"), F("28.5")), "spruce-pine-fir")
    assert replace(HUNG, wall=too_near).studs == (F("28.5"),)


def test_a_low_strip_takes_one_row_and_a_sliver_none() -> None:
    def rows(height: F) -> int:
        case = replace(CASE, strip=replace(STRIP, height=height))
        return len(replace(HUNG, case=case).places)

    assert (rows(F(2)), rows(F("1.5")), rows(F("0.9"))) == (4, 2, 0)


def test_the_pull_is_the_moment_about_the_lower_back_edge() -> None:
    """12 in deep: weight 6 in out; the strip 28 in up: 6/28 of the weight pulls off the wall. Each of the
    four screws then bears a quarter of the weight down and a quarter of that pull, a quarter more than
    evenly."""
    assert HUNG.pull_share == pytest.approx(6 / 28)
    down, pull = 1.25 / 4, 1.25 / 4 * 6 / 28
    at_limit = HUNG.through.at_angle(degrees(atan2(pull, down)))
    assert HUNG.bears * hypot(down, pull) == pytest.approx(
        min(at_limit, HUNG.through.lateral * hypot(1, 6 / 28))
    )


def test_a_lower_strip_shares_the_weight_but_not_the_pull() -> None:
    """Two rows more, near the lower edge: each screw bears an eighth of the weight, the four above all the
    pull as before. A lower strip alone holds nothing."""
    both = replace(HUNG, case=replace(CASE, lower=replace(STRIP, at=F(2))))
    assert len(both.places) == 8 and both.lower_places[0].up < 4
    assert HUNG.bears < both.bears <= 2 * HUNG.bears
    down, pull = 1.25 / 8, 1.25 / 4 * 6 / 28
    assert both.bears * hypot(down, pull) <= both.through.at_angle(degrees(atan2(pull, down))) * (1 + 1e-9)
    sliver = replace(both, case=replace(both.case, strip=replace(STRIP, height=F("0.9"))))
    assert sliver.lower_places and sliver.bears == 0.0


def row(*cases: HungCase, wall: StudWall = WALL) -> HungRow:
    return hung_row(cases, wall, TEN, F(3))


def test_cases_screwed_to_each_other_hang_as_one_row() -> None:
    """A narrow case on one stud is borne by its neighbour too, as far as all the screws go."""
    strip = replace(STRIP, right=F("14.25"))
    narrow = replace(CASE, name="W2", left=F(40), strip=strip, empty=F(20), contents=F(20))
    assert row(narrow).studs == (F(48),) and not row(narrow).meets, "one stud alone"
    light = replace(CASE, contents=F(0))
    both = row(light, narrow)
    assert both.studs == (F(16), F(32), F(48)) and both.full == 90
    assert both.bears == pytest.approx(sum(one.bears for one in both.cases))
    assert both.meets and not row(CASE, replace(narrow, contents=F(200))).meets


def test_a_thicker_screw_can_do() -> None:
    """On three studs two rows bear the full case; the thinnest screw that does is taken."""
    long = replace(CASE, strip=replace(STRIP, right=F("40.25")))
    found = first_that_meets([long], WALL, list(wood_screws().values()), [F(3), F("2.5"), F(2)])
    assert found is not None and found.meets
    (hung,) = found.cases
    assert len(found.studs) == 3
    thinner = [one for one in wood_screws().values() if one.gauge < hung.screw.gauge]
    assert thinner and not any(hung_row([long], WALL, one, F(3)).meets for one in thinner)
    assert first_that_meets([replace(long, contents=F(2000))], WALL, [EIGHT, TEN], [F(3)]) is None


def test_a_strip_of_five_millimetres_bears_less() -> None:
    """The wall case of the issue, on strips 5 mm thick: heads draw through."""
    thin = replace(HUNG, case=replace(CASE, strip=replace(STRIP, thickness=F(25, 127))))
    assert thin.bears < 0.6 * HUNG.bears


def test_a_screw_too_short_for_the_stud_bears_nothing() -> None:
    short = replace(HUNG, length=F(2))
    assert short.bears == 0.0


@given(deep=st.integers(6, 30), deeper=st.integers(1, 20))
def test_a_deeper_case_bears_no_more(deep: int, deeper: int) -> None:
    here, there = (replace(HUNG, case=replace(CASE, depth=F(one))) for one in (deep, deep + deeper))
    assert there.pull_share > here.pull_share
    assert there.bears <= here.bears * (1 + 1e-9)


def test_other_walls_are_for_a_licensed_person() -> None:
    assert wall_question(Framing.WOOD_STUDS) is None
    for kind in (Framing.MASONRY, Framing.METAL_STUDS, None):
        question = wall_question(kind)
        assert question is not None and "licensed" in question.ask


def test_what_is_taken_for_granted_is_said() -> None:
    said = " ".join(HUNG.assumptions(lambda length: f"{float(length):.2f} in"))
    for part in (
        "spruce-pine-fir",
        "0.42",
        "#10",
        "pilot holes",
        "1.50 in into the stud",
        "factor 1.0",
        "1.25 times",
    ):
        assert part in said
    assert "safe" not in said


@pytest.mark.parametrize("studs", [(), (F(16), F(17)), (F(32), F(16))])
def test_a_wall_without_studs_is_refused(studs: tuple[F, ...]) -> None:
    with pytest.raises(ValueError, match=r"at least one stud|overlap or stand out of order"):
        StudWall(studs, "spruce-pine-fir")


def test_weights_and_sizes_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="the contents of W1 cannot be less than zero, not -3 lb"):
        replace(CASE, contents=F(-3))
    with pytest.raises(ValueError, match="W1 needs a height, a depth and a strip above"):
        replace(CASE, depth=F(0))
