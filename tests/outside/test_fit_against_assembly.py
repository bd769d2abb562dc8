"""The dry fit as `fit` foretells it, against cases put together part by part by a linear programme.

The simulation shares no chain, limit or form with `fit` (see docs/assembly-simulation.md). Its own model
error is some nine points of a job's share by hand, which is mirrored in the share of clamps; with the same
assumptions the two agree within four. Toe kicks count as cut to the case that stands, in both. It puts cases
together and no drawer boxes, so the joints of those count in neither.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from math import sqrt
from pathlib import Path

import pytest

from casewright.casework.parts.part import DRAWER_BOX, Role
from casewright.casework.project import Project, draw_up
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.jobfile.read.read_job import read_job
from casewright.shop.deviations import Workmanship
from casewright.shop.materials import SheetGood, Spread
from casewright.tolerance.chains.made_sizes import SizeKind, made_sizes
from casewright.tolerance.errors.way_of_working import Method
from casewright.tolerance.outcomes.case_outcome import job_outcome
from casewright.tolerance.outcomes.gap_spread import Fit, fit
from example_files import example_file
from oracles.assembly.shop_errors import CAREFUL, GOOD_PLY, MDF, PROFESSIONAL, ShopErrors
from oracles.assembly.simulation import simulate_job, with_play

BUILDS = 60
MODEL = 0.04
SHOPS = {Workmanship.CAREFUL: CAREFUL, Workmanship.PROFESSIONAL: PROFESSIONAL}


def as_simulated(sheet: SheetGood) -> SheetGood:
    """The sheet with the spread that the simulation gives it: as much between sheets as within, and a
    lot's."""
    each = GOOD_PLY if sheet.grain else MDF
    deviation = sqrt(3 * (each.between**2 + each.within**2) / 2)
    return replace(sheet, usual=Spread(sheet.usual.middle, deviation))


def of_cases(fitted: Fit, project: Project) -> Fit:
    """The fit without the joints of drawer boxes and of their slides."""
    boxes = {part.mark for part in project if part.role in DRAWER_BOX}
    named = {name: spread for name, spread in fitted.spreads.items() if boxes.isdisjoint(name.split())}
    assert bool(boxes) == (len(named) < len(fitted.spreads))
    return replace(fitted, spreads=named)


def on_the_sled(project: Project) -> frozenset[str]:
    """The settings of lengths that the simulation crosscuts on its sled."""
    return frozenset(
        one.setting
        for one in made_sizes(project).values()
        if one.kind is SizeKind.LENGTH and project.sizes.of(project.parts[one.part].width) <= 24
    )


@pytest.mark.parametrize("play", [F(1, 64), F(0)], ids=["a play of 1/64", "no play"])
@pytest.mark.parametrize(("workmanship", "shop"), SHOPS.items(), ids=[one.value for one in SHOPS])
@pytest.mark.parametrize("name", ["pottery-studio", "ferry-canteen"])
def test_the_shares_of_a_job_are_those_of_simulated_assembly(
    name: str, workmanship: Workmanship, shop: ShopErrors, play: F
) -> None:
    read = read_job(Path(example_file(name)).read_text(encoding="utf-8"))
    known = packaged_catalogue().deviations
    own = replace(read.shop, workmanship=workmanship, deviations=known[workmanship])
    sheets = {key: as_simulated(sheet) for key, sheet in read.sheets.items()}
    job = with_play(replace(read, shop=own, sheets=sheets), play)
    project = draw_up(job)
    ours = job_outcome(of_cases(fit(project, Method(stops=on_the_sled(project))), project))
    built = simulate_job(job, shop, GOOD_PLY, BUILDS, 18, fitted=(Role.TOE_KICK,))
    theirs = built.job_shares
    # The cases of one build are cut on the same settings and from the same lots, so they stray together.
    drawn = float(built.by_hand_each_build.std()) / sqrt(BUILDS)
    assert abs(ours.by_hand - theirs["by_hand"]) < MODEL + 3 * drawn
    assert abs(ours.clamp - theirs["clamp"]) < MODEL + 3 * drawn
    assert abs(ours.ease - theirs["ease"]) < MODEL + 3 * drawn
    assert abs(ours.shown - theirs["shown"]) < MODEL
    assert abs(ours.recut - theirs["recut"]) < 0.02
