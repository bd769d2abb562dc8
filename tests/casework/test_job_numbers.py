"""The numbers of whole jobs: what is gauged, housed, left out of true, and what a reading moves."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from math import ceil, floor

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.job import Bay
from casewright.casework.numbers.choose_marks import choose_marks
from casewright.casework.project import Project, draw_up
from casewright.jobfile.read.read_job import read_job
from casewright.lengths.length import Mark, show
from casewright.lengths.rounding import nearest
from casewright.shop.materials import Spread
from casewright.tolerance.chains.made_sizes import BY_RULE, HowMade, made_sizes
from casewright.tolerance.outcomes.gap_spread import fit
from example_files import EXAMPLES
from samples import BASE, SHEETS, job, spec

NAMES = ("pottery-studio", "ferry-canteen", "school-workshop")


def sample(thickness: F = F(707, 1000), back: F = F(203, 1000), bays: tuple[Bay, ...] = BASE) -> Project:
    """Two cases of sheets that are on no mark of the rule."""
    sheets = {
        "ply": replace(SHEETS["ply"], usual=Spread(thickness, 0.005)),
        "thin": replace(SHEETS["thin"], usual=Spread(back, 0.004)),
    }
    return draw_up(replace(job(spec("B1", bays=bays), spec("B2", width=F(30))), sheets=sheets))


thicknesses = st.fractions(F(67, 100), F(76, 100), max_denominator=1000)


@pytest.fixture(scope="module", params=NAMES)
def example(request: pytest.FixtureRequest) -> Project:
    return draw_up(read_job((EXAMPLES / f"{request.param}.toml").read_text(encoding="utf-8")))


def test_every_size_the_rule_sets_is_numbered_or_gauged(example: Project) -> None:
    """As `tolerance` has it, which says how each size is made."""
    how = example.numbers.set_sizes
    set_by = BY_RULE | {HowMade.GAUGED}
    by_rule = {name for name, one in made_sizes(example).items() if one.how in set_by}
    assert how.numbered | how.gauged == {name for name in by_rule if name in example.sizes.values}
    assert not how.numbered & how.gauged


def test_what_is_gauged_is_as_thick_as_a_sheet_and_not_rounded(example: Project) -> None:
    thick = {good.thickness for good in example.job.sheets.values()}
    gauged = example.numbers.set_sizes.gauged
    assert gauged and all(name.endswith((".at", ".width")) for name in gauged)
    for name in gauged:
        assert example.set_to(name) == example.sizes.of(name) in thick


def test_a_number_is_the_mark_below_or_above(example: Project) -> None:
    step = example.job.mark.step
    for name in example.numbers.set_sizes.numbered:
        exact = example.sizes.of(name)
        assert example.set_to(name) in (floor(exact / step) * step, ceil(exact / step) * step), name


@settings(max_examples=25, deadline=None)
@given(thicknesses)
def test_what_is_housed_between_parts_that_are_held_apart_is_never_long(thickness: F) -> None:
    project = sample(thickness, bays=(Bay(fixed=(F(10),)), Bay(fixed=(F(12),))))
    closed = project.numbers.sums
    housed = project.numbers.set_sizes.housed
    assert {"B1-B.length", "B1-F11.length", "B1-F21.length"} <= housed.keys()
    held = {
        name
        for name, mates in housed.items()
        for mate in mates
        if mate in closed and project.sizes.of(name) in dict(closed[mate].terms)
    }
    assert all(project.set_to(name) <= project.sizes.of(name) for name in held)


def test_the_divider_that_was_a_thirty_second_too_long() -> None:
    project = draw_up(read_job((EXAMPLES / "pottery-studio.toml").read_text(encoding="utf-8")))
    divider, chain = "W2-D1.length", "W2: W2-D1 on the floor of the dado in W2-T"
    assert project.set_to(divider) < project.sizes.of(divider)
    assert 0 <= project.numbers.biases[chain] < F(1, 32)


def worst(project: Project, biases: dict[str, F]) -> F:
    runs = {run.gap_name for run in project.runs}
    return max(abs(bias) for name, bias in biases.items() if name not in runs)


def test_no_case_is_worse_off_than_with_nearest_marks(example: Project) -> None:
    """With what is housed below its exact size in both."""
    numbers, step = example.numbers, example.job.mark.step
    exact = {length for one in numbers.sums.values() for length, _ in one.terms}
    housed = {example.sizes.of(name) for name in numbers.set_sizes.housed}
    near = {
        one: numbers.rule.number(one)
        if one in housed and numbers.rule.number(one) < one
        else nearest(one, step)
        for one in exact
    }
    before = {name: one.bias(near) for name, one in numbers.sums.items()}
    assert worst(example, dict(numbers.biases)) <= worst(example, before)


def test_no_run_grows_beyond_its_opening(example: Project) -> None:
    for run in example.runs:
        room = sum((example.sizes.of(form) for form in (run.spare, run.left, run.right)), F(0))
        assert -example.numbers.biases[run.gap_name] <= max(room, F(0))


def test_the_fit_believes_the_numbers_that_are_printed(example: Project) -> None:
    """Each chain's mean is off its design by the bias that is given as data, and by nothing else."""
    plan = fit(example)
    model = plan.error_model()
    assert set(example.numbers.biases) <= set(plan.gaps)
    for name, bias in example.numbers.biases.items():
        stacked = plan.gaps[name].stacked
        assert model.mean_of(stacked) - model.nominal_of(stacked) == bias, name


def test_one_exact_length_is_printed_in_one_way(example: Project) -> None:
    printed: dict[F, set[str]] = {}
    for name in example.numbers.set_sizes.numbered:
        exact = example.sizes.of(name)
        printed.setdefault(exact, set()).add(show(exact, example.rule).plain)
    assert all(len(texts) == 1 for texts in printed.values())
    mark: Mark = example.job.mark
    assert any(show(exact, mark).plain not in texts for exact, texts in printed.items())


def test_a_reading_moves_no_number_that_is_printed() -> None:
    project = sample()
    before = dict(project.rule.numbers)
    thinner = project.given({"ply.thickness": F(699, 1000)})
    after = thinner.rule.numbers
    assert before and before.items() <= after.items()
    assert after.keys() - before.keys()
    cut = project.given({"B1-B.length": F(7083, 200)})
    assert cut.set_to("B1-B.length") == F(7083, 200)
    assert "B1-B.length" not in cut.numbers.set_sizes.numbered
    for name, exact in cut.sizes.values.items():
        if exact in before:
            assert cut.rule.number(exact) == before[exact], name


def test_numbers_stay_even_where_a_part_that_is_cut_would_now_have_them_chosen_otherwise() -> None:
    """Once the back is a fact, other marks would suit the rest of B2 better; but they are printed."""
    project = sample()
    cut = project.given({"B2-K.width": project.set_to("B2-K.width")})
    sums = cut.numbers.sums.values()
    anew = choose_marks(sums, project.job.mark.step)
    assert anew[project.sizes.of("B2-SF.length")] != project.set_to("B2-SF.length")
    assert cut.set_to("B2-SF.length") == project.set_to("B2-SF.length")


def test_a_reading_sums_up_only_chains_that_it_touches() -> None:
    project = sample()
    cut = project.given({"B1-K.length": F(28)})
    again = {name for name, one in cut.numbers.sums.items() if one is not project.numbers.sums[name]}
    assert again and all(name.startswith(("B1: B1-K", "run: ")) for name in again)


def test_a_job_s_numbers_are_the_same_however_often_they_are_chosen(example: Project) -> None:
    again = replace(example)
    assert again.numbers is not example.numbers
    assert dict(again.rule.numbers) == dict(example.rule.numbers)
