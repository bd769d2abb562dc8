"""What happens at the dry fit, by simulated assembly: three shops, three sheet goods, two plays of a dado.

It shares no chain, limit or form with `casewright fit`, so that one can be held against the other. The shares
of every case are in `results/assembly.json`; docs/assembly-simulation.md tells what they mean.
"""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt
from pathlib import Path

from casewright.casework.job import Job
from casewright.casework.parts.part import Role
from casewright.jobfile.read.read_job import read_job
from oracles.assembly.made_parts import Rounding, as_planned, nearest_mark
from oracles.assembly.shop_errors import (
    CAREFUL,
    GOOD_PLY,
    HOME_CENTRE_PLY,
    MDF,
    STARTING_SHOPS,
    DadoWidth,
    SheetErrors,
    ShopErrors,
)
from oracles.assembly.simulation import JobOutcome, simulate_job, with_play

TITLE = "Assembly"
FOLDER = Path(__file__).parent
JOBS = {"pottery-studio": 400, "ferry-canteen": 400, "school-workshop": 40}
"""The examples, and how many times each is built: 2,400 to 3,600 cases of each."""

PLAYS = (Fraction(0), Fraction(1, 64))
SHARES = ("by_hand", "clamp", "ease", "recut", "shown", "shown_drawn")
SEED = 18


@dataclass(frozen=True, slots=True)
class Setup:
    """One way to build a job."""

    shop: ShopErrors
    sheets: SheetErrors
    play: Fraction
    dado: DadoWidth = DadoWidth.BY_NUMBERS
    rounded: bool = False
    toe_fitted: bool = False

    @property
    def name(self) -> str:
        return f"{self.shop.name}, {self.sheets.name}, play {self.play}, {self.method}"

    @property
    def method(self) -> str:
        """How dados are set, and what else is done otherwise than usual."""
        marks = ", numbers on the nearest marks" if self.rounded else ""
        return self.dado.value + marks + (", toe kicks cut to the case" if self.toe_fitted else "")


def run(quick: bool = False) -> str:
    """The tables, as Markdown."""
    return "\n\n".join("\n".join(section) for section in _sections(quick))


def _sections(quick: bool) -> Iterator[list[str]]:
    yield [
        "Each case falls in exactly one of by hand, clamp, ease and recut, by its worst joint; `shown` is",
        "the share of all builds in which something over the custom grade's limit shows, `drawn` what",
        "still does with short ends drawn home by clamps. All are shares of cases; `+-` is one error of",
        "sampling of `by hand`, from build to build (the cases of a build share their shop). `joints` is the",
        "share of joints to ease.",
    ]
    kept: dict[str, dict[str, dict[str, dict[str, float]]]] = {}
    for name, builds in JOBS.items():
        if quick and name != "pottery-studio":
            continue
        count = builds // 10 if quick else builds
        job = read_job((FOLDER.parent / "examples" / f"{name}.toml").read_text(encoding="utf-8"))
        begun = time.process_time()
        outcomes = {setup: _built(job, setup, count) for setup in _setups(quick)}
        seconds = time.process_time() - begun
        kept[name] = {
            setup.name: {mark: _rounded(outcome.shares(mark)) for mark in outcome.cases}
            | {"job": _rounded(outcome.job_shares)}
            for setup, outcome in outcomes.items()
        }
        yield [
            f"## {name}",
            "",
            *_table(outcomes),
            "",
            f"{count} builds of each; {seconds:.0f} s of processor time.",
        ]
        if not quick:
            usual = Setup(CAREFUL, GOOD_PLY, PLAYS[1])
            yield [f"Its cases, {usual.name}:", "", *_cases(outcomes[usual])]
    path = FOLDER / "results" / f"assembly{'-quick' if quick else ''}.json"
    path.write_text(_one_line_a_setup(kept))


def _one_line_a_setup(kept: dict[str, dict[str, dict[str, dict[str, float]]]]) -> str:
    jobs = (
        f"{json.dumps(name)}: {{\n"
        + ",\n".join(f"{json.dumps(setup)}: {json.dumps(cases)}" for setup, cases in setups.items())
        + "\n}"
        for name, setups in kept.items()
    )
    return "{" + ",\n".join(jobs) + "}\n"


def _rounded(shares: dict[str, float]) -> dict[str, float]:
    return {name: round(share, 5) for name, share in shares.items()}


def _setups(quick: bool) -> Iterator[Setup]:
    for shop in STARTING_SHOPS:
        for sheets in (GOOD_PLY, HOME_CENTRE_PLY, MDF):
            for play in PLAYS:
                if not quick or sheets is GOOD_PLY:
                    yield Setup(shop, sheets, play)
    for sheets in (GOOD_PLY, HOME_CENTRE_PLY):
        for play in PLAYS:
            yield Setup(CAREFUL, sheets, play, DadoWidth.TRIED)
    yield Setup(CAREFUL, GOOD_PLY, PLAYS[1], rounded=True)
    for play in PLAYS:
        yield Setup(CAREFUL, GOOD_PLY, play, toe_fitted=True)


def _built(job: Job, setup: Setup, builds: int) -> JobOutcome:
    rounding: Rounding = nearest_mark(float(job.mark.step)) if setup.rounded else as_planned
    played = with_play(job, setup.play)
    fitted = {Role.TOE_KICK} if setup.toe_fitted else set()
    return simulate_job(
        played, setup.shop, setup.sheets, builds, SEED, dado=setup.dado, rounding=rounding, fitted=fitted
    )


def _table(outcomes: dict[Setup, JobOutcome]) -> Iterator[str]:
    yield "| shop | sheets | play | dado | by hand | +- | clamp | ease | recut | shown | drawn | joints |"
    yield f"|{'-|' * 12}"
    for setup, outcome in outcomes.items():
        shares = outcome.job_shares
        error = sqrt(float(outcome.by_hand_each_build.var()) / outcome.builds)
        cells = [
            setup.shop.name,
            setup.sheets.name,
            str(setup.play),
            setup.method,
            f"{shares['by_hand']:.1%}",
            f"{error:.1%}",
            *(f"{shares[one]:.2%}" for one in SHARES[1:]),
            f"{outcome.joints_eased:.2%}",
        ]
        yield f"| {' | '.join(cells)} |"


def _cases(outcome: JobOutcome) -> Iterator[str]:
    yield "| case | by hand | clamp | ease | recut | shown | drawn | not by hand because of |"
    yield f"|{'-|' * 8}"
    for mark, case in outcome.cases.items():
        shares = outcome.shares(mark)
        causes = {name: float((verdict > 0).mean()) for name, verdict in case.by_cause.items()}
        words = ", ".join(f"{name} {share:.1%}" for name, share in causes.items() if share)
        yield f"| {mark} | {' | '.join(f'{shares[one]:.1%}' for one in SHARES)} | {words} |"
