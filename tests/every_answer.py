"""One small job and each kind of answer worked out from it, each as bytes that may be compared.

Run as a program, it prints a hash of each answer as JSON: what a process of its own says. With numbers as
arguments it first solves something with as many threads, or with HiGHS's own number for `default`.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction as F
from functools import cache
from hashlib import sha256

from casewright.app.jobs.worked_job import open_job
from casewright.app.papers.packet_files import documents
from casewright.casework.job import Bay, Construction, Filler
from casewright.casework.project import Project, draw_up
from casewright.jobfile.write.write_job import write_job
from casewright.planner.engine import Instance, LargeObject, MaxIterations, SmallItem
from casewright.planner.engine import solve_instance as fill_bins
from casewright.planner.plan import Plan
from casewright.planner.solve import solve
from casewright.repair.facts import AsCut
from casewright.repair.find_ways import ways
from casewright.repair.must_buy import proves_shortage
from casewright.repair.sheets_begun import facts_after
from casewright.tolerance.advice.measuring_plan import plan_measurements
from casewright.tolerance.as_built.cures import find_cures
from casewright.tolerance.as_built.readings import AsBuilt, fit_as_built
from casewright.tolerance.outcomes.gap_spread import fit
from casewright.workshop.operations import cut_key
from casewright.workshop.order.batches import order
from casewright.workshop.order.repeated_settings import extra_entries
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.work import work
from samples import BASE, job, spec

STOP = MaxIterations(300)
CIRCLES = (frozenset({1, 2}), frozenset({0, 2}), frozenset({0, 1, 3}), frozenset({2}))
BINS = Instance(
    tuple(SmallItem(29 + 7 * n % 41, 23 + 11 * n % 37, 1, True) for n in range(20)), (LargeObject(100, 100),)
)
"""Items whose least number of bins is proved by column generation, and so by linear programmes."""

Answer = Callable[[], bytes]


def project() -> Project:
    """Two cases with a filler; every size has room to vary."""
    roomy = Construction(dado_play=F(1, 64))
    first = spec("B1", width=F(24), bays=BASE, construction=roomy)
    second = spec("B2", width=F(20), bays=(Bay(fixed=(F(10),), adjustable=1),), construction=roomy)
    return draw_up(job(first, second, construction=roomy, opening=F(46), left=Filler(F(2), F(1, 2), "ply")))


@cache
def plans() -> Mapping[str, Plan]:
    return {key: solve(problem, STOP) for key, problem in cut_problems(project()).items()}


def solved_answers() -> dict[str, Answer]:
    """The answers that a solver gives, by name."""
    return {
        "plan": lambda: repr([solve(problem, STOP) for problem in cut_problems(project()).values()]).encode(),
        "bins": lambda: repr(_bins()).encode(),
        "order": lambda: repr(order(work(project(), plans()).operations).batches).encode(),
        "settings": lambda: repr(extra_entries(CIRCLES, (0, 0, 0, 0))).encode(),
        "measures": lambda: repr(
            [one.what for one in plan_measurements(fit(project())).measurements]
        ).encode(),
        "cures": lambda: repr(_cures()).encode(),
        "proof": lambda: repr(_proof()).encode(),
        "ways": lambda: _ways().encode(),
    }


def paper_answers() -> dict[str, Answer]:
    """Files of the packet by path, some of each format but STEP, whose kernel is slow to load."""
    planned = open_job(write_job(project().job)).with_plan(plans())
    made = {one.path: one.make for one in documents(planned)}
    wanted = ["packet.pdf", "plan.json", "parts.csv", "job.glb"]
    wanted += [path for path in made if path.endswith(("B1-L.dxf", "B1-L.svg", "ply-1.dxf", "ply-1.svg"))]
    return {path: made[path] for path in wanted if path in made}


def _bins() -> object:
    found = fill_bins(BINS, MaxIterations(60_000), seed=1)
    return found.patterns, found.bound


def _cures() -> object:
    drawn = project()
    plan = fit(drawn)
    short = drawn.sizes.of("B1-K.width") - F(3, 8)
    as_built = AsBuilt().cut_now(plan, drawn.parts).read("B1-K.width", short)
    return find_cures(fit_as_built(plan, as_built).fit, as_built)


def _cut(part_of_all: F) -> list[str]:
    """The first of all cuts, so great a part of them."""
    keys = [
        cut_key(material, sheet.number, cut.order)
        for material, plan in plans().items()
        for sheet in plan.sheets
        for cut in sheet.cuts
    ]
    return keys[: int(len(keys) * part_of_all)]


def _proof() -> bool:
    """Whether twelve more of the largest part are proved not to come out of what is left."""
    drawn = project()
    facts = facts_after(drawn, plans(), _cut(F(1, 3)))
    blanks = [blank for blank in facts.blanks if blank.material == "ply"]
    held = [drawn.parts[mark] for blank in blanks for mark in blank.planned]
    largest = max(held, key=lambda part: drawn.dimensions(part)[0] * drawn.dimensions(part)[1])
    return proves_shortage(drawn, [*held, *[largest] * 12], blanks)


def _ways() -> str:
    drawn = project()
    facts = facts_after(drawn, plans(), _cut(F(1)))
    length, width, _ = drawn.dimensions(drawn.parts["B1-B"])
    found = ways(drawn, facts.spoil({"B1-B": AsCut(length - 1, width)}))
    return repr([(option.why, option.actions, option.cost) for option in found.options]) + found.proof


def poison(threads: Iterable[str]) -> None:
    """Solve as someone else's program may: with HiGHS's default settings, or with so many threads."""
    import highspy  # no business of the package's: tests/test_architecture.py keeps it to one file

    for number in threads:
        other = highspy.Highs()
        other.setOptionValue("output_flag", False)
        highspy.Highs.resetThreadScheduler(True)  # what this thread did before settles its workers else
        if number != "default":
            other.setOptionValue("threads", int(number))
        one, two = other.addIntegral(ub=10), other.addVariable(ub=10)
        other.addConstr(one + 2 * two >= 1.5)
        other.minimize(one + two)
        assert other.getModelStatus() == highspy.HighsModelStatus.kOptimal, number


def hashes(answers: Mapping[str, Answer]) -> dict[str, str]:
    return {name: sha256(answer()).hexdigest() for name, answer in answers.items()}


def every_answer() -> dict[str, Answer]:
    return {**solved_answers(), **paper_answers()}


if __name__ == "__main__":
    poison(sys.argv[1:])
    wanted = every_answer()
    if sys.argv[1:]:  # a solve elsewhere can bear on nothing else; the drawings tell of the hash seed
        wanted = {name: make for name, make in wanted.items() if name in solved_answers() or ".dxf" in name}
    print(json.dumps(hashes(wanted)))
