"""How a case is put together when the job says nothing: the usual figures, and where each comes from."""

from __future__ import annotations

from dataclasses import asdict, fields
from fractions import Fraction as F

from casewright.casework.front_choices import (
    DoorKind,
    DrawerBottom,
    DrawerGrain,
    DrawerJoint,
    FrontGrain,
    FrontLie,
)
from casewright.casework.job import (
    BackKind,
    Bay,
    BottomJoint,
    CaseKind,
    CaseSpec,
    Construction,
    FaceFrame,
    Run,
    ShelfJoint,
    ToeKind,
    TopKind,
)
from samples import MATERIALS

USUAL = {
    # Common practice, no source, unless another is named.
    "bottom": BottomJoint.DADO,
    "top": TopKind.STRETCHERS,
    "back": BackKind.GROOVE,
    "shelf": ShelfJoint.DADO,
    "toe": ToeKind.NOTCH,
    "dado_depth": F(1, 4),  # a third of 3/4
    "rabbet_depth": F(3, 8),  # half of 3/4
    "groove_depth": F(1, 4),
    "dado_play": F(0),  # the dado is cut to the sheet as measured
    "groove_play": F(1, 64),
    "back_play": F(1, 16),
    "back_inset": F(1, 2),
    "shelf_play": F(1, 8),
    "shelf_setback": F(1, 4),
    "toe_height": F(4),
    "toe_depth": F(3),
    "bottom_up": F(0),
    "top_down": F(3, 4),
    "stretcher_width": F(4),
    "strip_width": F(4),
    "strips": 1,
    "pin_first": F(6),
    "pin_pitch": F(2),
    "pin_setback": F(3, 2),
    "pin_diameter": F(1, 4),  # the quarter-inch pin is sold as such
    "pin_depth": F(5, 16),  # two of them leave wood between them in a 23/32 sheet
    "frame": FaceFrame.NONE,
    "frame_stile": F(3, 2),  # of 1 x 2 stock, which is 1 1/2 wide
    "frame_rail": F(3, 2),
    "frame_mullion": F(3, 2),
    "frame_past": F(0),
    "frame_dowel": F(3, 8),
    "frame_dowel_depth": F(17, 16),
    "frame_tenon": F(1),
    "frame_mortise": F(1, 4),
    "fronts": FrontLie.FULL_OVERLAY,
    # Trade pages: 1/8 or 3/16 between neighbouring fronts, 1/2 overlay "straight from the box".
    "front_gap": F(1, 8),
    "front_lap": F(1, 2),
    "front_top": F(1, 8),  # 3 mm are left under the top in a stack worked out by a trade adviser's column
    "front_off": F(1, 16),
    "front_grain": FrontGrain.RUNS_ON,  # fronts of a bay from one piece: common practice, no source
    "drawer_grain": DrawerGrain.LEVEL,  # common practice, no source
    "door": DoorKind.SLAB,
    "door_stile": F(9, 4),  # a trade page: plain square-edged style
    "door_rail": F(9, 4),
    "door_tongue": F(3, 8),  # a cutter seller's page
    "panel_play": F(1, 8),  # a forum: 1/16 customary at each side
    "drawer_joint": DrawerJoint.LOCKED_RABBET,
    "drawer_bottom": DrawerBottom.ALL_ROUND,
    # Makers' pages for 1/2 in stock: grooves 1/4 by 1/4, at least 1/4 up, one set-up for corner and bottom.
    "drawer_cut": F(1, 4),
    "drawer_tongue": F(1, 4),
    "drawer_up": F(1, 4),
    "drawer_play": F(1, 16),  # as the back's: common practice, no source
    "drawer_tail": F(3, 8),  # a lap of 1/8 in stock of 1/2: a book on furniture has 3/32 to 3/16
    "drawer_proud": F(1, 32),  # common practice, no source
    "drawer_pitch": F(0),  # no jig
}


def test_what_a_job_does_not_say_is_done_as_usual() -> None:
    assert asdict(Construction()) == USUAL
    assert [entry.name for entry in fields(Construction)] == list(USUAL), "none is added without its figure"
    assert 2 * Construction().pin_depth < F(23, 32)


def test_a_case_that_says_nothing_of_its_inside_has_one_empty_bay() -> None:
    plain = CaseSpec("B1", CaseKind.BASE, None, F(30), F(20), Construction(), MATERIALS)
    assert plain.bays == (Bay(None, F(1), (), 0),)
    assert (plain.weight, plain.chosen) == (F(1), frozenset())


def test_a_run_stands_on_the_floor_at_the_end_of_its_wall_without_gaps() -> None:
    run = Run("run", F(90), ())
    assert run.along == run.lift == run.gap == 0
    assert run.ceiling is None and run.left is None and run.right is None
