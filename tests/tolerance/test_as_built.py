"""What is measured takes the place of the plan; what is cut is a fact; what is broken is mended."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.job import BackKind, Construction
from casewright.casework.parts.features.channel import Channel
from casewright.casework.project import Project, draw_up
from casewright.shop.measuring_tools import MeasuringTool
from casewright.tolerance.as_built.cure_steps import Act
from casewright.tolerance.as_built.cures import find_cures, gaps_out_of_range
from casewright.tolerance.as_built.readings import AsBuilt, fit_as_built
from casewright.tolerance.outcomes.gap_spread import Fit, fit
from casewright.tolerance.tolerance_wording import cure_sentence, gap_off_text, merge_alike_cures
from samples import BASE, job, spec


def two_cases(**changes: object) -> tuple[Project, Fit]:
    made = replace(Construction(), **changes)  # type: ignore[arg-type]
    cases = [spec(mark, bays=BASE, construction=made) for mark in ("B1", "B2")]
    project = draw_up(job(*cases, construction=made))
    return project, fit(project)


def test_a_measured_groove_moves_the_uncut_back_and_leaves_no_gap_broken() -> None:
    project, plan = two_cases()
    measured = AsBuilt().read("B1-L.groove-back.depth", F(7, 32), MeasuringTool.CALIPER)
    built = fit_as_built(plan, measured)
    sizes = built.fit.project.sizes
    assert sizes.of("B1-K.width") == project.sizes.of("B1-K.width") - F(1, 32)
    assert sizes.of("B2-K.width") == project.sizes.of("B2-K.width")
    assert not gaps_out_of_range(built.fit)


def test_what_is_cut_stays_as_it_was_cut_when_the_sheet_is_measured_later() -> None:
    project, plan = two_cases()
    as_built = AsBuilt().cut_now(plan, ["B1-B"])
    after = fit_as_built(plan, as_built.read("ply.thickness", F(22, 32), MeasuringTool.CALIPER)).fit
    assert after.project.sizes.of("B1-B.length") == project.sizes.of("B1-B.length")
    assert after.project.sizes.of("B2-B.length") == project.sizes.of("B2-B.length") + F(1, 16)
    # It was cut, not measured: its cutting errors are still in it.
    spread = after.spreads["B1: B1-SF against B1-R"]
    assert any(cause.what == "B1-B.length" for cause in spread.errors)


def test_a_back_cut_too_narrow_is_broken_and_only_a_new_one_or_shallower_grooves_would_mend_it() -> None:
    project, plan = two_cases()
    width = project.sizes.of("B1-K.width")
    as_built = AsBuilt().cut_now(plan, project.parts).read("B1-K.width", width - F(3, 8))
    built = fit_as_built(plan, as_built)
    assert [gap_off_text(project, spread) for spread in gaps_out_of_range(built.fit)] == [
        'B1-K in the groove of B1-R: 3/8" too open'
    ]
    found = find_cures(built.fit, as_built)
    assert found[0].steps[0].act is Act.REMAKE
    assert cure_sentence(project, found[0]) == 'remake the back B1-K 3/8" wider'
    assert all(step.act is not Act.TRIM or step.parts != ("B1-K",) for cure in found for step in cure.steps)


@pytest.mark.parametrize(("narrow", "remade"), [(F(2), True), (F(2) + F(9, 32), False)])
def test_a_back_is_not_made_again_by_more_than_two_inches(narrow: F, remade: bool) -> None:
    """Common practice, no source: what is further off was another part."""
    project, plan = two_cases()
    width = project.sizes.of("B1-K.width")
    as_built = AsBuilt().cut_now(plan, project.parts).read("B1-K.width", width - narrow)
    found = [cure.steps for cure in find_cures(fit_as_built(plan, as_built).fit, as_built, most=2)]
    alone = [step.change for steps in found for step in steps if len(steps) == 1 and step.parts == ("B1-K",)]
    assert alone == ([narrow] if remade else [])
    assert all(abs(step.change) <= 2 for steps in found for step in steps)


def test_a_back_cut_too_long_is_trimmed_and_uncut_sides_could_be_cut_longer_instead() -> None:
    project, plan = two_cases()
    length = project.sizes.of("B1-K.length")
    as_built = AsBuilt().cut_now(plan, ["B1-K"]).read("B1-K.length", length + F(1, 16))
    built = fit_as_built(plan, as_built)
    found = find_cures(built.fit, as_built)
    told = [cure_sentence(project, cure) for cure in found]
    assert 'trim the back B1-K 1/16" shorter' in told
    assert 'cut 2 sides (B1-L, B1-R) 1/16" longer' in told


def test_the_same_fault_in_two_cases_is_mended_in_one_sentence() -> None:
    """Backs applied over the rear edges, cut a sixteenth too wide in every case."""
    project, plan = two_cases(back=BackKind.APPLIED)
    wide = project.sizes.of("B1-K.width") + F(1, 16)
    as_built = AsBuilt().cut_now(plan, project.parts)
    for mark in ("B1", "B2"):
        as_built = as_built.read(f"{mark}-K.width", wide)
    built = fit_as_built(plan, as_built)
    told = [
        cure_sentence(project, cure) for cure in merge_alike_cures(find_cures(built.fit, as_built), project)
    ]
    assert told[0] == 'trim 2 backs (B1-K, B2-K) 1/16" narrower'


@settings(deadline=None, max_examples=25)
@given(
    st.sampled_from(
        ["B1-L.width", "B1-B.length", "B1-K.width", "B1-K.length", "B1-SF.length", "B1-D1.length"]
    ),
    st.integers(-6, 6),
    st.sets(st.sampled_from(["B1-L", "B1-R", "B1-B", "B1-SF", "B1-SB", "B1-D1", "B1-F11", "B1-K", "B1-TK"])),
)
def test_every_cure_closes_its_gaps_opens_no_other_and_never_adds_wood(
    name: str, marks: int, cut: set[str]
) -> None:
    project, plan = two_cases()
    value = project.sizes.of(name) + marks * project.job.mark.step
    as_built = AsBuilt().cut_now(plan, cut | {name.partition(".")[0]}).read(name, value)
    now = fit_as_built(plan, as_built).fit
    before = {spread.gap.name for spread in gaps_out_of_range(now)}
    for cure in find_cures(now, as_built, most=3):
        after = now.given({size: (value, None) for size, value in cure.sizes(now).items()})
        left = {spread.gap.name for spread in gaps_out_of_range(after)}
        assert not left & set(cure.gaps)
        assert left <= before
        for step in cure.steps:
            assert step.change < 0 if step.act is Act.TRIM else step.change != 0
            if step.act is Act.CUT:
                assert not any(one in as_built.cut or one in now.facts for one in step.names)


def test_contradictory_readings_stand_side_by_side_and_none_is_lost() -> None:
    _, plan = two_cases()
    as_built = AsBuilt().read("B1-L.length", F(69, 2)).read("B1-L.length", F(69, 2) + F(1, 4))
    built = fit_as_built(plan, as_built)
    (found,) = (finding for finding in built.findings if finding.code == "readings-disagree")
    assert '34 1/2" by rule (reading 1)' in found.text and '34 3/4" by rule (reading 2)' in found.text
    assert built.fit.project.sizes.of("B1-L.length") == F(69, 2)
    chosen = fit_as_built(plan, as_built.choose(2))
    assert chosen.fit.project.sizes.of("B1-L.length") == F(69, 2) + F(1, 4)
    assert not any(finding.code == "readings-disagree" for finding in chosen.findings)
    assert [reading.value for reading in chosen.as_built.of("B1-L.length")] == [F(69, 2), F(139, 4)]


def test_readings_that_agree_count_as_their_mean() -> None:
    _, plan = two_cases()
    as_built = AsBuilt()
    for thickness in (F(718, 1000), F(722, 1000), F(720, 1000)):
        as_built = as_built.read("ply.thickness", thickness, MeasuringTool.CALIPER)
    built = fit_as_built(plan, as_built)
    assert not built.findings
    assert built.fit.project.sizes.of("ply.thickness") == F(720, 1000)
    dado = built.fit.project.parts["B1-L"].feature("dado-bottom")
    assert isinstance(dado, Channel) and built.fit.project.sizes.of(dado.width) == F(720, 1000)


def test_a_reading_an_inch_off_is_asked_about_and_the_usual_slip_named() -> None:
    _, plan = two_cases()
    (found,) = fit_as_built(plan, AsBuilt().read("B1-L.length", F(67, 2))).findings
    assert found.code == "misread-or-miscut"
    assert '33 1/2", 1" shorter than the 34 1/2" planned' in found.text
    assert "held at its 1 in line" in found.text
    assert "spoiled" in found.fix


def test_a_reading_of_another_part_s_size_names_that_part() -> None:
    _, plan = two_cases()
    depth = plan.project.sizes.of("B1-B.length")
    (found,) = fit_as_built(plan, AsBuilt().read("B1-F11.length", depth)).findings
    assert "That is the length of B1-B" in found.text
    (found,) = fit_as_built(plan, AsBuilt().read("B1-L.length", F(24))).findings
    assert "length and width swapped" in found.text


def test_a_reading_within_the_saw_s_error_raises_no_question() -> None:
    _, plan = two_cases()
    assert not fit_as_built(plan, AsBuilt().read("B1-L.length", F(69, 2) + F(1, 32))).findings


def test_both_diagonals_of_a_case_tell_which_corners_to_draw_in() -> None:
    _, plan = two_cases()
    straight = AsBuilt().read("B1.rising", F(4987, 100)).read("B1.falling", F(4987, 100))
    assert not fit_as_built(plan, straight).findings
    (found,) = fit_as_built(plan, straight.read("B1.rising", F(50))).findings
    assert found.code == "out-of-square" and found.place == "B1"
    assert "to the right" in found.text and "lower left and upper right" in found.fix
    (odd,) = fit_as_built(plan, straight.read("B1.falling", F(200))).findings
    assert odd.code == "diagonals"


def test_a_name_that_is_no_size_is_refused_by_name_and_a_diagonal_is_not() -> None:
    _, plan = two_cases()
    built = fit_as_built(plan, AsBuilt().read("B9-L.length", F(30)).read("B1.rising", F(50)))
    (found,) = built.findings
    assert (found.code, found.place) == ("no-such-size", "B9-L.length")
    with pytest.raises(KeyError):
        AsBuilt().choose(1)


def test_a_depth_gauge_is_known_by_its_name_and_counts_for_more_than_a_rule() -> None:
    assert MeasuringTool.called("depth gauge") is MeasuringTool.DEPTH_GAUGE
    assert MeasuringTool.called("folding rule") is MeasuringTool.RULE
    _, plan = two_cases()
    spreads = {
        tool: fit_as_built(plan, AsBuilt().read("B1-L.groove-back.depth", F(1, 4), tool))
        .fit.spreads["B1: B1-K in the groove of B1-R"]
        .deviation
        for tool in MeasuringTool
    }
    tools = (MeasuringTool.CALIPER, MeasuringTool.DEPTH_GAUGE, MeasuringTool.RULE, MeasuringTool.TAPE)
    assert sorted(tools, key=lambda tool: spreads[tool]) == list(tools)


def test_one_side_of_a_pair_cut_wide_is_trimmed_to_the_other() -> None:
    """A sixteenth: the back's groove is then out of line, and one rip mends it."""
    project, plan = two_cases()
    as_built = AsBuilt().cut_now(plan, ["B1-L", "B1-R"]).read("B1-L.width", F(24) + F(1, 16))
    built = fit_as_built(plan, as_built)
    assert gaps_out_of_range(built.fit)
    told = [cure_sentence(project, cure) for cure in find_cures(built.fit, as_built)]
    assert any(one.startswith("trim the side B1-L") for one in told), told
