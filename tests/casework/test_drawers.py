"""Drawer boxes: their sizes against published worked examples, and their places by the solids themselves."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casework.drawer_jobs import MM, SLIDES, sheet, with_drawers
from casework.placed_boxes import boxes
from casewright.casework.directions import Way
from casewright.casework.front_choices import DrawerBottom, DrawerJoint, Front, FrontKind, FrontLie
from casewright.casework.job import Bay, Edged, FaceFrame, FittedWith, Job, ToeKind
from casewright.casework.parts.part import DRAWER_BOX, Part
from casewright.casework.project import Project, draw_up
from casewright.errors import JobError
from casewright.lengths.length import Mark
from casewright.shop.edging import Edging, PutOn
from casewright.shop.slides import Slide
from casewright.solids.bodies import assemble
from casewright.solids.solid_check import examine
from casewright.tolerance.chains.gaps import gaps_of
from casewright.tolerance.chains.roles import GapRole


def opening(project: Project) -> F:
    return project.sizes.of("B1.inside")


def wide(project: Project) -> F:
    """The outside width of the first drawer box, from where its sides stand."""
    at = boxes(project)
    return at["B1-DR1"].high[0] - at["B1-DL1"].low[0]


@pytest.mark.parametrize(
    ("slide", "sides", "narrower"),
    [
        # A drawer maker, a hardware seller and a drawer shop: opening less 5/8 with sides of 1/2 in, less 3/8
        # with sides of 5/8 in.
        ("under mount", F(1, 2), F(5, 8)),
        ("under mount", F(5, 8), F(3, 8)),
        # A British drawer maker: opening less 16 mm with sides of 13 mm, less 12 mm with sides of 15 mm.
        ("under mount mm", 13 * MM, 16 * MM),
        ("under mount mm", 15 * MM, 12 * MM),
        # A slide factory's page: 13 mm each side.
        ("side mount mm", F(1, 2), 26 * MM),
    ],
)
def test_the_width_of_a_drawer_is_what_its_slides_leave(slide: str, sides: F, narrower: F) -> None:
    project = draw_up(with_drawers(SLIDES[slide], sides=sides))
    assert opening(project) - wide(project) == narrower


@pytest.mark.parametrize("slide", ["side mount", "side mount mm"])
@pytest.mark.parametrize("sides", [F(1, 2), F(5, 8)])
def test_room_beside_side_mount_slides(slide: str, sides: F) -> None:
    """A slide maker's page: 12.9 to 13.2 mm beside a slide of 12.7; a factory's: 13, 12.5 binds, 13.5
    shakes. The same whatever the sides are."""
    project = draw_up(with_drawers(SLIDES[slide], sides=sides))
    assert F("12.9") <= (opening(project) - wide(project)) / 2 / MM <= F("13.2")


def test_the_width_for_side_mount_lies_between_the_published_ones() -> None:
    """A drawer maker's page: opening less 1 1/16; catalogues (from memory): 1/2 to 17/32 in each side."""
    project = draw_up(with_drawers(SLIDES["side mount"]))
    assert F(1) <= opening(project) - wide(project) <= F(17, 16)


@pytest.mark.parametrize(("slide", "lower"), [("side mount", F(1, 2)), ("under mount", F(13, 16))])
def test_the_height_of_a_drawer_is_that_of_its_opening_less_the_slides_room(slide: str, lower: F) -> None:
    """A drawer maker's measuring page: opening less 1/2 for side mount, less 13/16 at least for under
    mount, with at least 1/2 free below (another drawer maker)."""
    project = draw_up(with_drawers(SLIDES[slide]))
    at = boxes(project)
    side, clear = at["B1-DL1"], project.sizes.of("B1.clear")
    assert side.size[2] == clear - lower
    below = side.low[2] - at["B1-B"].high[2]
    assert below >= SLIDES[slide].below
    assert clear - lower - below >= 0 and below + side.size[2] < clear


def test_a_locked_rabbet_in_half_inch_stock_is_as_the_makers_pages_have_it() -> None:
    """Two makers' pages: grooves 1/4 by 1/4, 1/4 from the end; front and back = width less 1/2. One set-up of
    1/4 in cuts corners and bottom groove alike."""
    project = draw_up(with_drawers(SLIDES["side mount"], dado_play=F(0)))
    front, side = project.parts["B1-DI1"], project.parts["B1-DL1"]
    assert project.dimensions(front)[0] == project.dimensions(project.parts["B1-DK1"])[0]
    assert project.dimensions(front)[0] == wide(project) - F(1, 2)
    of = project.sizes.of
    cut = {
        channel.name: tuple(map(of, (channel.at, channel.width, channel.depth))) for channel in side.channels
    }
    assert cut["dado-front"] == cut["dado-back"] == (F(1, 4), F(1, 4), F(1, 4))
    assert cut["groove-bottom"][0] == F(1, 4) and cut["groove-bottom"][2] == F(1, 4)


def test_a_stack_of_five_fronts_is_that_of_the_published_one() -> None:
    """A trade adviser's column: in an 800 mm box five fronts of 157 mm, 3 mm between them and 3 mm left under
    the top. Their boxes take what each front's stretch has, less the slides' 13 mm."""
    fronts = tuple(Front(FrontKind.DRAWER) for _ in range(5))
    one = with_drawers(
        SLIDES["side mount mm"], bank=fronts, front_gap=3 * MM, front_top=3 * MM, front_off=2 * MM
    )
    case = replace(one.runs[0].cases[0], height=800 * MM)
    made = replace(case.construction, toe=ToeKind.NONE)
    run = replace(one.runs[0], cases=(replace(case, construction=made),))
    project = draw_up(replace(one, runs=(run,), construction=made, rounding=Mark.MILLIMETRE))
    at = boxes(project)
    assert [at[f"B1-DF{number}"].size[2] / MM for number in range(1, 6)] == [157] * 5
    stands = [at[f"B1-DL{number}"] for number in range(1, 6)]
    for number, side in enumerate(stands[1:-1], 2):
        assert side.size[2] == at[f"B1-DF{number}"].size[2] + 3 * MM - 13 * MM
    assert all(low.high[2] < high.low[2] for low, high in pairwise(stands))


def test_the_longest_slide_that_the_case_takes_is_used() -> None:
    """24 in deep, the back in a groove before a mounting strip: 23 1/16 in of room, 22 in of slide."""
    project = draw_up(with_drawers(SLIDES["side mount"]))
    assert boxes(project)["B1-DL1"].size[1] == 22
    inset = draw_up(with_drawers(SLIDES["side mount"], depth=F(47, 2), fronts=FrontLie.INSET))
    assert boxes(inset)["B1-DL1"].size[1] == 20, "the front stands in the case"
    shallow = draw_up(with_drawers(SLIDES["side mount"], depth=F(45, 2)))
    assert boxes(shallow)["B1-DL1"].size[1] == 20


def test_a_box_of_the_makers_own_height_stands_where_the_other_would() -> None:
    """It begins where the higher one began, and the front stays. 4 3/8 in are five tails of 7/8 in."""
    bank = (Front(FrontKind.DOOR), Front(FrontKind.DRAWER, F(8)))
    usual = draw_up(with_drawers(SLIDES["side mount"], bank=bank))
    low = replace(bank[1], box_height=F(35, 8))
    project = draw_up(with_drawers(SLIDES["side mount"], bank=(bank[0], low)))
    at, before = boxes(project), boxes(usual)
    for mark in ("B1-DL1", "B1-DR1", "B1-DI1", "B1-DK1"):
        assert at[mark].size[2] == F(35, 8) and at[mark].low[2] == before[mark].low[2]
    # The front ends 1/8 in below the top, laps the stretcher's 23/32 in, and has half a gap of 1/8 in below.
    assert usual.sizes.of("B1.box12") == 8 - (F(23, 32) - F(1, 8)) + F(1, 16) - F(1, 2)
    assert not examine(project, assemble(project)).findings


BOX, HIGH = F(36) - 2 * F(23, 32) - F(33, 32), F(457, 16)
"""The box of a case of 36 in with sides of 23/32 in, less 1 1/32 in for the slides; and its height."""


def test_through_dovetails_are_sawn_long_by_what_is_planed_off() -> None:
    """Common practice: both at full outside length, and 1/32 in at each end to plane off. Slides of 22 in and
    sides of 1/2 in: the sides are 22 + 2/32, front and back the box and 2/32, all shoulder lines 1/2 + 1/32
    in from the ends; the bottom goes 1/4 in into all four, less 1/16 in of play."""
    project = draw_up(with_drawers(SLIDES["side mount"], drawer_joint=DrawerJoint.THROUGH_DOVETAILS))
    of = project.sizes.of
    long = {mark: project.dimensions(project.parts[f"B1-{mark}1"])[0] for mark in ("DL", "DR", "DI", "DK")}
    assert long == {"DL": F(353, 16), "DR": F(353, 16), "DI": BOX + F(1, 16), "DK": BOX + F(1, 16)}
    lines = [of(one.sizes[0].form) for mark in long for one in project.parts[f"B1-{mark}1"].features[:2]]
    assert lines == [F(17, 32)] * 8
    assert project.dimensions(project.parts["B1-DB1"])[:2] == (BOX - 1 + F(7, 16), 22 - 1 + F(7, 16))
    assert wide(project) == BOX, "planed, the box is as wide as with any other joint"


def test_half_blind_dovetails_make_the_sides_short_by_the_laps() -> None:
    """The front of a book's drawer (Fine Woodworking, Building Furniture 2007): 3/4 in, gauged at 9/16 in,
    leaves a lap of 3/16 in. With it behind as well, sides for 22 in of box are 22 - 2 x 3/16; with through
    dovetails behind 22 - 3/16 + 1/32."""
    made: dict[str, object] = {"sides": F(3, 4), "drawer_tail": F(9, 16)}
    project = draw_up(
        with_drawers(SLIDES["side mount"], drawer_joint=DrawerJoint.HALF_BLIND_DOVETAILS, **made)  # type: ignore[arg-type]
    )
    front = project.parts["B1-DI1"]
    sockets = front.feature("pins-left")
    assert project.sizes.of(front.thickness) - project.sizes.of(sockets.sizes[2].form) == F(3, 16)
    assert project.dimensions(project.parts["B1-DL1"])[0] == F(22) - F(3, 8)
    only = draw_up(
        with_drawers(SLIDES["side mount"], drawer_joint=DrawerJoint.HALF_BLIND_IN_FRONT, **made)  # type: ignore[arg-type]
    )
    assert project.sizes.of("B1-DL1.tails-front.line") == only.sizes.of("B1-DL1.tails-front.line") == F(9, 16)
    assert project.sizes.of("B1-DL1.tails-back.line") == F(9, 16)
    assert only.sizes.of("B1-DL1.tails-back.line") == F(3, 4) + F(1, 32)
    assert only.dimensions(only.parts["B1-DL1"])[0] == F(22) - F(3, 16) + F(1, 32)
    assert only.dimensions(only.parts["B1-DI1"])[0] == BOX + F(1, 16)


@pytest.mark.parametrize("joint", [one for one in DrawerJoint if one.is_dovetailed])
def test_a_dovetailed_corner_has_all_its_wood_once(joint: DrawerJoint) -> None:
    """Planed flush, the four uprights of a box have the volume of its walls, 1/2 in thick, less the grooves
    of its bottom, 1/4 in deep: along all of front and back, whose pins have the lower edges, and 21 in of the
    sides. No wood of the corners is in two parts, and none is missing."""
    project = draw_up(with_drawers(SLIDES["side mount"], drawer_joint=joint))
    bodies = assemble(project)
    parts = [bodies[f"B1-{mark}1"].placed_solid() for mark in ("DL", "DR", "DI", "DK")]
    whole = sum(parts[1:], start=parts[0])
    wide_groove = project.sizes.of(project.parts["B1-DL1"].channels[0].width)
    walls = BOX * 22 - (BOX - 1) * 21
    left = walls * HIGH - wide_groove * (2 * BOX + 2 * 21) / 4
    assert whole.volume() == pytest.approx(float(left))
    assert sum(one.volume() for one in parts) == pytest.approx(float(left))
    x, y, z, far_x, far_y, far_z = whole.bounding_box()
    assert (far_x - x, far_y - y, far_z - z) == pytest.approx((float(BOX), 22.0, float(HIGH)))


joints = st.sampled_from(DrawerJoint)
bottoms = st.sampled_from(DrawerBottom)
lies = st.sampled_from(FrontLie)
frames = st.sampled_from(FaceFrame)
slides = st.sampled_from(list(SLIDES.values()))
thick = st.sampled_from([F(15, 32), F(1, 2), F(5, 8)])
banks = st.lists(st.sampled_from([F(1), F(2)]), min_size=1, max_size=3).map(
    lambda weights: tuple(Front(FrontKind.DRAWER, None, weight) for weight in weights)
)


@settings(max_examples=40, deadline=None)
@given(slides, banks, thick, joints, bottoms, lies, frames, st.integers(12, 40), st.integers(14, 26))
def test_every_box_closes_fits_between_its_slides_and_touches_nothing_else(
    slide: Slide,
    fronts: tuple[Front, ...],
    sides: F,
    joint: DrawerJoint,
    bottom: DrawerBottom,
    lie: FrontLie,
    frame: FaceFrame,
    width: int,
    depth: int,
) -> None:
    try:
        project = draw_up(
            with_drawers(
                slide, sides=sides, width=F(width), depth=F(depth), bank=fronts,
                drawer_joint=joint, drawer_bottom=bottom, fronts=lie, frame=frame,
            )
        )  # fmt: skip
    except JobError:
        return
    examined = examine(project, assemble(project))
    assert not examined.findings
    at = boxes(project)
    drawers = project.cases["B1"].drawers
    assert len(drawers) == len(fronts)
    for number, drawer in enumerate(drawers, 1):
        assert drawer.on and drawer.box
        left, right = at[drawer.box.left], at[drawer.box.right]
        front, back = at[drawer.box.front], at[drawer.box.back]
        # inside and thicknesses add up to the outside, along and across
        assert right.low[0] - left.high[0] == right.high[0] - left.low[0] - 2 * sides
        past = {way: F(0) for way in (Way.FRONT, Way.BACK)}
        if (
            joint.is_dovetailed
        ):  # half blind: short by what is left of 1/2 in before tails of 3/8 in; else proud
            blind = {Way.FRONT: joint.has_laps, Way.BACK: joint is DrawerJoint.HALF_BLIND_DOVETAILS}
            past = {way: F(3, 8) - sides if blind[way] else F(1, 32) for way in past}
            assert front.size[0] == right.high[0] - left.low[0] + F(1, 16) == back.size[0]
        assert front.low[1] - left.low[1] == past[Way.FRONT]
        assert left.high[1] - back.high[1] == past[Way.BACK]
        assert at[drawer.front].high[1] == front.low[1], "the box stands against the back of its front"
        longest = max(one for one in slide.lengths if one + slide.behind <= room_behind(project))
        assert back.high[1] - front.low[1] == longest
        # what is left beside the box is what the slides take
        inner = right.low[0] - left.high[0] if slide.from_inside else right.high[0] - left.low[0]
        blocked = sum(project.sizes.of(one) for one in drawer.on.blocking)
        clear = at["B1-R"].low[0] - at["B1-L"].high[0] - blocked
        assert clear - inner == slide.narrower
        assert left.size[2] <= project.sizes.of(drawer.room.high) - slide.lower
        under = at["B1-B"].high[2] if number == 1 else at[drawers[number - 2].box.left].high[2]  # type: ignore[union-attr]
        assert left.low[2] - under >= slide.below
        bottom_at = at[drawer.box.bottom].low[2] - left.low[2]
        assert bottom_at == (slide.recess or project.job.construction.drawer_up)
    gaps = [gap for gap in gaps_of(project) if gap.role is GapRole.SLIDE]
    assert [gap.parts[0] for gap in gaps] == [drawer.box.right for drawer in drawers if drawer.box]
    chains = project.cases["B1"].chains
    assert all(project.sizes.of(chain.gap) == project.sizes.of(chain.mate.gap) for chain in chains)


def room_behind(project: Project) -> F:
    """From the back of the drawer front to the back of the case, by where they stand."""
    at = boxes(project)
    return at["B1-K"].low[1] - at["B1-DF1"].high[1]


def drawer_parts(project: Project) -> list[Part]:
    return [part for part in project if part.role in DRAWER_BOX]


def test_a_case_that_was_measured_drives_its_drawers() -> None:
    project = draw_up(with_drawers(SLIDES["side mount"]))
    wider = project.given({"B1.inside": project.sizes.of("B1.inside") + F(1, 16)})
    grown = {
        part.mark: (wider.dimensions(part)[0] - project.dimensions(part)[0]) for part in drawer_parts(project)
    }
    assert grown == {"B1-DL1": 0, "B1-DR1": 0, "B1-DI1": F(1, 16), "B1-DK1": F(1, 16), "B1-DB1": F(1, 16)}
    assert wide(wider) - wide(project) == F(1, 16)


def test_a_case_names_its_slides_where_the_job_has_several() -> None:
    side, under = SLIDES["side mount"], SLIDES["under mount"]
    one = with_drawers(side)
    both = replace(one, slides={"a": replace(side, key="a"), "b": replace(under, key="b")})
    run = both.runs[0]
    named = replace(run, cases=(replace(run.cases[0], fitted=FittedWith(slide="b")),))
    assert draw_up(replace(both, runs=(named,))).cases["B1"].drawers[0].slide == replace(under, key="b")
    assert not drawer_parts(draw_up(both))


def test_the_fit_says_whether_a_drawer_will_run() -> None:
    """The gap at the far slide is the chain through the case and the box; 1/32 in tighter binds."""
    project = draw_up(with_drawers(SLIDES["side mount"]))
    gaps = [gap for gap in gaps_of(project) if gap.role is GapRole.SLIDE]
    assert [gap.parts for gap in gaps] == [("B1-DR1", "B1-R")]
    (gap,) = gaps
    assert project.sizes.of(gap.aim) == F(33, 64)
    assert gap.limits.ease is not None and gap.limits.ease_high is not None
    limits = [project.sizes.of(form) for form in (gap.limits.ease, gap.limits.ease_high)]
    assert limits == [F(31, 64), F(35, 64)]
    names = set(gap.form.names)
    assert {"B1-DI1.length", "B1-DL1.thickness", "B1-DR1.thickness", "B1-B.length"} <= names


@pytest.mark.parametrize("lie", list(FrontLie))
def test_drawers_behind_a_frame_over_two_cases_clear_all_of_it(lie: FrontLie) -> None:
    """The frame belongs to the first case; the box of the second goes through its opening all the same."""
    one = with_drawers(SLIDES["side mount"], fronts=lie, frame=FaceFrame.POCKET_SCREWS)
    first = one.runs[0].cases[0]
    second = replace(first, mark="B2", frame_with_left=True)
    run = replace(one.runs[0], cases=(first, second), opening=F(72))
    project = draw_up(replace(one, runs=(run,)))
    assert not examine(project, assemble(project)).findings
    assert not [one for part in project for one in part.features if one.name.startswith("slide")]
    at = boxes(project)
    upper, stile, mullion = (at[f"B1-{short}"] for short in ("RA2", "ST2", "MU1"))
    for mark in ("B1", "B2"):
        left, right = at[f"{mark}-DL1"], at[f"{mark}-DR1"]
        assert left.high[2] < upper.low[2] and at["B1-RA1"].high[2] < left.low[2]
        assert right.high[0] - left.low[0] == at["B1-RA2"].size[0] / 2 - mullion.size[0] / 2 - F(33, 32)
    assert mullion.high[0] < at["B2-DL1"].low[0] and at["B2-DR1"].high[0] < stile.low[0]


def test_a_bay_of_drawers_alone_is_bored_for_no_pins() -> None:
    """Only adjustable shelves ask for rows of pins, and only in their own bay."""
    drawers = (Front(FrontKind.DRAWER), Front(FrontKind.DRAWER))
    bays = (Bay(fronts=drawers), Bay(adjustable=1))
    project = draw_up(with_drawers(SLIDES["side mount"], width=F(40), bays=bays))
    rows = {
        (part.mark, feature.face): feature.serves
        for part in project
        for feature in part.features
        if feature.serves
    }
    # The second bay is bored on both of its sides, the first on neither.
    assert rows == {("B1-D1", Way.RIGHT): (2, 1), ("B1-R", Way.LEFT): (2, 1)}


def bored_at(project: Project, mark: str, feature: str) -> list[tuple[F, F]]:
    """How far each hole is behind the case's front edge, and how high above the lower ends of the sides, in
    millimetres, by the solid of the part."""
    part = project.parts[mark]
    at = project.corner(part)
    front = project.corner(project.parts["B1-L"])[1]
    return [
        ((bore.mouth[1] + at[1] - front) / MM, (bore.mouth[2] + at[2]) / MM)
        for bore in part.feature(feature).bores(part, project.sizes)
    ]


@pytest.mark.parametrize(("lie", "behind"), [(FrontLie.FULL_OVERLAY, F(0)), (FrontLie.INSET, F(23, 32) / MM)])
def test_sides_are_bored_for_slides_on_the_line_of_the_32_mm_system(lie: FrontLie, behind: F) -> None:
    """37 mm behind the front edge, or behind an inset front, and on steps of 32 mm; the line 22.5 mm above
    the lower edge of the box, wherever the floor and the fronts bring that."""
    fronts = (Front(FrontKind.DRAWER, F(7)), Front(FrontKind.DRAWER))
    project = draw_up(with_drawers(SLIDES["side mount mm"], bank=fronts, fronts=lie))
    for number, name in ((1, "slide-DF1"), (2, "slide-DF2")):
        low = project.corner(project.parts[f"B1-DL{number}"])[2] / MM
        left, right = (bored_at(project, mark, name) for mark in ("B1-L", "B1-R"))
        assert left == right, "both slides of a drawer are level"
        assert {up for _, up in left} == {low + F("22.5")}
        first, *others = (back for back, _ in left)
        assert first == 37 + behind
        assert len(others) == 2 and all((back - first) % 32 == 0 for back in others)
        length = project.dimensions(project.parts[f"B1-DL{number}"])[0] / MM
        assert others[-1] + 37 <= length + behind, "the last hole is under the slide"
    assert not examine(project, assemble(project)).findings


def test_screws_of_slides_are_told_from_the_edge_as_it_is_bored() -> None:
    """37 mm behind the front of the finished case: a strip that goes on after glue-up is not there yet. And
    behind the drawer front as it is, where that one is of a sheet of its own."""
    plain = with_drawers(SLIDES["side mount mm"])
    one = replace(plain.runs[0].cases[0], edged=Edged("lipping"))
    strip = Edging("lipping", "lipping", F(1, 4), F(96), F(7, 8), put_on=PutOn.AFTER_GLUE_UP)
    runs = (replace(plain.runs[0], cases=(one,)),)
    lipped = draw_up(replace(plain, runs=runs, edging={"lipping": strip}))
    assert bored_at(lipped, "B1-L", "slide-DF1")[0][0] == 37 - F(1, 4) / MM

    inset = with_drawers(SLIDES["side mount mm"], fronts=FrontLie.INSET)
    thick = draw_up(
        replace(inset, sheets={**inset.sheets, "slab": sheet("slab", F(1))}, sheet_of={"B1-DF1": "slab"})
    )
    assert bored_at(thick, "B1-L", "slide-DF1")[0][0] == 37 + F(1) / MM


@pytest.mark.parametrize(
    "job",
    [
        with_drawers(replace(SLIDES["side mount"], screw_height=None)),
        with_drawers(replace(SLIDES["side mount"], bored=False)),
        with_drawers(SLIDES["under mount"]),  # says nothing of its screws
        with_drawers(SLIDES["side mount"], frame=FaceFrame.POCKET_SCREWS),  # it is screwed to blocking
    ],
)
def test_nothing_is_bored_for_slides_that_say_nothing_or_stand_on_blocking(job: Job) -> None:
    project = draw_up(job)
    assert project.cases["B1"].drawers[0].box
    assert not [one for part in project for one in part.features if one.name.startswith("slide")]


def test_a_divider_is_bored_on_both_faces() -> None:
    bay = Bay(fronts=(Front(FrontKind.DRAWER),))
    project = draw_up(with_drawers(SLIDES["side mount"], width=F(40), bays=(bay, bay)))
    faces = {one.face for one in project.parts["B1-D1"].features if one.name.startswith("slide")}
    assert faces == {Way.LEFT, Way.RIGHT}
    assert bored_at(project, "B1-D1", "slide-DF1") == bored_at(project, "B1-L", "slide-DF1")
