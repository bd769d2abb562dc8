"""The plan of work says which sizes share a setting, and so which errors they share."""

from __future__ import annotations

from collections import defaultdict
from math import hypot, sqrt

import pytest

from casewright.app.sheets.plan_search import plan_job
from casewright.casework.project import Project, draw_up
from casewright.tolerance.chains.made_sizes import HowMade
from casewright.tolerance.errors.shared_settings import planned_method
from casewright.tolerance.outcomes.gap_spread import Fit, fit
from casewright.workshop.operations import Machine, OperationKind
from casewright.workshop.order.batches import Batch, order
from casewright.workshop.work import work
from oracles.simulate import simulate
from samples import BASE, job, spec

TABLE = (HowMade.FENCE, HowMade.STACK, HowMade.TWO_PASSES, HowMade.HEIGHT)


@pytest.fixture(scope="module")
def project() -> Project:
    return draw_up(job(spec("B1", bays=BASE), spec("B2", bays=BASE[1:])))


@pytest.fixture(scope="module")
def batches(project: Project) -> tuple[Batch, ...]:
    return order(work(project, plan_job(project, 0.3).plans).operations).batches


@pytest.fixture(scope="module")
def planned(project: Project, batches: tuple[Batch, ...]) -> Fit:
    return fit(project, planned_method(project, fit(project).made, batches))


def test_every_size_that_a_saw_makes_is_cut_on_some_setting_of_the_plan(
    planned: Fit, batches: tuple[Batch, ...]
) -> None:
    by_table = {name for name, made in planned.made.items() if made.how in TABLE}
    cut = by_table & set(planned.method.settings)
    assert len(cut) > 0.8 * len(by_table)
    # A last part may be just what the cut before it leaves: then no setting is its own.
    cuts = [
        one
        for batch in batches
        for one in batch.operations
        if one.kind in (OperationKind.RIP, OperationKind.CROSSCUT)
    ]
    left = {mark for one in cuts for mark in one.parts[1:]}
    assert {name.partition(".")[0] for name in by_table - cut} <= left


def test_places_cut_in_one_batch_share_a_setting_and_in_two_do_not(
    planned: Fit, batches: tuple[Batch, ...]
) -> None:
    """Read from the batches themselves: a batch that needs no new setting goes on with the last."""
    stands = 0
    found: dict[int, set[str]] = defaultdict(set)
    for batch in batches:
        if batch.setting is None or batch.setting.machine is not Machine.TABLE_SAW:
            continue
        stands += batch.new_setting
        for operation in batch.operations:
            _, _, feature = operation.key.partition(" ")
            if operation.kind in (OperationKind.DADO, OperationKind.GROOVE) and " pass 2" not in feature:
                place = f"{operation.parts[0]}.{feature.removesuffix(' pass 1')}.at"
                found[stands].add(planned.method.settings[place])
    assert len(found) > 3
    assert all(len(settings) == 1 for settings in found.values())
    assert len({next(iter(settings)) for settings in found.values()}) == len(found)


def test_a_fence_set_again_to_one_number_keeps_the_first_settings_error(planned: Fit) -> None:
    """Where the plan cuts two sides' widths on two settings, the second is set from a piece of the first."""
    together = fit(planned.project)
    left, right = (planned.method.settings[f"B1-{side}.width"] for side in "LR")
    name = "B1: B1-K against the front wall of the groove in B1-R"
    if left == right:
        assert planned.spreads[name].deviation == pytest.approx(together.spreads[name].deviation)
    else:
        again = planned.project.job.shop.deviations.fence_again
        once = together.spreads[name].deviation
        assert planned.spreads[name].deviation == pytest.approx(hypot(once, again))


def test_simulated_shops_that_work_by_the_plan_agree(planned: Fit) -> None:
    builds = 3000
    shops = simulate(planned, builds, seed=8)
    for name, spread in planned.spreads.items():
        assert shops.gaps[name].std() == pytest.approx(spread.deviation, rel=4 / sqrt(2 * builds)), name
