"""Shelves of drawn jobs: their span, depth, grain, edging and load by hand, and what mends those that sag."""

from __future__ import annotations

import re
from fractions import Fraction as F
from time import process_time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bearing.loaded_jobs import WALL_CASE, borne_by, drawn, text
from casewright.bearing.borne import borne
from casewright.bearing.held_by_back import THINNEST_BACK
from casewright.bearing.job_shelves import BearingShelf
from casewright.bearing.shelf_cures import LEAST_STIFF_HARDWOOD
from casewright.casework.parts.part import Role
from casewright.findings import Finding, Weight
from casewright.shop.woods import known_woods
from casewright.strength.beam import EndSupport
from casewright.strength.loaded_shelf import LoadedShelf, sag_of
from casewright.strength.loads import shelf_uses
from casewright.strength.shelf_answer import against_limit
from casewright.workshop.assembly.joining import glue_ups_of_all
from example_files import EXAMPLES
from finding_rows import plain

PLY, MDF = F(23, 32), F(3, 4)
BOTH_KINDS = f"{WALL_CASE}\nbays = [{{ fixed = [10], adjustable = 1 }}]"
SOFTWOODS = ("pine", "fir")

OAK = """
[edging.oak]
name = "oak"
thickness = "3/4"
stick = 96
wood = "red oak"
drop = "3/4"
"""


def shelves_of(job_text: str) -> dict[str, BearingShelf]:
    return {one.part.mark: one for one in borne_by(job_text).shelves}


def shelf_of(job_text: str, mark: str) -> LoadedShelf:
    shelf = shelves_of(job_text)[mark].shelf
    assert shelf is not None
    return shelf


def test_a_shelf_spans_from_side_to_side() -> None:
    """A case 33 in wide with sides of 23/32 in: 31 9/16 in, whether the shelf lies in dados or on pins."""
    found = shelves_of(text(BOTH_KINDS))
    assert set(found) == {"W1-B", "W1-F11", "W1-A1"}
    assert {one.shelf.span for one in found.values() if one.shelf} == {33 - 2 * PLY}
    supports = {mark: one.shelf.support for mark, one in found.items() if one.shelf}
    assert supports["W1-F11"] is EndSupport.DADO
    assert supports["W1-A1"] is EndSupport.PINS


def test_a_divider_shortens_it() -> None:
    """Two bays share 33 in less three panels; the bottom of such a case is shared with the top and left
    out."""
    bays = f"{WALL_CASE}\nbays = [{{ fixed = [10] }}, {{ adjustable = 1 }}]"
    found = shelves_of(text(bays))
    assert set(found) == {"W1-F11", "W1-A1"}
    assert found["W1-F11"].shelf is not None
    assert found["W1-F11"].shelf.span == pytest.approx((33 - 3 * PLY) / 2, abs=1 / 32)


def test_a_case_on_the_floor_has_no_bottom_that_bears() -> None:
    base = 'kind = "base"\nwidth = 33\nheight = 34\ndepth = 24\nbays = [{ adjustable = 1 }]'
    assert set(shelves_of(text(base, run=""))) == {"W1-A1"}


def test_depth_is_that_of_the_panel_and_the_edging_comes_before_it() -> None:
    """12 in deep with a back 7/32 in thick 23/32 in before the wall: 11 1/16 in remain, of which a shelf in
    dados takes all but its setback. An edging that is taken off leaves the panel less deep."""
    bare = shelf_of(text(BOTH_KINDS), "W1-F11")
    project = drawn(text(BOTH_KINDS))
    assert bare.depth == project.sizes.of(project.parts["W1-F11"].width)
    edged = shelf_of(text(BOTH_KINDS, more=OAK + '[edged]\nshelf = "oak"'), "W1-F11")
    assert edged.front is not None
    assert (edged.front.width, edged.front.height) == (MDF, MDF + F(3, 4))
    assert edged.depth == bare.depth - edged.front.width
    assert edged.whole_depth == bare.whole_depth


@pytest.mark.parametrize("put", ["taken_off = false", 'put_on = "after glue-up"\ntaken_off = false'])
def test_a_panel_that_is_not_cut_narrower_is_as_deep_as_ever(put: str) -> None:
    bare = shelf_of(text(BOTH_KINDS), "W1-F11")
    edged = shelf_of(text(BOTH_KINDS, more=f'{OAK}{put}\n[edged]\nshelf = "oak"'), "W1-F11")
    assert edged.front is not None
    assert edged.depth == bare.depth


def test_an_edging_along_the_back_counts() -> None:
    edges = f'{OAK}[edging_of.W1-A1]\nfront = "oak"\nback = "oak"\n'
    edged = shelf_of(text(BOTH_KINDS, more=edges), "W1-A1")
    assert edged.front == edged.back is not None


def test_tape_is_no_strip() -> None:
    tape = OAK.replace('wood = "red oak"\ndrop = "3/4"\n', "")
    assert shelf_of(text(BOTH_KINDS, more=tape + '[edged]\nshelf = "oak"'), "W1-A1").is_plain


def test_grain_runs_along_unless_it_may_lie_either_way() -> None:
    assert shelf_of(text(BOTH_KINDS, shelf="ply"), "W1-F11").grain_along
    either = text(BOTH_KINDS, shelf="ply").replace('unit = "in"', 'unit = "in"\neither_way = ["W1-F11"]')
    assert not shelf_of(either, "W1-F11").grain_along
    assert shelf_of(either, "W1-A1").grain_along


def test_loads_are_those_the_case_is_for() -> None:
    """15 lb/ft2 for the whole job, 60 for one case; the woodwork standard lays no more than 200 lb on one
    shelf: 48 by 36 in at 40 lb/ft2 would be 480."""
    own = f'{BOTH_KINDS}\nloads = {{ load = "60 lb/ft2" }}'
    found = shelves_of(text(BOTH_KINDS, own, holds='holds = "kitchen, as tested"'))
    assert found["W1-A1"].load.pounds.value == 15
    assert found["W2-A1"].load.pounds.value == 60
    anything, own_load = shelf_uses()["anything"], found["W2-A1"].load
    assert anything.on_shelf(F(48), F(36)) == 200
    assert anything.on_shelf(F(48), F(12)) == 160
    assert anything.per_square_inch(F(48), F(36)) == F(200, 48 * 36)
    assert own_load.on_shelf(F(48), F(36)) == 720


def test_the_sag_of_a_drawn_shelf_by_hand() -> None:
    """5 w L4 / 384 E I for MDF on pins, 40 lb/ft2, whatever its depth: w = 40 / 144, I = t3 / 12 an inch."""
    verdict = shelves_of(text(BOTH_KINDS))["W1-A1"].verdict
    assert verdict is not None
    modulus = verdict.shelf.material.stiffness.along.value
    by_hand = 5 * F(40, 144) * (33 - 2 * PLY) ** 4 / (384 * modulus * MDF**3 / 12)
    assert float(verdict.at_once.most) == pytest.approx(float(by_hand), rel=1e-6)
    assert verdict.allowed == (33 - 2 * PLY) / 144


@pytest.mark.parametrize(
    ("holds", "code", "weight"),
    [
        ("tinned food", "shelf-sags", Weight.WARN),
        ("anything", "shelf-sags", Weight.WARN),
        ("crockery", "sags-in-years", Weight.NOTE),
    ],
)
def test_shelves_of_mdf_so_long_for_pots_are_not_passed(holds: str, code: str, weight: Weight) -> None:
    """31 9/16 in of 3/4 in MDF: under tins it is past L/144 at once; under crockery it meets that new, and
    hangs 9/16 in after years. Plywood holds crockery."""
    found = borne_by(text(f"{WALL_CASE}\nbays = [{{ adjustable = 1 }}]", holds=f'holds = "{holds}"')).findings
    assert [(one.code, one.place, one.weight) for one in found] == [(code, "W1-A1", weight)]
    birch = text(f"{WALL_CASE}\nbays = [{{ adjustable = 1 }}]", shelf="ply", holds='holds = "crockery"')
    assert borne_by(birch).findings == ()


def test_shelves_that_sag_in_years_are_told_once() -> None:
    job_text = text(BOTH_KINDS, BOTH_KINDS.replace("33", "30"), holds='holds = "crockery"')
    (found,) = borne_by(job_text).findings
    assert found.place == "W1-A1", "the back holds the fixed ones"
    assert "1 more shelf goes beyond its too" in found.text


def test_no_hardwood_known_is_less_stiff_than_the_one_that_cures_are_reckoned_with() -> None:
    hardwoods = [wood for name, wood in known_woods().items() if not any(one in name for one in SOFTWOODS)]
    assert len(hardwoods) > 8
    assert min(hardwoods, key=lambda wood: wood.stiffness) == known_woods()[LEAST_STIFF_HARDWOOD]


EDGE = re.compile(r'dge its (front(?: and back)?) with (\S+)" of hardwood ([^"]+)" high \(drop ([^"]+)"\)')


def sagging(job_text: str) -> list[Finding]:
    return [one for one in borne_by(job_text).findings if one.code in {"shelf-sags", "sags-in-years"}]


@settings(max_examples=25, deadline=None)
@given(
    width=st.integers(96, 176).map(lambda quarters: F(quarters, 4)),
    load=st.integers(20, 60),
    wood=st.sampled_from(["black cherry", "silver maple", "red oak"]),
    taken_off=st.sampled_from(["true", "false"]),
)
def test_the_edging_in_the_fix_mends_the_shelf(width: F, load: int, wood: str, taken_off: str) -> None:
    """Whatever hardwood is taken, ripped as high as it says, and whether or not the panel is cut narrower."""
    case = f"{WALL_CASE.replace('33', str(float(width)))}\nbays = [{{ adjustable = 1 }}]"
    holds = f'load = "{load} lb/ft2"'
    shelves = [one for one in sagging(text(case, holds=holds)) if one.place == "W1-A1"]
    found = EDGE.search(plain(shelves[0].fix)) if shelves else None
    if found is None:
        return
    where, thick, high, drop = found.groups()
    edging = (
        f'[edging.new]\nname = "new"\nthickness = "{thick}"\nstick = 96\nwood = "{wood}"\ndrop = "{drop}"\n'
        f'width = "{high}"\ntaken_off = {taken_off}\n'
    )
    ways = "".join(f'{way} = "new"\n' for way in where.split(" and "))
    mended = text(case, holds=holds, more=f"{edging}[edging_of.W1-A1]\n{ways}")
    assert not [one for one in sagging(mended) if one.place == "W1-A1"]


def test_the_back_holds_the_fixed_shelves_that_the_bench_plan_screws_it_to() -> None:
    """In the examples and for every kind of back: each shelf with a row of screws, and no other."""
    texts = [path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*.toml"))]
    made = 'construction = {{ back = "{}" }}'
    texts += [text(f"{BOTH_KINDS}\n{made.format(kind)}") for kind in ("groove", "rabbet", "applied", "none")]
    texts.append(text(f'{BOTH_KINDS}\nmade_of = {{ back = "ply" }}'))
    for one in texts:
        project = drawn(one)
        screwed = {
            joint.into
            for joinings in glue_ups_of_all(project).values()
            for joining in joinings
            for joint in joining.screws
            if project.parts[joint.through].role is Role.BACK
            and project.parts[joint.into].role is Role.FIXED_SHELF
            and len(joint.places) > 1
            and project.sizes.of(project.parts[joint.through].thickness) >= THINNEST_BACK
        }
        held = {one.part.mark for one in borne(project).shelves if one.shelf and one.shelf.back_held}
        assert held == screwed
    assert not any(one.shelf and one.shelf.back_held for one in borne_by(texts[-2]).shelves), "no back"


def test_all_that_sixty_cases_bear_is_worked_out_at_once() -> None:
    """The school's cases and their findings, in under 0.3 s of processor time."""
    project = drawn((EXAMPLES / "school-workshop.toml").read_text(encoding="utf-8"))
    assert len(project.cases) == 60

    def seconds() -> float:
        sag_of.cache_clear()
        against_limit.cache_clear()
        begun = process_time()
        borne(project)
        return process_time() - begun

    assert min(seconds() for _ in range(3)) < 0.3


def test_a_thin_back_and_one_that_moves_hold_no_shelf() -> None:
    thin = '[materials.thin]\nsheet = "hardboard 3"\n'
    paper = text(BOTH_KINDS).replace('[materials.thin]\nsheet = "hardwood ply 1/4"\n', thin)
    assert not any(one.shelf and one.shelf.back_held for one in borne_by(paper).shelves)
    assert shelf_of(text(BOTH_KINDS), "W1-F11").back_held


def test_a_shelf_for_pots_among_linen() -> None:
    """Tinned food on one of two shelves: that one sags beyond its figure, and the screws bear more."""
    case, linen = f"{WALL_CASE}\nbays = [{{ adjustable = 2 }}]", 'holds = "linen"'
    alone = '[loads_of]\n"W1-A2" = { holds = "tinned food" }'
    over = [one for one in sagging(text(case, holds=linen, more=alone)) if one.code == "shelf-sags"]
    assert [one.place for one in over] == ["W1-A2"]
    assert not [one for one in sagging(text(case, holds=linen)) if one.code == "shelf-sags"]
    rows = [borne_by(text(case, holds=linen, more=more)).hangings[0].row for more in ("", alone)]
    assert rows[0] and rows[1]
    assert 50 < rows[1].full - rows[0].full < 60, "23 lb/ft2 on 2.4 ft2"


def test_the_span_in_the_fix_mends_the_shelf() -> None:
    case = f"{WALL_CASE}\nbays = [{{ adjustable = 1 }}]"
    heavy = {"shelf": "ply", "holds": 'load = "90 lb/ft2"'}
    *_, found = sagging(text(case, **heavy))
    at_most = re.search(r'make it ([^"]+)" long', plain(found.fix))
    assert at_most is not None
    wide = sum(map(F, at_most.group(1).split())) + 2 * PLY
    assert sagging(text(case.replace("33", f'"{wide // 1} {wide % 1}"'.replace(" 0", "")), **heavy)) == []


def test_a_thicker_sheet_is_offered_only_of_the_same_kind() -> None:
    """1 1/4 in of MDF does for a shelf of MDF; plywood in the job is no thicker MDF."""
    case = f"{WALL_CASE}\nbays = [{{ adjustable = 1 }}]"
    inch = '[materials.inch]\nsheet = "{} 3/4"\nnominal = "1 1/4"\nreadings = ["1 1/4"]\n'
    (found,) = sagging(text(case, more=inch.format("mdf")))
    assert 'make it 1 1/4" thick' in plain(found.fix)
    (found,) = sagging(text(case, more=inch.format("hardwood ply")))
    assert "thick" not in plain(found.fix)
