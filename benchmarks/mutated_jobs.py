"""Does any mutated job file break the core or a page? Seeded mutations of the examples, by the thousand."""

from __future__ import annotations

import random
import tempfile
import time
import traceback
from collections import Counter
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path

from any_job import core_answers, failing_pages, pages
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.web.web_app import make_app
from job_mutations import mutants
from web_bench import Client

TITLE = "Mutated job files"
SEED = 17
MUTANTS, MUTANTS_QUICK = 20_000, 400
ASKED_EVERY = 20
"""Every so many mutants the pages are asked too: all of them for a job that cannot be drawn up, else two."""


@dataclass
class Outcome:
    """What came of the mutants; `broken` names each distinct place where an answer failed."""

    kinds: Counter[str] = field(default_factory=Counter)
    pages: int = 0
    broken: Counter[str] = field(default_factory=Counter)
    longest: float = 0.0


def run(quick: bool = False) -> str:
    """The table, as Markdown."""
    number = MUTANTS_QUICK if quick else MUTANTS
    outcome, chance, addresses = Outcome(), random.Random(SEED), pages()
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        saved = KeptJobs.open(Path(folder) / "shop.sqlite3")
        client = Client(make_app(saved, planning_seconds=0.1))
        for count, text in enumerate(islice(mutants(SEED), number)):
            drawn = _core(text, outcome)
            if count % ASKED_EVERY == 0:
                asked = chance.sample(addresses, 2) if drawn else addresses
                outcome.pages += len(asked)
                outcome.broken.update(failing_pages(client, saved.start(text).id, asked))
    return _table(outcome, number, time.monotonic() - begun)


def fails(text: str) -> bool:
    """Whether this table names a failure."""
    return "| broken |" in text


def _core(text: str, outcome: Outcome) -> bool:
    """Whether the mutant can be drawn up."""
    begun = time.process_time()
    try:
        worked = core_answers(text)
    except Exception as fault:  # what this table is for
        place = traceback.extract_tb(fault.__traceback__)[-1]
        outcome.broken[f"{type(fault).__name__} in {Path(place.filename).name}:{place.lineno}"] += 1
        return False
    outcome.longest = max(outcome.longest, time.process_time() - begun)
    outcome.kinds["drawn up" if worked.project else "read, refused" if worked.job else "not read"] += 1
    return worked.project is not None


def _table(outcome: Outcome, number: int, seconds: float) -> str:
    lines = ["| what | times |", "|---|---|", f"| mutants (seed {SEED}) | {number} |"]
    lines += [f"| {kind} | {times} |" for kind, times in sorted(outcome.kinds.items())]
    lines.append(f"| pages asked | {outcome.pages} |")
    lines += [f"| broken | {place}: {times} |" for place, times in outcome.broken.most_common()]
    lines.append(f"| uncaught exceptions and answers of 500 | {outcome.broken.total()} |")
    spent = f"Longest reading {outcome.longest:.2f} s of processor, all {seconds:.0f} s."
    return "\n".join([*lines, "", spent])
