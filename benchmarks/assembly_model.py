"""How much the assembly simulation's shares hang on what its model takes for granted, and on each error.

The first rows are the model's own error: what `casewright fit` may differ by without either being wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from casewright.casework.parts.part import Role
from casewright.jobfile.read.read_job import read_job
from oracles.assembly.shop_errors import CAREFUL, GOOD_PLY, SheetErrors, ShopErrors
from oracles.assembly.simulation import JobOutcome, simulate_job, with_play
from oracles.assembly.verdicts import CUSTOM_GRADE, Limits

from .assembly import PLAYS, SEED, SHARES

TITLE = "Assembly: what its model hangs on"
JOBS = ("pottery-studio", "ferry-canteen")
BUILDS = 200


@dataclass(frozen=True, slots=True)
class Change:
    """One thing taken otherwise than usual."""

    words: str
    shop: ShopErrors = CAREFUL
    sheets: SheetErrors = GOOD_PLY
    limits: Limits = CUSTOM_GRADE
    fitted: frozenset[Role] = frozenset()


CHANGES = (
    Change("as usual"),
    Change("a joint is home within 0.002", limits=Limits(hair=0.002)),
    Change("a joint is home within 0.008", limits=Limits(hair=0.008)),
    Change("a hand gives 8 lb", limits=Limits(hand=8.0)),
    Change("a hand gives 30 lb", limits=Limits(hand=30.0)),
    Change("panels 3/4 as stiff", sheets=replace(GOOD_PLY, stiffness=0.75 * GOOD_PLY.stiffness)),
    Change("toe kicks cut to the standing case", fitted=frozenset({Role.TOE_KICK})),
    Change("no error of the scale", shop=replace(CAREFUL, scale=0.0)),
    Change("no error of setting", shop=replace(CAREFUL, setting=0.0)),
    Change("no error from cut to cut", shop=replace(CAREFUL, cut=0.0)),
    Change("no error of height and flatness", shop=replace(CAREFUL, height=0.0, flatness=0.0)),
    Change("no error of the hand-held saw", shop=replace(CAREFUL, hand_saw=0.0)),
    Change("no error of the stack", shop=replace(CAREFUL, packed=0.0)),
    Change("sheets all alike", sheets=replace(GOOD_PLY, between=0.0, within=0.0)),
)


def run(quick: bool = False) -> str:
    """The tables, as Markdown."""
    return "\n".join(_lines(BUILDS // 10 if quick else BUILDS))


def _lines(builds: int) -> Iterator[str]:
    yield f"Careful shop, good ply, 1/64 in of play by numbers; {builds} builds, the same draws in every row."
    yield "The last column is the share that goes by hand of each case, in per cent."
    for name in JOBS:
        text = (Path(__file__).parents[1] / "examples" / f"{name}.toml").read_text(encoding="utf-8")
        job = with_play(read_job(text), PLAYS[1])
        yield f"\n## {name}\n"
        yield "| | by hand | clamp | ease | recut | shown | drawn | by hand, each case |"
        yield f"|{'-|' * 8}"
        for change in CHANGES:
            outcome = simulate_job(
                job,
                change.shop,
                change.sheets,
                builds,
                SEED,
                limits=change.limits,
                fitted=change.fitted,
            )
            yield _row(change, outcome)


def _row(change: Change, outcome: JobOutcome) -> str:
    shares = outcome.job_shares
    cases = " ".join(f"{mark} {outcome.shares(mark)['by_hand'] * 100:.0f}" for mark in outcome.cases)
    return f"| {change.words} | {' | '.join(f'{shares[one]:.1%}' for one in SHARES)} | {cases} |"
