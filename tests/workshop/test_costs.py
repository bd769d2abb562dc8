"""What a job costs, line by line, against a box reckoned by hand.

The box, of panels 3/4 in thick: two sides 24 x 12, a bottom 22 1/2 x 12 between them, a top 23 1/4 x 12 in
rabbets 3/8 in deep.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.app.jobs.worked_job import open_job
from casewright.app.money.compared_jobs import compared
from casewright.workshop.costs.bench_hours import Session, bench_hours, tenths
from casewright.workshop.costs.cost_lines import CostKind, CostLine
from casewright.workshop.costs.cost_wording import cost_groups, cost_notes, sum_lines
from casewright.workshop.costs.cut_lengths import cut_lengths
from casewright.workshop.costs.finish_area import finish_area
from casewright.workshop.costs.glue_area import glued_in_joints, glued_under_edging
from casewright.workshop.operations import Machine
from casewright.workshop.order.step_times import Effort, Pace
from job_texts import EXAMPLES
from loft_job import LOFT, loft
from planned_once import planned_once
from priced_box import BOX, PRICES

STUDIO = (EXAMPLES / "pottery-studio.toml").read_text(encoding="utf-8")


def lines(text: str, kind: CostKind) -> list[CostLine]:
    return [line for line in planned_once(text).costs.lines if line.kind is kind]


def only(text: str, kind: CostKind) -> CostLine:
    (line,) = lines(text, kind)
    return line


def test_a_sheet_with_its_share_in_parts() -> None:
    """Parts 2 x 24 x 12 + 22 1/2 x 12 + 23 1/4 x 12 = 1125 of 96 x 48 = 4608 sq in: 24 %."""
    line = only(BOX + PRICES, CostKind.MATERIAL)
    assert (line.amount, line.money) == ("1 sheet at $96.00", F(96))
    assert line.follows == "24 % of it is in parts, 76 % offcuts and waste"


def test_rough_boards_tell_of_the_feet_that_are_bought_and_apart_of_clear_ones() -> None:
    """The share in parts is that of the feet on the line; with boards at hand no share can be told."""
    bought = LOFT[: LOFT.index("[[materials.maple.boards.at_hand]]")] + LOFT[LOFT.index("[made_of]") :]
    made = planned_once(bought, 0.2)
    (wood,) = made.board_purchases
    sizes = [made.project.dimensions(part) for part in made.project if part.material == "maple"]
    feet = sum((long * wide * thick for long, wide, thick in sizes), F(0)) / 144
    line = next(one for one in made.costs.lines if one.what == "hard maple, 4/4 FAS")
    assert wood.sure_feet and wood.feet > wood.clear_feet
    assert line.amount == f"{wood.feet} bf at $9.50"
    assert line.follows == (
        f"{float(feet):.1f} of {wood.feet} bf are in parts, {round(feet / wood.feet * 100)} %; "
        f"of clear boards the plan takes {float(wood.clear_feet):.1f} bf"
    )
    at_hand = next(one for one in loft().costs.lines if one.what == "hard maple, 4/4 FAS")
    assert at_hand.follows.startswith(f"{float(feet):.1f} bf are in parts; ")
    assert at_hand.follows.endswith("boards at hand count nothing") and "%" not in at_hand.follows


def test_screws_by_the_piece() -> None:
    """The bottom is 12 deep: screws 1 1/2 from each end and, 9 apart, one between: 3 at each side, 6 in all.
    The top is housed and has none."""
    line = only(BOX + PRICES, CostKind.HARDWARE)
    assert (line.amount, line.money) == ("6 at $0.10", F(6, 10))


def test_glue_by_the_area_that_meets() -> None:
    """At each side the bottom's end meets 12 x 3/4 = 9, the top's end 9 and its face the floor of the rabbet,
    12 x 3/8 = 4 1/2: 2 x 22 1/2 = 45 sq in = 0.3125 sq ft, at $10 a square foot $3.125, in cents $3.13."""
    joinings = planned_once(BOX + PRICES).worked.joinings
    assert glued_in_joints(one for case in joinings.values() for one in case) == 45
    line = only(BOX + PRICES, CostKind.GLUE)
    assert line.money == F("3.13") and line.amount == "0.31 bottles at $10"
    assert line.follows == "0.3 sq ft of joints, spread on one side"


def test_finish_by_the_faces_in_whole_cans() -> None:
    """A side has 2 (24 x 12 + 24 x 3/4 + 12 x 3/4) = 630 sq in, the bottom 2 (270 + 16.875 + 9) = 591.75, the
    top 2 (279 + 17.4375 + 9) = 610.875: together 2462.625 sq in = 17.1 sq ft. Three coats are 51.3 sq ft:
    5.13 cans of 10 sq ft, so 6, and 2.565 hours at 20 sq ft, in tenths 2.6 h at $50."""
    made = planned_once(BOX + PRICES)
    finish = made.project.job.prices.finish
    assert finish is not None and finish_area(made.project, finish) == F("2462.625")
    line = only(BOX + PRICES, CostKind.FINISH)
    assert (line.amount, line.money) == ("6 cans at $20", F(120))
    assert line.follows == "17 sq ft inside and out, 3 coats: 5.1 cans"
    hours = next(one for one in lines(BOX + PRICES, CostKind.HOURS) if one.what == "putting on finish")
    assert (hours.hours, hours.money) == (F("2.6"), F(130))


def test_what_gets_no_finish_is_left_out() -> None:
    bare = PRICES.replace("coats = 3", 'coats = 3\nnot_on = ["ply"]')
    assert only(BOX + bare, CostKind.FINISH).money == 0
    fronts = STUDIO + PRICES.replace("coats = 3", 'coats = 3\nsurfaces = "fronts"')
    worked = open_job(fronts)
    project = worked.needed()
    assert project.job.prices.finish
    area = finish_area(project, project.job.prices.finish)
    seen = ("DO", "DF", "FL", "FR", "TK")
    sizes = [
        project.dimensions(part) for part in project if part.mark.split("-")[1].rstrip("0123456789") in seen
    ]
    assert area == sum(2 * (a * b + a * c + b * c) for a, b, c in sizes) > 0


def test_a_panel_that_comes_faced_needs_no_finish_and_is_told_of() -> None:
    """The top of melamine is left out: of 2462.625 sq in its 610.875 go, and 1851.75 are 12.9 sq ft."""
    faced = BOX.replace("[construction]", "[sheet_of]\nO1-T = 'faced'\n\n[construction]")
    faced += "\n[materials.faced]\nsheet = 'hardwood ply 3/4'\nreadings = [0.75]\nprice = 60\n"
    melamine = faced + "kind = 'melamine-faced board'\n" + PRICES
    unknown = only(faced + PRICES, CostKind.FINISH)
    assert unknown.follows == only(BOX + PRICES, CostKind.FINISH).follows
    line = only(melamine, CostKind.FINISH)
    assert line.follows == "13 sq ft inside and out, 3 coats: 3.9 cans; none on melamine-faced board"
    assert line.amount == "4 cans at $20"
    said = melamine.replace("coats = 3", 'coats = 3\nnot_on = ["faced"]')
    assert only(said, CostKind.FINISH).follows == "13 sq ft inside and out, 3 coats: 3.9 cans", "own word"
    first, other = (planned_once(text) for text in (faced + PRICES, melamine))
    (_, beside) = compared(first, [("faced", other)])
    assert "13 sq ft to finish in place of 17 sq ft; none on melamine-faced board" in beside.otherwise


def test_blades_by_the_feet_they_cut() -> None:
    """The rabbets are 12 in in each side, 2 ft for the stack: $1.00 where 100 ft cost $50. The blades cut
    what the plan's cuts are long together."""
    made = planned_once(BOX + PRICES)
    lengths = cut_lengths(made.project.job.shop, made.ordered.operations)
    sawn = [one for one in made.ordered.operations if one.kind.cuts_up_a_sheet]
    assert {one.setting.machine for one in sawn} == {Machine.HAND_SAW, Machine.TABLE_SAW}
    assert lengths.dado_stack == 24 and lengths.blades == sum(one.travel for one in sawn)
    blades, stack = lines(BOX + PRICES, CostKind.BLADES)
    assert stack.money == 1
    assert blades.money == round(lengths.blades / 1200 * 30 * 100) / F(100)


def test_hours_are_the_plans_own_minutes() -> None:
    """Two rabbets: a setting 2 min, the stack mounted 8, two pieces half a minute each and a foot of cut
    each, 0.1: 11.2 min, 0.2 h. One dry fit 10 min, 0.2 h; one glue-up 20 min, 0.3 h; each at $50."""
    found = {one.what: one for one in lines(BOX + PRICES, CostKind.HOURS)}
    joints = found["dados, grooves, rabbets, notches and frame joints"]
    assert (joints.hours, joints.money) == (F("0.2"), F(10))
    assert (found["dry fits"].hours, found["gluing up cases"].hours) == (F("0.2"), F("0.3"))
    assert found["other hours"].money == 75


def test_the_sessions_share_out_every_minute_of_the_plan() -> None:
    """No step is counted twice or left out: by session they come to what the batches come to."""
    made = planned_once(STUDIO)
    found = bench_hours(made.ordered.batches, made.worked.joinings, Pace())
    assert sum(one.steps for one in found) == len(made.ordered.operations)
    whole = sum(text.minutes for text in made.told) / 60
    assert float(sum(one.hours for one in found)) == pytest.approx(whole, abs=0.05 * len(found))
    assert {Session.SHEETS, Session.EDGING, Session.CASES, Session.HANGING} <= {one.session for one in found}
    slow = bench_hours(made.ordered.batches, made.worked.joinings, Pace({Effort.GLUE_UP: 2.0}))
    usual, doubled = ({one.session: one.hours for one in each} for each in (found, slow))
    assert doubled[Session.CASES] == pytest.approx(2 * usual[Session.CASES], abs=0.1)
    assert doubled[Session.SHEETS] == usual[Session.SHEETS]


def test_edging_is_glued_over_the_thickness_of_its_panel() -> None:
    project = open_job(STUDIO).needed()
    thick = F("0.714") + F("0.002") / 6  # the mean of 0.714, 0.716 and 0.713
    edged = [part for part in project if part.edges]
    around = sum(
        (2 * project.sizes.of(part.length) + 2 * project.sizes.of(part.width) for part in edged), F(0)
    )
    assert all(project.sizes.of(part.thickness) == thick for part in edged)
    short = around * thick - glued_under_edging(project)
    assert abs(short) <= len(edged) * 4 * F(1, 8) * thick, "strips lap each other by their thickness"


def test_sums_are_those_of_the_lines_as_printed() -> None:
    costs = planned_once(BOX + PRICES).costs
    assert costs.is_complete
    bought = F(96) + F("0.6") + F("3.13") + 120
    assert costs.bought == bought
    assert costs.on_top == bought / 2 or abs(costs.on_top - bought / 2) <= F(1, 200)
    assert costs.total == bought + costs.of(CostKind.BLADES) + costs.hours * 50
    assert costs.quote == costs.total + costs.on_top
    told = dict(sum_lines(planned_once(BOX + PRICES).project, costs))
    assert list(told)[-1] == "Quote" and told["Quote"] == f"${float(costs.quote):,.2f}"


def test_what_has_no_price_is_said_and_not_free() -> None:
    made = planned_once(BOX)
    costs = made.costs
    assert not costs.is_complete
    assert {line.what for line in costs.unpriced} == {
        'wood screws #8 × 1 3/4"',
        "glue",
        "sharpening: saw blades",
        "sharpening: dado stack",
    }
    told = " ".join(cost_notes(made.project, costs))
    assert 'wood screws #8 × 1 3/4" (enter screw in [costs])' in told and "No finish is counted" in told
    assert [group.total for group in cost_groups(made.project, costs)][1] == "not priced"
    assert sum_lines(made.project, costs)[-1][0] == "Quote, as far as priced"


@pytest.mark.parametrize("entry", ["screw = 0", "[costs.glue]\nprice = 0", "[costs.blade]\nprice = 0"])
def test_a_price_of_zero_is_the_makers_word_that_it_is_free(entry: str) -> None:
    text = f"{BOX}\n[costs]\n{entry}\n"
    assert len(planned_once(text).costs.unpriced) == len(planned_once(BOX).costs.unpriced) - 1


def test_half_told_prices_are_not_guessed_at() -> None:
    """A bottle's price without what it covers is no price of a joint; hours of finishing are asked for."""
    half = PRICES.replace('covers = "1 ft2"\n', "").replace('per_hour = "20 ft2"\n', "")
    said = {line.what: line.enter for line in planned_once(BOX + half).costs.unpriced}
    assert said == {
        "glue": "price and covers in [costs.glue]",
        "putting on finish": "per_hour in [costs.finish]",
    }


def test_an_hour_the_shop_says_nothing_of_is_said_to_be_the_usual_one() -> None:
    usual = planned_once(BOX.replace("hourly = 50", "") + PRICES)
    assert "An hour counts as $60 until hourly" in " ".join(cost_notes(usual.project, usual.costs))
    own = planned_once(BOX + PRICES)
    assert "An hour counts" not in " ".join(cost_notes(own.project, own.costs))


def test_offcuts_off_the_rack_count_what_they_are_worth() -> None:
    made = planned_once(STUDIO)
    used = {name for one in made.purchases for name, _ in one.offcuts}
    found = [line for line in lines(STUDIO, CostKind.MATERIAL) if "off the rack" in line.what]
    assert len(found) == len(used) and all(line.money in (F(8), F(20)) for line in found)


def test_hours_in_tenths() -> None:
    assert [tenths(minutes) for minutes in (0.0, 2.9, 3.1, 6.0, 62.0)] == [0, 0, F(1, 10), F(1, 10), 1]
