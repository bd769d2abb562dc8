"""The catalogue of mishaps: is the program's first way the one that a good maker takes?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from statistics import median

from repair.catalogue.asked_today import ask, parts_of
from repair.catalogue.mishap import Cure, Mishap
from repair.catalogue.read_catalogue import FRONTS, FURTHER, HELD_OUT, read_catalogue
from repair.catalogue.verdict import Answer, bought_needlessly, verdict

TITLE = "The catalogue of mishaps"
QUICK = 4
"""A quick run asks one mishap in so many."""

Judged = tuple[Mishap, Answer]


def run(quick: bool = False) -> str:
    """The tables, as Markdown."""
    mishaps = read_catalogue(parts_of)[:: QUICK if quick else 1]
    judged = [(mishap, ask(mishap)) for mishap in mishaps]
    later = [(mishap, ask(mishap)) for mishap in read_catalogue(parts_of, HELD_OUT)]
    held_out = f"## Written later, and nothing tuned to them\n\n{_totals(later)}\n\n{_rows(later)}"
    more = [(mishap, ask(mishap)) for mishap in read_catalogue(parts_of, FURTHER)]
    further = f"## Of kinds that could not be told before\n\n{_totals(more)}\n\n{_rows(more)}"
    some = [(mishap, ask(mishap)) for mishap in read_catalogue(parts_of, FRONTS)]
    fronts = f"## With fronts and drawers\n\n{_totals(some)}\n\n{_rows(some)}"
    return f"{_totals(judged)}\n\n{_rows(judged)}\n\n{held_out}\n\n{further}\n\n{fronts}"


def _rows(judged: Sequence[Judged]) -> str:
    rows = [
        "| mishap | a maker's first | offered first | agrees | buys needlessly | offered at all "
        "| first way s | all ways s |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for mishap, answer in judged:
        offered = _word(answer.cures[0]) if answer.cures else ""
        place = f"{answer.cures.index(mishap.answer) + 1}." if mishap.answer in answer.cures else ""
        said = verdict(mishap, answer)
        rows.append(
            f"| {mishap.name} | {mishap.answer.value} | {offered} "
            f"| {said} "
            f"| {'yes' if bought_needlessly(mishap, answer) else ''} | {place} "
            f"| {answer.first:.2f} | {answer.every:.2f} |"
        )
    return "\n".join(rows)


def _word(cure: Cure | None) -> str:
    return cure.value if cure else "several"


def _totals(judged: Sequence[Judged]) -> str:
    jobs = dict.fromkeys(mishap.job for mishap, _ in judged)
    cures = dict.fromkeys(mishap.answer for mishap, _ in judged)
    by_job = {Path(job).stem: [one for one in judged if one[0].job == job] for job in jobs}
    by_cure = {cure.value: [one for one in judged if one[0].answer is cure] for cure in cures}
    most_first = dict(sorted(by_cure.items(), key=lambda group: -len(group[1])))
    return "\n".join(
        [
            *_groups("job", {**by_job, "all": judged}),
            "",
            *_groups("a maker's first", most_first),
            "",
            "Answers of the catalogue are common practice, no source, and were written before the program "
            "was asked. Times are processor time.",
        ]
    )


def _groups(heading: str, groups: Mapping[str, Sequence[Judged]]) -> list[str]:
    """A row for each group."""
    rows = [
        f"| {heading} | mishaps | first way is the maker's | or an accepted one "
        "| offered at all | buys needlessly | no way | first way s, median and most "
        "| all ways s, median and most |",
        "|---|---|---|---|---|---|---|---|---|",
    ]
    for name, some in groups.items():
        said = [verdict(*one) for one in some]
        answers = [answer for _, answer in some]
        first, accepted = said.count("first"), said.count("first") + said.count("accepted")
        rows.append(
            f"| {name} | {len(some)} "
            f"| {first} ({first / len(some):.0%}) | {accepted} ({accepted / len(some):.0%}) "
            f"| {sum(mishap.answer in answer.cures for mishap, answer in some)} "
            f"| {sum(bought_needlessly(*one) for one in some)} | {said.count('no way')} "
            f"| {_times([answer.first for answer in answers])} "
            f"| {_times([answer.every for answer in answers])} |"
        )
    return rows


def _times(times: Sequence[float]) -> str:
    return f"{median(times):.2f}, {max(times):.2f}" if times else ""
