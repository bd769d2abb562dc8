"""The figures bench work goes by: each with its source, and what it does just below, at and above.

A source says who published the figure; where nobody did it is common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.job import Bay
from casewright.casework.parts.features.channel import Channel
from casewright.casework.project import draw_up
from casewright.lengths.length import MM, Mark, Unit
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.shop.machines import DadoStack
from casewright.workshop import cut_wording as cutwords
from casewright.workshop import hardware
from casewright.workshop.assembly import butt_joints, screws
from casewright.workshop.assembly import clamps as clamping
from casewright.workshop.assembly.joining import glue_ups
from casewright.workshop.assembly.screws import Screw, screw_places, screw_through
from casewright.workshop.channels import passes
from casewright.workshop.channels import stack_packing as packing
from casewright.workshop.channels import tooling as cutters
from casewright.workshop.channels.passes import blade_passes
from casewright.workshop.channels.stack_packing import pack
from casewright.workshop.operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting
from casewright.workshop.order import batches as order
from casewright.workshop.order import step_times as times
from casewright.workshop.order.step_times import START, Effort, Pace, TimedWork, learn_pace
from casewright.workshop.safety import hazards as care
from casewright.workshop.safety.hazards import Hazard, cautions
from casewright.workshop.sheets import sheet_cuts as sheetcuts
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.work import Work, work
from samples import SHOP, job, spec

HAIR = F(1, 64)
NONE = "common practice, no source"

FIGURES = [
    (screws.PENETRATION, 6, "NDS 2018, 12.1.5.6: least penetration of a wood screw, 6 diameters"),
    (care.NARROW, F(6), "a saw's manual: a push stick below 6 in"),
    (care.THIN_STRIP, F(1, 2), NONE),
    (care.FREE_OVERHANG, F(12), NONE),
    (clamping.CLAMP_SPACING, F(12), NONE),
    (clamping.NARROW, F(6), NONE),
    (butt_joints.DRIVER_ROOM, F(1, 2), NONE),
    (hardware.PINS_TO_A_SHELF, 4, "common practice, no source: a pin near each corner"),
    (screws.FIRM, F(1, 2), NONE),
    (screws.SPACING, F(6), NONE),
    (screws.FROM_THE_END, F(3, 2), NONE),
    (sheetcuts.SLED_RATIO, 2, NONE),
    (sheetcuts.SLED_ROOM, F(24), NONE),
    (sheetcuts.AS_GOOD_AS_SQUARE, F(7, 8), NONE),
    (care.LONG_BEYOND, F(48), NONE),
    (cutwords.NARROW, F(6), NONE),
    (cutwords.NOT_CRITICAL, F(1, 8), NONE),
    (passes.LEAST_OVERLAP, F(1, 64), NONE),
    (passes.BLADE_PROUD, F(1, 4), NONE),
    (passes.LEAST_BURIED, F(1, 16), NONE),
    (packing.MOST_SHIMS, 4, NONE),
    (cutters.LOOSEST, F(1, 128), NONE),
    (times.PULL, 4.0, NONE),
    (times.FLOOR, 0.1, NONE),
    (order.USUAL_COSTS.change, 2, NONE),
    (order.USUAL_COSTS.tool_change, 8, NONE),
]


@pytest.mark.parametrize(("figure", "value", "source"), FIGURES)
def test_a_figure_is_what_its_source_says(figure: object, value: object, source: str) -> None:
    assert figure == value, source


def test_the_minutes_to_start_from_are_an_assumption_of_ours() -> None:
    """No source: the shop's own times replace them."""
    told = [START[toil] for toil in Effort]
    assert told == [2.0, 8.0, 2.0, 0.5, 0.1, 0.12, 3.0, 10.0, 20.0, 2.0, 4.0, 6.0, 5.0]


BLADE = Setting(Machine.TABLE_SAW, Cutter("blade", F(1, 8)), Guide.FENCE, F(20))
RIP = Operation(
    "rip", OperationKind.RIP, "ply 1", ("B1-L",), BLADE, Hold("near edge", "face", "left edge", True),
    (F(40), F(30), F(3, 4)), F(40),
)  # fmt: skip


def minded(
    hazard: Hazard, *, distance: F = F(20), long: F = F(40), wide: F = F(30), per_foot: F = F(2)
) -> list[str]:
    """What is to be minded of one kind at a rip of this distance in a piece of this size and weight."""
    step = replace(RIP, size=(long, wide, F(3, 4)), setting=replace(BLADE, distance=distance))
    return [one.text for one in cautions(step, SHOP, Mark.SIXTY_FOURTH, per_foot) if one.hazard is hazard]


def test_narrow_pieces_are_pushed_and_thin_strips_held() -> None:
    assert minded(Hazard.NARROW, distance=F(6)) == []
    assert "push stick" in minded(Hazard.NARROW, distance=F(6) - HAIR)[0]
    assert "push stick" in minded(Hazard.NARROW, distance=F(1, 2))[0]
    assert "thrown back" in minded(Hazard.NARROW, distance=F(1, 2) - HAIR)[0]


def test_a_foot_may_hang_over_the_table_s_far_side() -> None:
    """The sample saw's table goes 14 in beyond the blade, and 27 in from front to back."""
    assert minded(Hazard.SUPPORT, wide=F(20 + 14 + 12)) == []
    assert "support it there" in minded(Hazard.SUPPORT, wide=F(20 + 14 + 12) + HAIR)[0]


def test_more_than_half_a_piece_never_hangs_over() -> None:
    """With the fence at 2 in the middle of a piece 32 in wide lies on the table's edge."""
    assert "support it there" in minded(Hazard.SUPPORT, distance=F(2), wide=F(32))[0]
    assert "slide on a stand" in minded(Hazard.SUPPORT, distance=F(2), wide=F(32) + HAIR)[0]


def test_a_helper_is_asked_for_what_one_maker_does_not_carry_or_hold_down() -> None:
    """A piece 36 in square is 9 square feet: of 50 lb one maker carries, and slides it on a stand."""
    most = F(50) / 9
    square = {"distance": F(2), "long": F(36), "wide": F(36)}
    assert "slide on a stand" in minded(Hazard.SUPPORT, **square, per_foot=most)[0]
    assert "have a helper carry it" in minded(Hazard.SUPPORT, **square, per_foot=most + HAIR)[0]
    far = F(2) + F(1, 8) + care.LONG_BEYOND
    assert "slide on a stand" in minded(Hazard.SUPPORT, distance=F(2), wide=far)[0]
    assert "have a helper carry it" in minded(Hazard.SUPPORT, distance=F(2), wide=far + HAIR)[0]


def test_a_piece_twice_as_long_as_the_table_needs_a_stand() -> None:
    assert minded(Hazard.SUPPORT, long=F(54)) == []
    assert "outfeed stand or a helper" in minded(Hazard.SUPPORT, long=F(54) + HAIR)[0]


def screw(board: F, unit: Unit = Unit.INCH) -> Screw:
    found = screw_through(board, unit)
    assert found is not None
    return found


def test_screws_by_the_board_they_go_through() -> None:
    """Shanks: ASME B18.6.1, #6 0.138 and #8 0.164 in; holes: a boatbuilder's screw chart, plate 6B."""
    thin, thick = screw(F(1, 2) - HAIR), screw(F(1, 2))
    assert (thin.size, thin.diameter, thin.pilot, thin.clearance) == ("#6", F("0.138"), F(1, 16), F(9, 64))
    assert (thick.size, thick.diameter, thick.pilot, thick.clearance) == (
        "#8", F("0.164"), F(7, 64), F(11, 64),
    )  # fmt: skip
    # 1 3/4 less six diameters of 0.164 is 0.766: that board is held by 1 3/4, one thicker is not.
    assert screw(F("0.766")).length == F(7, 4)
    assert screw(F("0.767")).length == F(2)
    assert screw(12 * MM, Unit.MM).size == "3.5" and screw(13 * MM, Unit.MM).size == "4"


def test_screws_stand_six_inches_apart_at_most_and_so_far_from_the_end() -> None:
    assert screw_places(F(9)) == (F(3, 2), F(15, 2))
    assert len(screw_places(F(9) + HAIR)) == 3
    assert screw_places(F(6))[0] == F(3, 2) and screw_places(F(6) - HAIR)[0] == F(3, 2) - HAIR / 4


@pytest.mark.parametrize("shelves", [0, 1, 3])
def test_four_pins_hold_a_shelf(shelves: int) -> None:
    project = draw_up(job(spec(bays=(Bay(adjustable=shelves),))))
    assert hardware.hardware(project, ()).shelf_pins == 4 * shelves


def test_a_clamp_for_every_foot_of_joint() -> None:
    """Sides 24 in deep take two clamps at each joint across, and any deeper a third."""

    def clamps(depth: F) -> int:
        project = draw_up(job(spec(depth=depth)))
        return sum(joining.clamps.number for joining in glue_ups(project, "B1"))

    assert clamps(F(24)) == clamps(F(23))
    assert clamps(F(24) + HAIR) > clamps(F(24))


def test_passes_of_a_blade_overlap_by_a_hair() -> None:
    """An eighth of kerf, a 64th of overlap: two passes cut up to 15/64, any more takes a third."""
    assert len(blade_passes(F(15, 64), F(1, 8))) == 2
    assert len(blade_passes(F(15, 64) + F(1, 1000), F(1, 8))) == 3


def test_four_shims_at_most() -> None:
    stack = DadoStack("stack", F(1, 8), (), (F(1, 100),) * 5, F(13, 16))
    nearest = pack(stack, F(1, 4) + F(5, 100))
    assert nearest.under is not None and nearest.under.width == F(1, 4) + F(4, 100)


def test_real_times_move_a_figure_by_how_many_there_are() -> None:
    """One reading against the pull of four: a dry fit twice as long moves the factor by a fifth."""
    twice = TimedWork({Effort.DRY_FIT: 1.0}, 20.0)
    assert learn_pace([twice]).factors[Effort.DRY_FIT] == pytest.approx(1 + 1 / 5)
    assert learn_pace([twice] * 4).factors[Effort.DRY_FIT] == pytest.approx(1 + 4 / 8)
    nothing = TimedWork({Effort.DRY_FIT: 1.0}, 1e-9)
    assert learn_pace([nothing] * 1000).factors[Effort.DRY_FIT] == 0.1
    assert Pace().minutes({Effort.DRY_FIT: 1.0, Effort.HOLE: 10.0}) == pytest.approx(11.2)


def planned(height: F, shelf: F, reach: F) -> tuple[Work, F, F]:
    """The work of a case with one fixed shelf; where its dado lies from the lower end, and the upper."""
    shop = replace(SHOP, table_saw=replace(SHOP.table_saw, rip_capacity=reach))
    project = draw_up(replace(job(spec("T1", height=height, bays=(Bay(fixed=(shelf,)),))), shop=shop))
    plans = {key: solve(problem, MaxIterations(3)) for key, problem in cut_problems(project).items()}
    channel = project.parts["T1-L"].feature("dado-F11")
    assert isinstance(channel, Channel)
    at, width = project.sizes.of(channel.at), project.sizes.of(channel.width)
    return work(project, plans), at, height - at - width


@pytest.mark.parametrize(
    ("shelf", "reach", "turned"),
    [
        (F(30), F(24), False),  # out of reach from both ends, and further from the upper
        (F(44), F(24), True),  # out of reach from both, nearer from the upper
        (F(44), F(50), False),  # within reach: never turned, though the upper end is nearer
        (F(44), F(45), True),
    ],
)
def test_a_dado_is_run_from_the_other_end_only_where_that_is_nearer(shelf: F, reach: F, turned: bool) -> None:
    done, near, far = planned(F(84), shelf, reach)
    steps = [step for key, step in done.by_key.items() if key.startswith("T1-L dado-F11")]
    against = "upper end" if turned else "lower end"
    assert steps and {step.hold.against for step in steps} == {against}
    assert (far < near and near > reach) is turned
    assert steps[0].setting.distance == pytest.approx(far if turned else near, abs=3 / 4)
