"""A thousand mishaps over the example jobs: how many end without buying, how fast, and what it saves."""

from __future__ import annotations

import random
import time
from collections import Counter, defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from statistics import median

from casewright.casework.parts.part import Hand
from casewright.casework.project import Project, draw_up
from casewright.jobfile.read.read_job import read_job
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Plan
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from casewright.repair.facts import AsCut, Facts, Origin
from casewright.repair.find_ways import ways
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.sheets_begun import facts_after
from casewright.repair.ways.way import Option, Ways
from casewright.workshop.operations import cut_key
from casewright.workshop.sheets.cut_problems import cut_problems

TITLE = "Mishaps"
MISHAPS = 1000
EXAMPLES = ("pottery-studio.toml", "ferry-canteen.toml")
INCH = Fraction(1)


@dataclass(frozen=True)
class Job:
    project: Project
    plans: Mapping[str, Plan]
    keys: tuple[str, ...]


@dataclass(frozen=True)
class Tried:
    kind: str
    first_kind: str
    free: bool
    some_free: bool
    design: bool
    must_buy: bool
    money: Fraction
    naive: Fraction
    first: float
    full: float
    ways: int


def run(quick: bool = False) -> str:
    """The tables, as Markdown."""
    rng = random.Random(20261125)
    jobs = [_load(name) for name in EXAMPLES]
    tried: list[Tried] = []
    while len(tried) < (40 if quick else MISHAPS):
        one = _mishap(rng, rng.choice(jobs))
        if one:
            tried.append(one)
    return _table(tried)


def _load(name: str) -> Job:
    project = draw_up(read_job((Path(__file__).parents[1] / "examples" / name).read_text()))
    plans = {key: solve(problem, MaxIterations(3000)) for key, problem in cut_problems(project).items()}
    keys = tuple(
        cut_key(material, sheet.number, cut.order)
        for material, plan in plans.items()
        for sheet in plan.sheets
        for cut in sheet.cuts
    )
    return Job(project, plans, keys)


def _short(rng: random.Random, job: Job, facts: Facts) -> Facts:
    mark = rng.choice(sorted(facts.finished))
    cut = facts.finished[mark]
    return facts.spoil({mark: AsCut(cut.length - INCH, cut.width)})


def _narrow(rng: random.Random, job: Job, facts: Facts) -> Facts:
    mark = rng.choice(sorted(facts.finished))
    cut = facts.finished[mark]
    return facts.spoil({mark: AsCut(cut.length, cut.width - INCH)})


def _bored_alike(rng: random.Random, job: Job, facts: Facts) -> Facts | None:
    """A right side worked as a left one: it is a left side now, where one is not worked yet."""
    rights = [mark for mark in sorted(facts.finished) if job.project.parts[mark].hand is Hand.RIGHT]
    if not rights:
        return None
    mark = rng.choice(rights)
    cut = facts.finished[mark]
    return facts.spoil({mark: AsCut(cut.length, cut.width, worked=True, harms=(Harm(HarmKind.MIRRORED),))})


def _split_corner(rng: random.Random, job: Job, facts: Facts) -> Facts:
    mark = rng.choice(sorted(facts.finished))
    cut = facts.finished[mark]
    return facts.spoil({mark: AsCut(max(INCH, cut.length - 3), cut.width)})


def _lost_piece(rng: random.Random, job: Job, facts: Facts) -> Facts | None:
    """A piece that was still to be cut is gone, and what was planned on it with it."""
    pieces = [blank.name for blank in facts.blanks if blank.origin is Origin.PIECE]
    return facts.without([rng.choice(pieces)]) if pieces else None


def _mislabelled(rng: random.Random, job: Job, facts: Facts) -> Facts | None:
    """A matched set cut by the sizes of another of the same material."""
    sets: dict[str, list[str]] = defaultdict(list)
    for mark in sorted(facts.finished):
        match = job.project.parts[mark].match
        if match:
            sets[match].append(mark)
    pairs = [
        (one, other)
        for one in sets
        for other in sets
        if one != other
        and job.project.parts[sets[one][0]].material == job.project.parts[sets[other][0]].material
        and facts.finished[sets[one][0]] != facts.finished[sets[other][0]]
    ]
    if not pairs:
        return None
    wrong, model = rng.choice(pairs)
    return facts.spoil(dict.fromkeys(sets[wrong], facts.finished[sets[model][0]]))


KINDS: Mapping[str, Callable[[random.Random, Job, Facts], Facts | None]] = {
    "wrong length": _short,
    "wrong width": _narrow,
    "sides bored alike": _bored_alike,
    "split corner": _split_corner,
    "lost piece": _lost_piece,
    "mislabelled set": _mislabelled,
}


def _mishap(rng: random.Random, job: Job) -> Tried | None:
    facts = facts_after(job.project, job.plans, job.keys[: rng.randint(1, len(job.keys))])
    if not facts.finished:
        return None
    kind = rng.choice(sorted(KINDS))
    ruined = KINDS[kind](rng, job, facts)
    if ruined is None:
        return None
    times: list[float] = []
    begun = time.process_time()

    def seen(option: Option) -> None:
        times.append(time.process_time() - begun)

    found = ways(job.project, ruined, report=seen)
    full = time.process_time() - begun
    if not times:
        return None
    _judge(found)
    best = found.options[0]
    return Tried(
        kind,
        best.kind.value,
        not best.buys,
        any(not option.buys for option in found.options),
        best.cost.ask_client,
        found.must_buy,
        best.cost.money,
        _naive(job, ruined),
        times[0],
        full,
        len(times),
    )


def _judge(found: Ways) -> None:
    for option in found.options:
        for material, plan in option.plans.items():
            if faults := verify(option.problems[material], plan):
                raise AssertionError(f"a wrong way: {option.why} {faults[0]}")


def _naive(job: Job, facts: Facts) -> Fraction:
    """What it costs to cut each missing part from the largest free offcut, else from a new sheet."""
    held = {mark for blank in facts.blanks for mark in blank.planned}
    missing = [part for part in facts.to_make(job.project) if part.mark not in held]
    money = Fraction(0)
    for material in {part.material for part in missing}:
        free = [blank for blank in facts.blanks if blank.material == material and not blank.planned]
        largest = max(free, key=lambda blank: blank.length * blank.width, default=None)
        wanted = [part for part in missing if part.material == material]
        length, width, _ = job.project.dimensions(wanted[0])
        fits = largest and length <= largest.length and width <= largest.width
        if len(wanted) > 1 or not fits:
            money += job.project.job.sheets[material].price
    return money


def _table(tried: list[Tried]) -> str:
    rows = [
        "| mishap | number | first way without buying | some way without buying | proved to need buying "
        "| first way s | all ways s | slowest s | ways |"
    ]
    rows.append("|---|---|---|---|---|---|---|---|---|")
    for kind in [*sorted(KINDS), "all"]:
        some = [one for one in tried if kind in (one.kind, "all")]
        if some:
            free = sum(one.free for one in some) / len(some)
            some_free = sum(one.some_free for one in some) / len(some)
            proved = sum(one.must_buy for one in some) / len(some)
            first, full = (
                median(times) for times in zip(*((one.first, one.full) for one in some), strict=True)
            )
            slowest = max(one.full for one in some)
            count = median(one.ways for one in some)
            rows.append(
                f"| {kind} | {len(some)} | {free:.1%} | {some_free:.1%} | {proved:.1%} "
                f"| {first:.2f} | {full:.2f} | {slowest:.2f} | {count:.0f} |"
            )
    spent = float(sum((one.money for one in tried), Fraction(0)))
    naive = float(sum((one.naive for one in tried), Fraction(0)))
    free_naive = sum(one.naive == 0 for one in tried) / len(tried)
    kinds = Counter(one.first_kind for one in tried).most_common()
    rows += [
        "",
        "First ways: " + ", ".join(f"{kind} {number}" for kind, number in kinds) + ".",
        f"First ways that change the design: {sum(one.design for one in tried)}.",
        f"Money for the best way over all mishaps: {spent:.0f}; for the naive answer (the largest free "
        f"offcut, else a new sheet): {naive:.0f}, and {free_naive:.1%} without buying. Every plan of every "
        "way passed the independent checker. Times are medians of processor time.",
    ]
    return "\n".join(rows)
