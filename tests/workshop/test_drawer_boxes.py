"""Drawers in the shop: when they are cut, how they go together, what is bought for them, and put right."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from math import hypot

import pytest

from casework.drawer_jobs import SLIDES, with_drawers
from casewright.casework.front_choices import DrawerBottom, DrawerJoint, Front, FrontKind
from casewright.casework.job import Bay, FaceFrame
from casewright.casework.parts.part import DRAWER_BOX
from casewright.casework.project import Project, draw_up
from casewright.workshop.assembly.joining import GlueUp, Stage, glue_ups
from casewright.workshop.batch_wording import BatchWriter
from casewright.workshop.channels.tooling import Tools
from casewright.workshop.dovetail_work import dovetail_setting
from casewright.workshop.hardware import SlidesBought, hardware
from casewright.workshop.holes.boring import story_sticks
from casewright.workshop.holes.row_wording import row_words
from casewright.workshop.operations import Guide, Machine, OperationKind
from casewright.workshop.order.batches import order
from casewright.workshop.part_operations import part_operations
from casewright.workshop.safety.hazards import Hazard
from casewright.workshop.work import CUT_LATE, work
from workshop.worked_on_a_plan import worked

BANK = (Front(FrontKind.DRAWER), Front(FrontKind.DRAWER, F(6)))
SIDE = SLIDES["side mount"]


def drawers(project: Project) -> list[GlueUp]:
    return [one for one in glue_ups(project, "B1") if one.stage is Stage.DRAWER]


def test_each_box_is_glued_up_by_itself_and_squared_by_its_diagonals() -> None:
    project = draw_up(with_drawers(SIDE, bank=BANK))
    found = drawers(project)
    assert [one.key for one in found] == ["B1 drawer 1", "B1 drawer 2"]
    assert found[0].parts == ("B1-DL1", "B1-DI1", "B1-DK1", "B1-DB1", "B1-DR1")
    wide = project.sizes.of("B1.inside") - F(33, 32)
    for one in found:
        assert one.diagonal is not None and not one.screws
        assert float(one.diagonal) == pytest.approx(hypot(float(wide), 22.0))
    stages = [one.stage for one in glue_ups(project, "B1")]
    assert stages.index(Stage.SHELL) < stages.index(Stage.DRAWER) < stages.index(Stage.FRONTS)


def test_boxes_are_cut_when_the_case_has_been_measured() -> None:
    assert DRAWER_BOX <= CUT_LATE


def test_the_steps_say_where_the_slides_go_and_what_blocks_them_out() -> None:
    """By the lists of sizes: 1/4 of the 1/2 in that slides need is below the box, and the stile stands 25/32
    in past a side of 23/32 in."""
    plain = drawers(draw_up(with_drawers(SIDE)))[0].words
    assert '22" side-mount slides' in plain and "Block" not in plain
    assert "1/4\" above the upper face of the case's bottom" in plain
    framed = drawers(draw_up(with_drawers(SIDE, frame=FaceFrame.POCKET_SCREWS)))[0].words
    assert 'Block the slides out, 25/32" thick' in framed
    behind = drawers(draw_up(with_drawers(SIDE, drawer_bottom=DrawerBottom.SLID_IN)))[0].words
    assert "screw it up into B1-DK1" in behind


DOVETAILED = [one for one in DrawerJoint if one.is_dovetailed]


@pytest.mark.parametrize(
    ("box", "bottom", "even", "low_back"),
    [
        (F(35, 8), DrawerBottom.ALL_ROUND, True, False),
        (F(159, 32), DrawerBottom.ALL_ROUND, False, False),
        (F(35, 8), DrawerBottom.SLID_IN, True, True),
        (F(159, 32), DrawerBottom.SLID_IN, False, True),
    ],
)
def test_half_a_pin_is_told_of_the_edges_where_it_comes_out(
    box: F, bottom: DrawerBottom, even: bool, low_back: bool
) -> None:
    """Regression: half a pin at both edges was told of a box that is no whole number of tails high, and of
    the corners of a low back."""
    bank = (Front(FrontKind.DOOR), Front(FrontKind.DRAWER, F(6), box_height=box))
    joint = DrawerJoint.THROUGH_DOVETAILS
    made = with_drawers(SIDE, bank=bank, drawer_joint=joint, drawer_pitch=F(7, 8), drawer_bottom=bottom)
    project = draw_up(made)
    cut = [one for one in work(project, {}).operations if one.kind is OperationKind.DOVETAILS]
    said = " ".join(dovetail_setting(project, cut))
    assert ("half a pin at the upper edge and half a pin at the lower" in said) is even
    assert ("do not come out even" in said) is not even
    assert ("backs that are lower" in said) is low_back


def test_the_dovetails_of_a_bank_are_cut_in_one_go() -> None:
    """Regression: on its sheets' plan a bank of five drawers had six steps of dovetails, each with all that
    is said of them, as its sides came off the saw in turn."""
    bank = (*(Front(FrontKind.DRAWER, F(4)),) * 4, Front(FrontKind.DRAWER))
    _, done = worked(with_drawers(SIDE, bank=bank, drawer_joint=DrawerJoint.THROUGH_DOVETAILS))
    batches = order(done.operations, prove=0).batches
    cut = [one for one in batches if one.operations[0].kind is OperationKind.DOVETAILS]
    assert [len(one.operations) for one in cut] == [5 * 8]


@pytest.mark.parametrize("joint", DOVETAILED)
def test_dovetails_are_cut_by_hand_or_jig_the_pins_after_the_tails(joint: DrawerJoint) -> None:
    """Eight ends of a box, none of them at the saw; a box of 4 3/8 in is five tails of 7/8 in."""
    bank = (Front(FrontKind.DOOR), Front(FrontKind.DRAWER, F(6), box_height=F(35, 8)))
    project = draw_up(with_drawers(SIDE, bank=bank, drawer_joint=joint, drawer_pitch=F(7, 8)))
    done = work(project, {})
    cut = [one for one in done.operations if one.kind is OperationKind.DOVETAILS]
    assert sorted(one.piece for one in cut) == sorted([f"B1-D{name}1" for name in "LRIK"] * 2)
    tails = {one.key for one in cut if "tails" in one.key}
    place = {step.key: number for number, step in enumerate(done.operations)}
    for one in cut:
        assert one.setting.machine is Machine.BENCH
        assert (tails <= {*one.after}) == ("pins" in one.key)
        assert place[one.key] < place["B1 drawer 1"]
    batches = [BatchWriter(project).batch_text(batch) for batch in order(done.operations, prove=0).batches]
    told = [text for text in batches if text.title == "Cut the dovetails of the drawers"]
    said = " ".join(line for text in told for line in text.setting)
    assert "two offcuts of the drawers' stock first" in said and "Tails on the sides first" in said
    # The groove begins 1/4 in up and is as wide as the bottom, 7/32 in, and its play of 1/64 in.
    assert 'the lowest one covers the groove of the bottom, 1/4" to ~1/2"' in said
    assert 'tails are 7/8" apart' in said and 'and 1/32" more, which is planed off' in said
    holds = {step.key: step.hold for text in told for step in text.steps}
    blind = joint is not DrawerJoint.THROUGH_DOVETAILS
    line = '3/8"' if blind else '17/32"'
    assert holds["B1-DL1 tails-front"] == f"On the front end: tails, shoulder line {line} in from the end."
    lap = '; sockets 3/8" deep, which leaves a lap of 1/8"' if blind else ""
    assert holds["B1-DI1 pins-left"] == f'On the left end: pins, shoulder line 17/32" in from the end{lap}.'
    for text in told:
        assert {Hazard.DOVETAILS, Hazard.DUST} <= {one.hazard for one in text.cautions}
    (box,) = drawers(project)
    assert 'plane the end grain flush at the corners: 1/32" stands proud' in box.words and not box.screws
    assert float(box.diagonal or 0) == pytest.approx(
        hypot(float(project.sizes.of("B1.inside") - F(33, 32)), 22.0)
    )


def test_ends_that_are_sawn_flush_are_not_planed() -> None:
    made = draw_up(with_drawers(SIDE, drawer_joint=DrawerJoint.THROUGH_DOVETAILS, drawer_proud=F(0)))
    assert "plane" not in drawers(made)[0].words
    assert "plane" not in drawers(draw_up(with_drawers(SIDE)))[0].words


def test_a_butt_jointed_box_is_screwed_through_its_sides() -> None:
    (box,) = drawers(draw_up(with_drawers(SIDE, drawer_joint=DrawerJoint.BUTT)))
    assert {(one.through, one.into) for one in box.screws} == {
        (f"B1-D{side}1", f"B1-D{end}1") for side in "LR" for end in "IK"
    }


@pytest.mark.parametrize("sides", [F(3, 8), F(1, 2), F(5, 8)])
def test_the_screws_of_a_front_do_not_come_out_of_it(sides: F) -> None:
    project = draw_up(with_drawers(SIDE, sides=sides))
    hung = glue_ups(project, "B1")[-1]
    (joint,) = hung.screws
    through, into = (project.dimensions(project.parts[mark])[2] for mark in (joint.through, joint.into))
    assert (joint.through, joint.into, len(joint.places)) == ("B1-DI1", "B1-DF1", 4)
    assert through + F(1, 4) < joint.screw.length <= through + into - F(1, 8)
    assert "B1-DF1 to its box from inside" in hung.words and hung.glue == 0


def test_slides_are_bought_by_their_length() -> None:
    project = draw_up(with_drawers(SIDE, bank=BANK))
    assert hardware(project, ()).slides == ((SlidesBought(SIDE, F(22)), 2),)
    assert hardware(draw_up(with_drawers(None, bank=BANK)), ()).slides == ()
    assert SlidesBought(SIDE, F(22)).sold_as == "side-mount slides, pairs"
    assert SlidesBought(SLIDES["center mount"], F(22)).sold_as == "center-mount slide"


def test_the_bottom_floats() -> None:
    """Its grooves are no part of what takes glue: the corners alone are."""
    project = draw_up(with_drawers(SIDE, drawer_joint=DrawerJoint.RABBET))
    (box,) = drawers(project)
    height = project.dimensions(project.parts["B1-DL1"])[1]
    assert box.glue == 4 * height * (F(1, 4) + F(1, 2)), "each corner: the floor and the wall of its rabbet"


def test_holes_for_slides_are_bored_on_a_line_squared_across_from_no_stick() -> None:
    """1/4 of the 1/2 in that slides need is below the box, over a bottom of 23/32 in, which stands 4 in up
    on the toe kick: the line is 22.5 mm above that."""
    project = draw_up(with_drawers(SIDE))
    side = project.parts["B1-L"]
    bored = [
        one for one in part_operations(project, side, Tools({}, {}, ()), ()) if one.feature == "slide-DF1"
    ]
    (one,) = bored
    up = F(4) + F(23, 32) + F(1, 4) + F("22.5") / F("25.4")
    assert one.setting.guide is Guide.LINE and one.setting.distance == up
    assert not [stick for stick in story_sticks(project) if any("slide" in row for row in stick.serves)]
    told = row_words(project, one).told
    assert told.startswith("From the FRONT EDGE: 3 holes, the first at ~1 15/32")
    words = drawers(project)[0].words
    assert 'the holes of the slides are bored ~7/8" above that' in words
    unbored = drawers(draw_up(with_drawers(replace(SIDE, bored=False))))[0].words
    assert "by the sheet that came with them" in unbored


def test_nothing_is_sawn_once_doors_are_hung() -> None:
    """Doors of one case are ready long before the drawers of the other: both are hung at the end."""
    one = with_drawers(SIDE, bank=BANK, width=F(24))
    drawers_in = one.runs[0].cases[0]
    doors = replace(drawers_in, mark="B0", bays=(Bay(fronts=(Front(FrontKind.TWO_DOORS),)),))
    run = replace(one.runs[0], cases=(doors, drawers_in), opening=F(48))
    done = work(draw_up(replace(one, runs=(run,))), {})
    found = order(done.operations, prove=0).operations
    last = [one.key for one in found if one.when_finished]
    assert last == [one.key for one in found][-2:] and set(last) == {
        "B0 hanging doors and fronts",
        "B1 hanging doors and fronts",
    }
    assert "B1 drawer 2" not in done.by_key["B0 hanging doors and fronts"].after, "nothing forbids it sooner"
