"""Roles of gaps and their limits: against the grades of the standards and beams worked by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from statistics import NormalDist

import numpy as np
import pytest

from casewright.casework.job import BackKind, Construction, Filler, Grade, ShelfJoint, TopKind
from casewright.casework.project import Project, draw_up
from casewright.lengths.quantities import caliper
from casewright.shop.materials import SheetGood
from casewright.shop.thickness_levels import thickness_levels
from casewright.tolerance.chains import bending, limits
from casewright.tolerance.chains.gaps import Gap, gaps_of
from casewright.tolerance.chains.limits import spare_limits
from casewright.tolerance.chains.roles import GapRole, Sight
from casewright.tolerance.outcomes.gap_spread import fit
from casewright.tolerance.tolerance_wording import bias_text
from samples import BASE, SHEETS, SHOP, job, spec

MADE = Construction(top=TopKind.DADO, dado_play=F(1, 64))


def gaps(made: Construction = MADE, **changes: object) -> dict[str, Gap]:
    return {gap.name: gap for gap in gaps_of(drawn(made, **changes))}  # type: ignore[arg-type]


def drawn(made: Construction = MADE, grade: Grade = Grade.CUSTOM, **changes: object) -> Project:
    one = spec("B1", construction=made, **{"bays": BASE, **changes})  # type: ignore[arg-type]
    return draw_up(replace(job(one, construction=made), grade=grade))


ROLES = [
    ("B1: B1-B in the dado of B1-L", GapRole.OWN_DADO, Sight.EXPOSED),
    ("B1: B1-K before the rear wall of the groove in B1-R", GapRole.OWN_DADO, Sight.CONCEALED),
    ("B1: B1-D1 in the dado of B1-T", GapRole.OWN_DADO, Sight.EXPOSED),
    ("B1: B1-D1 against the wall of the dado in B1-T", GapRole.LEAN, Sight.EXPOSED),
    ("B1: B1-F11 against the wall of the dado in B1-D1", GapRole.LEAN, Sight.EXPOSED),
    ("B1: B1-D1 on the floor of the dado in B1-T", GapRole.END, Sight.EXPOSED),
    ("B1: B1-F11 on the floor of the dado in B1-D1", GapRole.END, Sight.EXPOSED),
    ("B1: B1-TK against B1-R", GapRole.CONCEALED, Sight.CONCEALED),
    ("B1: B1-TK under B1-B", GapRole.OVERHANG, Sight.CONCEALED),
    ("B1: B1-K against the front wall of the groove in B1-B", GapRole.STEP, Sight.CONCEALED),
    ("B1: B1-K in the groove of B1-R", GapRole.BACK_PLAY, Sight.CONCEALED),
    ("B1: B1-D1 against B1-K", GapRole.CONCEALED, Sight.CONCEALED),
    ("B1: B1-A1 between the uprights", GapRole.SHELF_PLAY, Sight.SEMI_EXPOSED),
    ("B1: B1-A1 on its pins in B1-D1", GapRole.PINS, Sight.SEMI_EXPOSED),
    ("B1: B1-A1 rocks on its pins in B1-D1", GapRole.PINS, Sight.SEMI_EXPOSED),
    ("run: its cases in the opening", GapRole.OPENING, Sight.EXPOSED),
]


@pytest.mark.parametrize(("name", "role", "sight"), ROLES, ids=[row[0] for row in ROLES])
def test_a_gap_has_the_role_it_plays_at_the_dry_fit(name: str, role: GapRole, sight: Sight) -> None:
    gap = gaps()[name]
    assert gap.role is role
    assert gap.sight is sight


def test_no_gap_of_any_construction_is_without_a_role_and_a_reason() -> None:
    for top in TopKind:
        for back in BackKind:
            for shelf in ShelfJoint:
                made = replace(MADE, top=top, back=back, shelf=shelf)
                found = gaps(made)
                assert len(found) > 5
                assert all(gap.limits.reason for gap in found.values())
                stops = {gap.role for gap in found.values() if gap.limits.ease is not None}
                assert stops <= {
                    GapRole.OWN_DADO,
                    GapRole.END,
                    GapRole.OVERHANG,
                    GapRole.BACK_PLAY,
                    GapRole.SHELF_PLAY,
                    GapRole.PINS,
                    GapRole.OPENING,
                }


def test_a_second_dado_fits_by_itself_wherever_its_part_leans() -> None:
    """Width less thickness and nothing else: where the part stands is the other gap, its lean."""
    own, lean = (
        gaps()[f"B1: B1-D1 {words} B1-T"] for words in ("in the dado of", "against the wall of the dado in")
    )
    assert {name.rpartition(".")[0] for name in own.form.names} == {"B1-D1", "B1-T.dado-D1"}
    assert {name.rpartition(".")[2] for name in own.form.names} == {"thickness", "width"}
    assert "B1-T.dado-D1.at" in lean.form.names


# The sample: cases 36 in wide and 24 in deep, of plywood 23/32 in thick, a divider in the middle.
WIDE, DEEP, THICK, PLY = 36.0, 24.0, 23 / 32, 1.2e6


def test_a_divider_a_thirty_second_too_long_closes_by_hand() -> None:
    """Two beams, held at the sides, pushed apart at the divider: 48 E I / L^3 each, where it stands in the
    middle (any handbook of beams). Makers press such a divider home with 4 to 19 pounds."""
    gap = gaps(bays=(BASE[1], BASE[1]))["B1: B1-D1 on the floor of the dado in B1-T"]
    inertia = (DEEP - 0.8) * THICK**3 / 12  # a little less deep than its case, for the back
    each = 48 * PLY * inertia / (WIDE - THICK) ** 3
    assert gap.stiffness == pytest.approx(each / 2, rel=0.05)
    assert 4 < gap.stiffness / 32 < 19


def test_an_end_off_the_middle_meets_with_more() -> None:
    """A load between supports at a and b: 3 E I L / (a^2 b^2)."""
    project = drawn()
    frame = bending.Frame(project, project.cases["B1"])
    mate = next(
        one for one in project.cases["B1"].mates if one.name == "B1: B1-D1 on the floor of the dado in B1-T"
    )
    push = frame.push(mate)
    compliance = 0.0
    for panel, between in push.panels.items():
        part = project.parts[panel]
        share, span = float(between.share), float(between.high.at - between.low.at)
        a, b = share * span, (1 - share) * span
        e_i = PLY * float(project.sizes.of(part.width)) * THICK**3 / 12
        compliance += (a * b) ** 2 / (3 * e_i * span)
    assert set(push.panels) == {"B1-B", "B1-T"}
    assert push.stiffness == pytest.approx(1 / compliance)


def test_a_stretcher_too_long_only_leans_the_sides() -> None:
    gap = gaps(replace(MADE, top=TopKind.STRETCHERS))["B1: B1-SF against B1-R"]
    assert gap.stiffness == 0.0 and gap.limits.ease is None and gap.limits.hand is None


def test_a_shelf_between_takes_the_lean_of_the_sides_along() -> None:
    """With the stretchers too short the sides lean in; a shelf half way up then loses half of it."""
    found = gaps(replace(MADE, top=TopKind.STRETCHERS), bays=(BASE[0],))
    shelf, stretcher = found["B1: B1-F11 on the floor of the dado in B1-R"], found["B1: B1-SF against B1-R"]
    (share,) = (k for name, k in shelf.form.terms if name == "B1-SF.length")
    (whole,) = (k for name, k in stretcher.form.terms if name == "B1-SF.length")
    assert whole == -1 and 0 < share < 1
    assert shelf.stiffness > 0


@pytest.mark.parametrize(
    ("grade", "gap", "step"),
    [(Grade.PREMIUM, "0.016", "0.012"), (Grade.CUSTOM, "0.031", "0.025"), (Grade.ECONOMY, "0.047", "0.031")],
)
def test_what_may_show_is_the_grades(grade: Grade, gap: str, step: str) -> None:
    """ANSI/AWI 0620-2024, 3.4.1.1(c); AWS ed. 1 (2009), 6.1.21.1.1 (economy: common practice, no source)."""
    project = drawn(grade=grade)
    spreads = fit(project).spreads
    assert spreads["B1: B1-B in the dado of B1-L"].bounds.shown_high == F(gap)
    flush = spreads["B1: B1-K against the front wall of the groove in B1-B"].bounds
    play = MADE.groove_play  # the back's groove takes up as much before the bottom slides
    assert (flush.shown_low, flush.shown_high) == (-F(step) - play, F(step) + play)
    rear = spreads["B1: B1-K before the rear wall of the groove in B1-L"]
    assert rear.bounds.shown_high is None, "nobody sees it"


def test_a_panel_too_thick_is_tapped_in_then_sanded_then_the_dado_cut_again() -> None:
    """0, 4 and 20 thousandths at the thickest of three places (common practice, no source)."""
    bounds = fit(drawn()).spreads["B1: B1-B in the dado of B1-L"].bounds
    assert bounds.hand is not None and bounds.ease is not None and bounds.again_low is not None
    assert bounds.hand - bounds.ease == F(4, 1000) and bounds.hand - bounds.again_low == F(20, 1000)
    levels = thickness_levels(SHEETS["ply"], SHOP.deviations)
    assert float(bounds.hand) == pytest.approx(0.85 * levels.places)


def test_the_thickest_of_three_places() -> None:
    """The mean of the greatest of three normal values, by integration."""
    normal = NormalDist()
    steps = 4000
    points = [-8 + 16 * step / steps for step in range(steps + 1)]
    mean = sum(x * 3 * normal.cdf(x) ** 2 * normal.pdf(x) for x in points) * 16 / steps
    assert float(limits.THICKEST) == pytest.approx(mean, abs=0.005)


def test_a_back_may_be_narrower_as_long_as_it_laps_and_wider_never() -> None:
    bounds = fit(drawn()).spreads["B1: B1-K in the groove of B1-R"].bounds
    assert [bounds.ease, bounds.hand, bounds.again_high] == [0, 0, MADE.groove_depth + MADE.back_play]


def test_a_back_laid_on_may_be_shy_but_not_stand_out() -> None:
    found = fit(drawn(replace(MADE, back=BackKind.APPLIED))).spreads
    across = found["B1: B1-K flush with B1-R, right"].bounds
    assert (across.ease_high, across.ease) == (F(1, 32), None)
    down = found["B1: B1-K flush with B1-B, down"].bounds
    assert (down.ease, down.ease_high) == (-F(1, 32), None)


def test_stiff_panels_are_not_called_a_jam_for_a_hair() -> None:
    """However stiff: a sixty-fourth goes home unnoticed, a thirty-second is closed by a clamp or left."""
    ends = [gap for gap in gaps().values() if gap.role is GapRole.END and gap.stiffness > 300 * 32]
    for gap in ends:
        assert gap.limits.hand is not None and gap.limits.ease is not None
        assert (gap.limits.hand.constant, gap.limits.ease.constant) == (-F(1, 64), -F(1, 32))


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
    found = spare_limits(project.runs[0], project.sizes)
    right = F(1, 8)  # the other end is open in every case
    assert found.ease is not None and found.shown_high is not None
    assert project.sizes.of(found.ease) == low and project.sizes.of(found.shown_high) == high + right


def sheet(*readings: str) -> SheetGood:
    return replace(SHEETS["ply"], readings=tuple(F(one) for one in readings))


def test_readings_narrow_the_lot_at_once_and_the_sheets_as_they_grow_in_number() -> None:
    usual = thickness_levels(sheet(), SHOP.deviations)
    assert usual.lot == usual.sheets == usual.places == pytest.approx(0.005 / 3**0.5)
    one = thickness_levels(sheet("0.718"), SHOP.deviations)
    assert one.sheets == pytest.approx(usual.sheets), "one reading says nothing of how sheets differ"
    alike = [thickness_levels(sheet(*["0.718"] * n), SHOP.deviations) for n in (2, 4, 12)]
    assert [level.sheets for level in alike] == sorted((level.sheets for level in alike), reverse=True)
    assert alike[-1].sheets > 0, "a few readings alike do not make all sheets alike"
    assert alike[-1].lot < alike[0].lot


def test_many_readings_tell_the_spread_itself() -> None:
    drawn_at = np.random.default_rng(2).normal(0.72, 0.009, 400)
    levels = thickness_levels(sheet(*(f"{one:.6f}" for one in drawn_at)), SHOP.deviations)
    assert (levels.sheets**2 + levels.places**2) ** 0.5 == pytest.approx(0.009, rel=0.1)


def test_a_bias_of_the_rules_marks_is_named_and_none_else() -> None:
    """At marks of 1/16 something is left; with all sizes on a mark nothing is."""
    plan = fit(drawn())
    for spread in plan.spreads.values():
        said, off = bias_text(plan.project, spread), spread.mean - spread.nominal
        assert bool(said) is (abs(off) >= plan.project.job.mark.step / 4), (spread.gap.name, said)
        assert not said or caliper(abs(off), plan.project.job.unit) in said
    assert any(bias_text(plan.project, spread) for spread in plan.spreads.values())
