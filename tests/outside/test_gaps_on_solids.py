"""Simulated builds made as solids: the kernel measures the gaps that the chains foretell.

The solids and their distances are the geometry kernel's; the chains' forms know nothing of it.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.job import BackKind, Construction, ToeKind, TopKind
from casewright.casework.project import draw_up
from casewright.solids.bodies import assemble
from casewright.solids.clearance import clearance
from casewright.tolerance.outcomes.gap_spread import fit
from oracles.simulate import simulate
from samples import BASE, job, spec

KINDS = [
    Construction(),
    Construction(back=BackKind.RABBET, top=TopKind.RABBET, toe=ToeKind.PLINTH, dado_play=F(1, 64)),
    Construction(back=BackKind.APPLIED, top=TopKind.DADO, toe=ToeKind.NONE),
]
BUILDS = 70


@pytest.mark.parametrize("made", KINDS, ids=["base", "rabbeted", "applied"])
def test_gaps_of_simulated_builds_are_those_measured_on_their_solids(made: Construction) -> None:
    """Together some two hundred builds, every gap of each, to a thousandth of an inch."""
    plan = fit(draw_up(job(spec("B1", construction=made, bays=BASE[:1]), construction=made)))
    shops = simulate(plan, BUILDS, seed=30)
    compared = 0
    for build in range(BUILDS):
        built = shops.as_made(build)
        bodies = assemble(built)
        for chain in built.cases["B1"].chains:
            measured = clearance(bodies, chain.mate, built.sizes)
            assert measured is not None, chain.name
            # The solids are stacked as they are placed; how the case then leans and slides is not in them.
            stacked = plan.gaps[chain.name].stacked
            foretold = float(stacked.constant)
            foretold += sum(float(k) * shops.sizes[name][build] for name, k in stacked.terms)
            assert measured.gap == pytest.approx(foretold, abs=0.0005), chain.name
            compared += 1
    assert compared > 9 * BUILDS
