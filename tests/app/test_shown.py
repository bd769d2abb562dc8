"""What the pages show of sizes agrees with the ledger, to the last fraction."""

from __future__ import annotations

from fractions import Fraction

import pytest

from casewright.app.jobs.worked_job import WorkedJob, open_job
from casewright.app.new_job.examples import example
from casewright.sizes.ledger import Combination, Given, Share


@pytest.fixture(params=["pottery-studio", "ferry-canteen"])
def job(request: pytest.FixtureRequest) -> WorkedJob:
    return open_job(example(request.param))


def value(text: str) -> Fraction:
    return Fraction(text.removesuffix("×").strip() or 1)


def test_every_sum_adds_up(job: WorkedJob) -> None:
    """The rows of each explanation, taken by their names, come to the size they explain."""
    shown, sizes = job.needed_shown(), job.needed().sizes
    checked = 0
    for name, entry in sizes.ledger.items():
        if not isinstance(entry.definition, Combination | Share):
            continue
        told = shown.explained(name)
        form = entry.definition.form if isinstance(entry.definition, Combination) else entry.definition.whole
        total = form.constant
        for row in told.rows:
            if row.size.name:
                sign = 1 if row.sign == "+" else -1
                total += sign * value(row.times) * sizes.values[row.size.name]
        assert total == sizes.of(form), name
        checked += 1
    assert checked > 300


def test_every_size_leads_down_to_what_is_given(job: WorkedJob) -> None:
    shown, sizes = job.needed_shown(), job.needed().sizes
    for name, entry in sizes.ledger.items():
        told = shown.explained(name)
        assert bool(told.rows) == (not isinstance(entry.definition, Given)) or told.how == "sum", name
        assert all(row.size.name != name for row in told.rows)


def test_counts_are_whole_numbers_and_lengths_are_on_the_rule(job: WorkedJob) -> None:
    shown = job.needed_shown()
    assert shown.named("B1.pins11").text.isdigit()
    assert shown.named("B1.width").text in ("33", "600")


def test_a_rounded_length_is_also_said_in_full() -> None:
    shown = open_job(example("pottery-studio")).needed_shown()
    told = shown.explained("B1-K.length")
    assert told.size.text.startswith("~") and told.exact.endswith(" in")
    assert abs(float(told.exact.split()[0]) - float(shown.sizes.values["B1-K.length"])) < 1e-4


def test_every_part_and_feature_has_its_sizes_by_name(job: WorkedJob) -> None:
    shown, ledger = job.needed_shown(), job.needed().sizes.ledger
    parts = shown.parts()
    assert len(parts) == len(job.needed().parts)
    for part in parts:
        for size in (part.length, part.width, part.thickness):
            assert size.name in ledger
        for feature in part.features:
            # What the sheet of a hinge or a slide says (apart, across, deep) is no size of the job.
            bought = feature.name.startswith(("plate-", "cups", "slide-"))
            sizes = [size for size in feature.sizes if size.name or not bought]
            assert sizes and all(size.name in ledger for size in sizes), (part.mark, feature)
