"""Fit: how long the sums take, whether simulated shops bear them out, and whether advice keeps its word."""

from __future__ import annotations

import random
import time
from collections.abc import Iterator
from dataclasses import fields
from fractions import Fraction as F
from math import sqrt
from pathlib import Path
from statistics import median

from casewright.casework.project import Project, draw_up
from casewright.jobfile.read.read_job import read_job
from casewright.solids.bodies import assemble
from casewright.solids.clearance import clearance
from casewright.tolerance.advice.advice_wording import advice_sentence
from casewright.tolerance.advice.change import with_change
from casewright.tolerance.advice.measuring_plan import plan_measurements
from casewright.tolerance.advice.rank_advice import advise
from casewright.tolerance.outcomes.case_outcome import DRAWS, case_outcome
from casewright.tolerance.outcomes.gap_spread import Fit, fit
from casewright.tolerance.outcomes.outcome import Outcome
from oracles.dry_fit_minutes import job_minutes
from oracles.simulate import simulate
from oracles.worst_joint import worst_of_joints

TITLE = "Fit"
EXAMPLES = Path(__file__).parents[1] / "examples"
BUILDS = 10_000
SOLID_BUILDS = 100


def run(quick: bool = False) -> str:
    """The tables, as Markdown."""
    builds = BUILDS // 10 if quick else BUILDS
    large, small = _project("school-workshop"), _project("pottery-studio")
    plan = fit(small)
    sections = (
        _times(large),
        _cases(plan, builds),
        _advice(plan, builds),
        _measures(plan),
        _solids(plan, quick),
    )
    return "\n\n".join("\n".join(section) for section in sections)


def _project(name: str) -> Project:
    return draw_up(read_job((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")))


def _times(project: Project) -> Iterator[str]:
    begun = time.process_time()
    plan = fit(project)
    whole = time.process_time() - begun
    draw = random.Random(1)
    names = draw.sample([name for name in plan.made if name in project.sizes.ledger], 60)
    seconds: list[float] = []
    worked: list[int] = []
    for name in names:
        reading = project.sizes.of(name) + F(draw.randint(-2, 2), 64)
        begun = time.process_time()
        after = plan.given({name: (reading, 0.01)})
        seconds.append(time.process_time() - begun)
        worked.append(after.worked)
    yield f"The job of {len(project.cases)} cases ({len(plan.gaps)} gaps over {len(plan.made)} made sizes):"
    yield f"every gap in {whole:.2f} s of processor time. After one measurement ({len(names)} at random):"
    yield f"{median(seconds) * 1000:.0f} ms in the middle, {max(seconds) * 1000:.0f} ms at most;"
    yield f"gaps worked out again: {median(worked):g} in the middle, {max(worked)} at most,"
    yield f"of {len(plan.gaps)}."


def _cases(plan: Fit, builds: int) -> Iterator[str]:
    shops = simulate(plan, builds, seed=2)
    yield "What happens to each case at the dry fit: foretold from the sums / counted by the worst joint in"
    yield f"{builds} simulated builds of the pottery studio that know nothing of the sums. The last column is"
    yield "the share that is farthest apart, in errors of sampling."
    yield ""
    yield "| case | by hand | a clamp | shows | to ease | cut again | apart by |"
    yield "|-|-|-|-|-|-|-|"
    for mark in plan.project.cases:
        foretold, counted = case_outcome(plan, mark), worst_of_joints(shops, plan, mark)
        pairs = list(zip(_shares(foretold), _shares(counted), strict=True))
        told = " | ".join(f"{ours:.1%} / {theirs:.1%}" for ours, theirs in pairs)
        farthest = max(abs(ours - theirs) / _sampling(theirs, builds) for ours, theirs in pairs)
        yield f"| {mark} | {told} | {farthest:.1f} |"
    apart = []
    for name, spread in plan.spreads.items():
        error = sqrt(max(spread.chance * (1 - spread.chance), 1 / builds) / builds)
        apart.append(abs(shops.share(name) - spread.chance) / error)
    far = sum(one > 2 for one in apart)
    yield ""
    yield f"Single gaps: {len(apart)}, of which {far} ({far / len(apart):.1%}) are more than two errors of"
    yield f"sampling apart (some 5 % should be), the farthest {max(apart):.1f}."


def _shares(outcome: Outcome) -> list[float]:
    return [getattr(outcome, one.name) for one in fields(Outcome)]


def _sampling(share: float, builds: int) -> float:
    """The error of sampling of the difference between a share drawn for the sums and one counted."""
    return sqrt(max(share * (1 - share), 1 / builds) * (1 / builds + 1 / DRAWS))


def _advice(plan: Fit, builds: int) -> Iterator[str]:
    begun = time.process_time()
    found = advise(plan)
    seconds = time.process_time() - begun
    yield f"Advice for the pottery studio in {seconds:.1f} s: minutes saved at the dry"
    yield f"fits of the whole job, promised and in {builds} simulated builds before and after."
    yield ""
    yield "| advice | takes | promised | simulated |"
    yield "|-|-|-|-|"
    for number, one in enumerate(found.listed):
        now = job_minutes(simulate(one.before, builds, seed=4 + number))
        then = job_minutes(simulate(with_change(one.before, one.change), builds, seed=40 + number))
        saved = float(now.mean() - then.mean())
        yield f"| {advice_sentence(one)[:90]} | {one.spends:.0f} | {one.saves:.1f} | {saved:.1f} |"


def _measures(plan: Fit) -> Iterator[str]:
    begun = time.process_time()
    found = plan_measurements(plan)
    seconds = time.process_time() - begun
    yield f"Readings worth taking: {len(found.measurements)}, in {seconds:.1f} s; minutes at the dry fits"
    yield f"{found.weighed.before:.0f} before, {found.weighed.left:.0f} after."


def _solids(plan: Fit, quick: bool) -> Iterator[str]:
    builds = SOLID_BUILDS // 10 if quick else SOLID_BUILDS
    shops = simulate(plan, builds, seed=30)
    farthest, compared = 0.0, 0
    for build in range(builds):
        built = shops.as_made(build)
        bodies = assemble(built)
        for case in built.cases.values():
            for chain in case.chains:
                measured = clearance(bodies, chain.mate, built.sizes)
                if measured is None:
                    raise AssertionError(f"no surfaces at {chain.name}")
                # The solids are stacked as they are placed; how the case leans and slides is not in them.
                stacked = plan.gaps[chain.name].stacked
                foretold = float(stacked.constant)
                foretold += sum(float(k) * shops.sizes[name][build] for name, k in stacked.terms)
                farthest = max(farthest, abs(measured.gap - foretold))
                compared += 1
    yield f"Gaps against clearances the kernel measures on the solids of {builds} simulated builds:"
    yield f"{compared} compared, the farthest {farthest:.1e} in apart."


if __name__ == "__main__":
    print(run())
