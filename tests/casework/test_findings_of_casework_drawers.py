"""Drawers that cannot be made, each with the nearest job that can be built."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casework.drawer_jobs import MM, SLIDES, with_drawers
from casework.odd_jobs import of
from casewright.casework.front_choices import DrawerBottom, DrawerJoint, Front, FrontKind
from casewright.casework.job import Bay
from casewright.findings import Weight
from finding_rows import Provoke, Row, check, each

SIDE, UNDER = SLIDES["side mount"], SLIDES["under mount"]
SETBACK = F(37) / F("25.4")  # that of the slides
LOW = replace(SIDE, least_side=None)
SHORT = replace(SIDE, lengths=(F(12),))
JIG = {"drawer_joint": DrawerJoint.HALF_BLIND_DOVETAILS, "drawer_pitch": F(7, 8)}
DRAWER, DOOR = Front(FrontKind.DRAWER), Front(FrontKind.DOOR)


def drawn(slide: Any = SIDE, **made: Any) -> Provoke:
    return of(lambda: with_drawers(slide, **made))


def two(height: F, box: F | None = None) -> tuple[Front, ...]:
    return (DOOR, Front(FrontKind.DRAWER, height, box_height=box))


ROWS = [
    Row(
        "drawer-without-slide",
        "cases.B1.fitted_with.slide",
        "the drawers of B1 run",
        'like some of the shop\'s list, such as "side mount", and fit B1 with them',
        drawn(None),
        drawn(SIDE),
        Weight.WARN,
    ),
    Row(
        "drawer-sides-too-thick",
        "cases.B1.made_of.drawer",
        '21/32" thick, and under-mount slides take sides up to 5/8"',
        "thinner sheet",
        drawn(UNDER, sides=F(21, 32)),
        drawn(UNDER, sides=F(5, 8)),
    ),
    Row(
        "drawer-tongue-too-thick",
        "cases.B1.drawer_tongue",
        'are 1/2" thick, and the dados for their tongues are 1/2" wide',
        'drawer_tongue 1/4"',
        drawn(drawer_tongue=F(1, 2)),
        drawn(drawer_tongue=F(1, 2), drawer_joint=DrawerJoint.BUTT),
    ),
    Row(
        "no-lap",
        "cases.B1.drawer_tail",
        'tails 1/2" long would come out of the fronts of the drawer boxes of B1: 1/2" thick',
        'Make drawer_tail 13/32" or less, or dovetail through',
        drawn(drawer_tail=F(1, 2), drawer_joint=DrawerJoint.HALF_BLIND_IN_FRONT),
        drawn(drawer_tail=F(1, 2), drawer_joint=DrawerJoint.THROUGH_DOVETAILS),
    ),
    # A book on furniture: laps of 3/32 to 3/16 in.
    Row(
        "lap-too-thin",
        "cases.B1.drawer_tail",
        'leave a lap of 1/16" in the fronts of the drawer boxes of B1: less than 3/32"',
        'Make drawer_tail 13/32" or less',
        drawn(drawer_tail=F(7, 16), drawer_joint=DrawerJoint.HALF_BLIND_DOVETAILS),
        drawn(drawer_tail=F(13, 32), drawer_joint=DrawerJoint.HALF_BLIND_DOVETAILS),
        Weight.WARN,
    ),
    # Six tails of 7/8 in are 5 1/4 in, five 4 3/8; a front of 6 in leaves 4 31/32, one of 8 in 6 31/32.
    Row(
        "box-off-the-pitch",
        "cases.B1.bays[0].fronts[1].box_height",
        'box behind B1-DF1 is 5" high, and the jig\'s tails are 7/8" apart',
        'Make box_height 4 3/8" or 5 1/4".',
        drawn(bank=two(F(8), F(5)), **JIG),
        drawn(bank=two(F(8), F(21, 4)), **JIG),
        Weight.WARN,
    ),
    Row(
        "box-off-the-pitch",
        "cases.B1.bays[0].fronts[1].box_height",
        'is 4 31/32" high',
        'Make box_height 4 3/8".',
        drawn(bank=two(F(6)), **JIG),
        drawn(bank=two(F(6)), drawer_pitch=F(7, 8), drawer_joint=DrawerJoint.BUTT),
        Weight.WARN,
    ),
    Row(
        "box-off-the-pitch",
        "cases.B1.bays[0].fronts[1].box_height",
        "apart: at the front they do not come out even",
        'Make box_height 4 3/8".',
        drawn(bank=two(F(6)), drawer_bottom=DrawerBottom.SLID_IN, **JIG),
        drawn(bank=two(F(6), F(35, 8)), drawer_bottom=DrawerBottom.SLID_IN, **JIG),
        Weight.WARN,
    ),
    Row(
        "box-off-the-pitch",
        "cases.B1.bays[0].fronts[1].box_height",
        'is 4 31/32" high',
        "Lay these dovetails out by hand",
        drawn(bank=two(F(6)), **{**JIG, "drawer_pitch": F(5)}),
        drawn(bank=two(F(6)), **{**JIG, "drawer_pitch": F(159, 32)}),
        Weight.WARN,
    ),
    # 23/32 in of mounting strip, 7/32 in of back and 1/64 in of play stand behind.
    Row(
        "no-slide-fits",
        "cases.B1.depth",
        '12" long and need 12" behind B1-DF1',
        "deeper",
        drawn(SHORT, depth=F(12) + F(61, 64) - F(1, 32)),
        drawn(SHORT, depth=F(12) + F(61, 64)),
    ),
    Row(
        "drawer-too-low",
        "cases.B1.bays[0].fronts[1].height",
        'needs 1 3/4" at least',
        '1/32" higher',
        drawn(LOW, bank=two(F(73, 32) - F(1, 32))),
        drawn(LOW, bank=two(F(73, 32))),
    ),
    # The slides themselves are 45 mm high: with the 1/2 in that they leave free, 2.272 in.
    Row(
        "drawer-too-low",
        "cases.B1.bays[0].fronts[1].height",
        'needs 2 9/32" at least',
        "higher",
        drawn(bank=two(F(73, 32) + MM * 45 - F(5, 4) - F(1, 64))),
        drawn(bank=two(F(73, 32) + MM * 45 - F(5, 4))),
    ),
    # A front of 6 in is over an opening of 5 15/32 in (it laps 23/32 in of rail or top, and has half a gap
    # below it): less 1/2 in for the slides, 4 31/32 in.
    Row(
        "drawer-box-too-high",
        "cases.B1.bays[0].fronts[1].box_height",
        'the box behind B1-DF1 is 5" high, and side-mount slides leave room for 4 31/32" at most',
        'Make box_height 4 31/32" or less, or the front 1/32" higher',
        drawn(bank=two(F(6), F(5))),
        drawn(bank=two(F(6), F(159, 32))),
    ),
    Row(
        "drawer-box-too-low",
        "cases.B1.bays[0].fronts[1].box_height",
        'is 1 3/4" high, and a drawer on side-mount slides needs 1 25/32" at least',
        'Make box_height 1 25/32" or more',
        drawn(bank=two(F(6), F(7, 4))),
        drawn(bank=two(F(6), F(57, 32))),
    ),
    Row(
        "drawer-too-narrow",
        "cases.B1.bays[0].width",
        'less than 1"',
        "wider",
        drawn(bays=(Bay(fronts=(DRAWER,), width=F(96, 32)), Bay())),
        drawn(bays=(Bay(fronts=(DRAWER,), width=F(97, 32)), Bay())),
    ),
    Row(
        "shelf-in-drawer",
        "cases.B1.bays[0].fronts[0].kind",
        "B1-A1 stands in the way of the drawer behind B1-DF1",
        "another bay",
        drawn(bays=(Bay(adjustable=1, fronts=(DRAWER,)),)),
        drawn(bays=(Bay(adjustable=0, fronts=(DRAWER,)),)),
    ),
    Row(
        "shelf-in-drawer",
        "cases.B1.bays[0].fronts[1].kind",
        "B1-A1 stands in the way of the drawer behind B1-DF1",
        "fixed shelf between door and drawers",
        drawn(bays=(Bay(adjustable=1, fronts=two(F(18))),)),
        drawn(bays=(Bay(adjustable=1, fronts=two(F(6))),)),
    ),
    Row(
        "shelf-in-drawer",
        "cases.B1.bays[0].fronts[1].kind",
        "B1-F11 stands in the way of the drawer behind B1-DF1",
        "above or below",
        drawn(bays=(Bay(fixed=(F(24),), fronts=two(F(6))),)),
        drawn(bays=(Bay(fixed=(F(22),), fronts=two(F(6))),)),
    ),
    Row(
        "slides-too-deep",
        "B1-L.slide-DF1",
        "slide holes are 23/32",
        "less deep",
        drawn(replace(SIDE, screw_depth=F(23, 32))),
        drawn(replace(SIDE, screw_depth=F(11, 16))),
    ),
    Row(
        "slides-off-the-part",
        "B1-L.slide-DF1",
        'in from the lower end of a left side 34 1/2" long',
        "less from the lower end",
        drawn(replace(SIDE, screw_height=F(40))),
        drawn(replace(SIDE, screw_height=F(4))),
    ),
    Row(
        "slides-off-the-part",
        "B1-L.slide-DF1",
        'from the front edge of a left side 24" wide',
        "nearer the front edge",
        drawn(replace(SIDE, screw_setback=F(24))),
        drawn(replace(SIDE, screw_setback=F(20))),
    ),
    # The pins under the drawer end 0.12 in below the line of its slides, on the same line from the front.
    Row(
        "slide-meets-holes",
        "B1-L.slide-DF1",
        "on B1-L run into its pin holes",
        "pin_setback",
        drawn(bays=(Bay(adjustable=1, fronts=two(F(551, 64))),), pin_setback=SETBACK),
        drawn(bays=(Bay(adjustable=1, fronts=two(F(551, 64))),), pin_setback=SETBACK + F(1, 4)),
        Weight.WARN,
    ),
]


@each(ROWS)
def test_a_drawer_that_cannot_be_made_is_told(row: Row) -> None:
    check(row)
