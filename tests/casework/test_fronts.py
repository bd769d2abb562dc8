"""Doors and drawer fronts: their sizes and gaps, from the places of blanks alone and by worked examples."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casework.placed_boxes import boxes
from casewright.casework.directions import Axis
from casewright.casework.extents import RoomBox
from casewright.casework.front_choices import DoorKind, Front, FrontKind, FrontLie, Hung
from casewright.casework.job import Bay, CaseSpec, Construction, FaceFrame, Job, ToeKind, TopKind
from casewright.casework.parts.features.hinge_holes import HingePlate
from casewright.casework.parts.part import FRONTS, Role
from casewright.casework.project import Project, draw_up
from casewright.errors import JobError
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.lengths.length import MM, Mark, Unit
from casewright.shop.materials import SheetGood, Spread
from casewright.solids.solid_check import check_solids
from samples import SHEETS, job, spec

X, Y, Z = 0, 1, 2
GAP = F(1, 8)


def fronted(*bays: tuple[Front, ...], **made: Any) -> Job:
    construction = Construction(**made)
    one = spec(bays=tuple(Bay(fronts=fronts) for fronts in bays), construction=construction)
    return job(one, construction=construction)


def size_of(project: Project, mark: str) -> tuple[F, F]:
    """Width and height of a front, whichever way its grain runs."""
    box = boxes(project)[mark]
    return box.size[X], box.size[Z]


DOOR, PAIR, DRAWER = Front(FrontKind.DOOR), Front(FrontKind.TWO_DOORS), Front(FrontKind.DRAWER)


@pytest.mark.parametrize(
    ("opening", "lap", "door"),
    [((F(15), F(27)), F(1, 2), (F(16), F(28))), ((F(14), F(20)), F(3, 4), (F(31, 2), F(43, 2)))],
    ids=["a door seller's guide", "a how-to page"],
)
def test_a_door_laps_its_opening_all_round(opening: tuple[F, F], lap: F, door: tuple[F, F]) -> None:
    thick = draw_up(job()).sizes.of("ply.thickness")
    made = Construction(fronts=FrontLie.PARTIAL_OVERLAY, front_lap=lap, toe=ToeKind.NONE, top=TopKind.BUTT)
    one = spec(
        width=opening[0] + 2 * thick,
        height=opening[1] + 2 * thick,
        bays=(Bay(fronts=(DOOR,)),),
        construction=made,
    )
    assert size_of(draw_up(job(one, construction=made)), "B1-DO1") == door
    pair = replace(one, bays=(Bay(fronts=(PAIR,)),))
    # Each (opening + 2 overlays) / 2 - 1/16, with 1/8 between: the same guide.
    assert size_of(draw_up(job(pair, construction=made)), "B1-DO1")[0] == door[0] / 2 - F(1, 16)


def test_inset_doors_are_smaller_than_their_opening_by_the_gaps() -> None:
    """3/16 off one door, 9/32 off a pair for 3/32 all round: a cabinetmakers' forum."""
    for front, less in ((DOOR, F(3, 16)), (PAIR, F(9, 32))):
        project = draw_up(fronted((front,), fronts=FrontLie.INSET, front_gap=F(3, 32)))
        leaves = [size_of(project, part.mark)[0] for part in project if part.role is Role.DOOR]
        assert sum(leaves) == project.sizes.of("B1.inside") - less


def test_five_equal_fronts_in_a_box_800_high() -> None:
    """157 each with gaps of 3, and 3 left under the top: a trade adviser's column."""
    made = Construction(front_gap=3 * MM, front_top=3 * MM, toe=ToeKind.NONE)
    one = spec(height=800 * MM, bays=(Bay(fronts=(DRAWER,) * 5),), construction=made)
    sample = job(one, construction=made)
    project = draw_up(replace(sample, unit=Unit.MM, mark=Mark.MILLIMETRE, rounding=Mark.MILLIMETRE))
    assert [size_of(project, f"B1-DF{number}")[1] / MM for number in range(1, 6)] == [157] * 5


def test_the_rails_of_a_framed_door() -> None:
    """A door 14 wide of 2 1/2 stiles with tongues of 3/8 has rails 9 3/4 long: a cutter seller's page."""
    made = Construction(door=DoorKind.FRAME_AND_PANEL, door_stile=F(5, 2), front_gap=GAP)
    one = spec(width=F(14) + GAP, bays=(Bay(fronts=(DOOR,)),), construction=made)
    project = draw_up(job(one, construction=made))
    assert project.dimensions(project.parts["B1-DO1B"])[0] == F(39, 4)
    stile, rail, panel = (project.dimensions(project.parts[f"B1-DO1{one}"]) for one in "LBP")
    play = project.job.construction.panel_play
    assert panel[1] == F(14) - 5 + F(3, 4) - play and panel[0] == stile[0] - 2 * rail[1] + F(3, 4) - play


@st.composite
def bays(draw: st.DrawFn) -> tuple[Bay, ...]:
    kinds = st.sampled_from(FrontKind)
    hung = st.sampled_from(Hung)
    fronts = st.lists(st.builds(Front, kinds, st.none(), st.just(F(1)), hung), min_size=1, max_size=3)
    return tuple(Bay(fronts=tuple(draw(fronts))) for _ in range(draw(st.integers(1, 3))))


def case_of(bays: tuple[Bay, ...], made: Construction, mark: str = "B1") -> CaseSpec:
    return spec(mark, bays=bays, construction=made, width=F(12) * len(bays) + 6)


construction = st.builds(
    Construction,
    fronts=st.sampled_from(FrontLie),
    door=st.sampled_from(DoorKind),
    frame=st.sampled_from(FaceFrame),
    front_gap=st.sampled_from([F(1, 8), F(3, 32)]),
    front_lap=st.sampled_from([F(1, 4), F(3, 16)]),
    top=st.sampled_from(TopKind),
    toe=st.sampled_from(ToeKind),
)


@settings(max_examples=60, deadline=None)
@given(bays(), construction)
def test_every_gap_is_the_gap_and_nothing_overlaps(openings: tuple[Bay, ...], made: Construction) -> None:
    """By the boxes of the blanks: fronts of a bay are the gap apart, each bay's reach as far over what is
    around it as their lie says, and stand before it or flush with it."""
    try:
        project = draw_up(job(case_of(openings, made), construction=made))
    except JobError:
        return
    gap, at = made.front_gap, boxes(project)
    drawn = project.cases["B1"]
    over = {FrontLie.FULL_OVERLAY: gap, FrontLie.PARTIAL_OVERLAY: made.frame_rail - 2 * made.front_lap}
    apart = over.get(made.fronts, made.frame_rail + 2 * gap) if drawn.framed else gap
    outer = (drawn.framed and made.frame_stile) or project.sizes.of("ply.thickness")
    left, right = at["B1-L"].low[X], at["B1-R"].high[X]
    ends: list[tuple[F, F]] = []
    for bay in drawn.fronts:
        rows = [outline(at, front.leaves) for front in bay.fronts]
        for below, above in pairwise(rows):
            assert above[0].low[Z] - below[0].high[Z] == apart
        for row in rows:
            assert all(b.low[X] - a.high[X] == gap for a, b in pairwise(row))
            ends.append((row[0].low[X], row[-1].high[X]))
            flush = made.fronts is FrontLie.INSET
            face = at["B1-ST1" if drawn.framed else "B1-L"].low[Y]
            assert all(box.low[Y] == face if flush else face - box.high[Y] == made.front_off for box in row)
    lap = {FrontLie.FULL_OVERLAY: outer - gap / 2, FrontLie.PARTIAL_OVERLAY: made.front_lap}
    reach = outer - lap.get(made.fronts, -gap)
    assert min(low for low, _ in ends) == left + reach and max(high for _, high in ends) == right - reach


def outline(at: dict[str, RoomBox], leaves: tuple[str, ...]) -> list[RoomBox]:
    """Each leaf's own box: that of its parts together."""
    found = []
    for leaf in leaves:
        boxes = [
            box for mark, box in at.items() if mark == leaf or (mark[:-1] == leaf and mark[-1].isalpha())
        ]
        found.append(
            RoomBox(
                tuple(min(box.low[axis] for box in boxes) for axis in range(3)),  # type: ignore[arg-type]
                tuple(max(box.high[axis] for box in boxes) for axis in range(3)),  # type: ignore[arg-type]
            )
        )
    return found


@settings(max_examples=25, deadline=None)
@given(bays(), construction)
def test_the_solids_find_nothing_wrong_with_fronts(openings: tuple[Bay, ...], made: Construction) -> None:
    try:
        project = draw_up(job(case_of(openings, made), construction=made))
    except JobError:
        return
    marks = {part.mark for part in project if part.role in FRONTS}
    found = [one for one in check_solids(project) if set(one.place.split(", ")) & marks]
    assert found == []


@pytest.mark.parametrize("lie", FrontLie)
def test_under_one_frame_every_case_has_fronts_as_under_its_own(lie: FrontLie) -> None:
    """Those of the second case stand where the mullion between the cases and the end stile let them."""
    made = Construction(frame=FaceFrame.POCKET_SCREWS, fronts=lie, front_gap=GAP, front_lap=F(1, 4))
    second = replace(case_of((Bay(fronts=(PAIR,)),), made, "B2"), frame_with_left=True)
    at = boxes(draw_up(job(case_of((Bay(fronts=(DOOR,)),), made), second, construction=made)))
    mullion, stile = at["B1-MU1"], at["B1-ST2"]
    reach = {FrontLie.FULL_OVERLAY: (F(3, 2) - GAP) / 2, FrontLie.PARTIAL_OVERLAY: F(1, 4)}.get(lie, -GAP)
    assert at["B1-DO1"].high[X] - mullion.low[X] == mullion.high[X] - at["B2-DO1"].low[X] == reach
    end = F(3, 2) - GAP / 2 if lie is FrontLie.FULL_OVERLAY else reach
    assert at["B2-DO2"].high[X] - stile.low[X] == end
    assert at["B1-DO1"].low[Y] == at["B2-DO1"].low[Y] and at["B1-DO1"].high[Z] == at["B2-DO1"].high[Z]


def test_shelves_stand_back_from_inset_doors() -> None:
    thick = SHEETS["ply"].thickness
    made = Construction(fronts=FrontLie.INSET)
    bay = Bay(fixed=(F(10),), adjustable=1, fronts=(DOOR,))
    at = boxes(draw_up(job(spec(bays=(bay,), construction=made), construction=made)))
    assert at["B1-F11"].low[Y] == at["B1-DO1"].high[Y] == at["B1-L"].low[Y] + thick
    assert at["B1-A1"].low[Y] - at["B1-DO1"].high[Y] == made.shelf_setback


def test_plates_are_told_from_the_back_of_the_door_as_it_is() -> None:
    """A door of a sheet of its own, thicker and so heavier: its plates stand back further, and it has more
    hinges."""
    inset = replace(
        fronted((DOOR,), fronts=FrontLie.INSET), hinges={"inset": packaged_catalogue().hinges["inset"]}
    )
    slab = SheetGood("slab", "slab", F(1), F(96), F(48), Spread(F(1), 0.004), weight=F(8))
    own = replace(inset, sheets={**inset.sheets, "slab": slab}, sheet_of={"B1-DO1": "slab"})
    usual, thick = draw_up(inset), draw_up(own)

    def plates(project: Project) -> list[F]:
        features = project.parts["B1-L"].features
        return [project.sizes.of(one.setback) for one in features if isinstance(one, HingePlate)]

    assert plates(thick)[0] - plates(usual)[0] == F(1) - SHEETS["ply"].thickness
    assert len(plates(thick)) > len(plates(usual))


def test_a_box_that_was_measured_drives_its_doors() -> None:
    project = draw_up(fronted((PAIR,)))
    wider = project.given({"B1.inside": project.sizes.of("B1.inside") + F(1, 16)})
    grown = [wider.sizes.of(part.width) - project.sizes.of(part.width) for part in doors(project)]
    assert grown == [F(1, 32), F(1, 32)]


def doors(project: Project) -> list[Any]:
    return [part for part in project if part.role is Role.DOOR and part.lie.length is Axis.Z]


@pytest.mark.parametrize("frame", [one for one in FaceFrame if one is not FaceFrame.NONE])
def test_a_rail_stands_behind_each_gap_between_fronts_in_a_frame(frame: FaceFrame) -> None:
    """Drawer over door: the rail between them reaches from stile to mullion, as far as the frame's joints
    want, and is in the middle of what the two fronts leave."""
    stack = Bay(fronts=(DOOR, Front(FrontKind.FIXED, F(6))))
    for lie in FrontLie:
        made = Construction(frame=frame, fronts=lie, front_lap=F(3, 8), front_gap=GAP)
        second = replace(case_of((stack,), made, "B2"), frame_with_left=True)
        project = draw_up(job(case_of((stack, Bay()), made), second, construction=made))
        assert not [one for one in check_solids(project) if "RC" in one.place]
        at = boxes(project)
        rails = [at[part.mark] for part in project if part.role is Role.CROSS_RAIL]
        assert len(rails) == 2
        for rail, case, (left, right) in zip(
            rails, ("B1", "B2"), (("ST1", "MU1"), ("MU2", "ST2")), strict=True
        ):
            below, above = at[f"{case}-DO1"], at[f"{case}-FF1"]
            assert rail.low[Z] + rail.high[Z] == below.high[Z] + above.low[Z]
            ends = at[f"B1-{left}"].high[X] - rail.low[X], rail.high[X] - at[f"B1-{right}"].low[X]
            reach = {FaceFrame.HALF_LAPS: F(3, 2), FaceFrame.MORTISE_AND_TENON: F(1)}.get(frame, F(0))
            assert ends == (reach, reach)
