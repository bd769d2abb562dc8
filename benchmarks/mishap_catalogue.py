"""The catalogue of mishaps: is the program's first way the one that a good maker takes?"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from statistics import median

from repair.catalogue.asked_today import ask, parts_of
from repair.catalogue.mishap import Mishap
from repair.catalogue.read_catalogue import read_catalogue
from repair.catalogue.verdict import Answer, bought_needlessly, verdict

TITLE = "The catalogue of mishaps"
QUICK = 4
"""A quick run asks one mishap in so many."""

Judged = tuple[Mishap, Answer]


def run(quick: bool = False) -> str:
    """The tables, as Markdown."""
    mishaps = read_catalogue(parts_of)[:: QUICK if quick else 1]
    judged = [(mishap, ask(mishap)) for mishap in mishaps]
    return f"{_totals(judged)}\n\n{_rows(judged)}"


def _rows(judged: Sequence[Judged]) -> str:
    rows = [
        "| mishap | a maker's first | offered first | agrees | buys needlessly | offered at all "
        "| first way s | all ways s |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for mishap, answer in judged:
        offered = answer.cures[0].value if answer.cures else ""
        place = f"{answer.cures.index(mishap.answer) + 1}." if mishap.answer in answer.cures else ""
        said = verdict(mishap, answer)
        told = not answer.untold
        rows.append(
            f"| {mishap.name} | {mishap.answer.value} | {offered} "
            f"| {said}{f': {answer.untold}' if answer.untold else ''} "
            f"| {'yes' if bought_needlessly(mishap, answer) else ''} | {place} "
            f"| {f'{answer.first:.2f}' if told else ''} | {f'{answer.every:.2f}' if told else ''} |"
        )
    return "\n".join(rows)


def _totals(judged: Sequence[Judged]) -> str:
    rows = [
        "| job | mishaps | cannot be told | first way is the maker's | or an accepted one | offered at all "
        "| buys needlessly | no way | first way s, median and most | all ways s, median and most |",
        "|---|---|---|---|---|---|---|---|---|---|",
    ]
    jobs = list(dict.fromkeys(mishap.job for mishap, _ in judged))
    for job in [*jobs, ""]:
        some = [one for one in judged if job in (one[0].job, "")]
        said = [verdict(*one) for one in some]
        told = [answer for _, answer in some if not answer.untold]
        first, accepted = said.count("first"), said.count("first") + said.count("accepted")
        rows.append(
            f"| {Path(job).stem or 'all'} | {len(some)} | {said.count('cannot be told')} "
            f"| {first} ({first / len(some):.0%}) | {accepted} ({accepted / len(some):.0%}) "
            f"| {sum(mishap.answer in answer.cures for mishap, answer in some)} "
            f"| {sum(bought_needlessly(*one) for one in some)} | {said.count('no way')} "
            f"| {_times([answer.first for answer in told])} | {_times([answer.every for answer in told])} |"
        )
    rows += [
        "",
        "Answers of the catalogue are common practice, no source, and were written before the program was "
        "asked. Times are processor time. A mishap that the program cannot be told of counts as a miss.",
    ]
    return "\n".join(rows)


def _times(times: Sequence[float]) -> str:
    return f"{median(times):.2f}, {max(times):.2f}" if times else ""
