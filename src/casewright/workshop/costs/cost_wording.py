"""The costs in words: one wording for the command, the page and the paper."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.project import Project
from ...lengths.in_a_sentence import listed
from ...lengths.quantities import exact_price, price_text, short_number, tenth
from ...shop.machines import HOURLY
from .cost_lines import CostKind, CostLine, JobCosts

NO_PRICE = "not priced"

NOT_COUNTED = "Not counted: handles, screws between cases and into the wall, fuel, and taxes."
NO_FINISH = "No finish is counted: the job file has no table [costs.finish]."
USUAL_PACE = (
    "Hours are those of the plan's steps at the usual pace, which is our guess and was measured in no shop: "
    "hold it against a job of yours before you quote by it."
)
USUAL_HOURLY = "An hour counts as {money} until hourly in [shop] says what yours does."


@dataclass(frozen=True, slots=True)
class ToldLine:
    """A line in words."""

    what: str
    amount: str
    money: str
    follows: str


@dataclass(frozen=True, slots=True)
class ToldGroup:
    """The lines of one kind, and their sum in words."""

    title: str
    total: str
    lines: tuple[ToldLine, ...]


def cost_groups(project: Project, costs: JobCosts) -> tuple[ToldGroup, ...]:
    """The lines in words by their kind; kinds without a line are left out."""
    found = []
    for kind in CostKind:
        lines = tuple(line for line in costs.lines if line.kind is kind)
        if lines:
            total = exact_price(costs.of(kind), project.job.money)
            lacks = any(line.money is None for line in lines)
            known = any(line.money is not None for line in lines)
            found.append(
                ToldGroup(
                    kind.value.capitalize(),
                    NO_PRICE if not known else f"{total}, as far as priced" if lacks else total,
                    tuple(_told(project, line) for line in lines),
                )
            )
    return tuple(found)


def _told(project: Project, line: CostLine) -> ToldLine:
    return ToldLine(line.what, line.amount, money_words(project, line.money), line.follows)


def money_words(project: Project, money: Fraction | None) -> str:
    """An amount with the job's sign: `$94.00`; that it has no price where it has none."""
    return NO_PRICE if money is None else exact_price(money, project.job.money)


def sum_lines(project: Project, costs: JobCosts) -> tuple[tuple[str, str], ...]:
    """How the quote comes about: a sum a line, each with what it is of."""
    sign = project.job.money
    bench = costs.of(CostKind.HOURS)
    hours = f"{tenth(costs.hours)} hours at {price_text(costs.hourly, sign)}"
    sums = [("Materials, hardware, glue and finish", costs.bought)]
    if costs.of(CostKind.BLADES):
        sums.append(("Sharpening", costs.of(CostKind.BLADES)))
    sums += [(hours, bench), ("What it costs you", costs.total)]
    if costs.markup:
        sums.append((f"Markup of {short_number(costs.markup)} % on what is bought", costs.on_top))
    sums.append(("Quote" if costs.is_complete else "Quote, as far as priced", costs.quote))
    return tuple((words, exact_price(money, sign)) for words, money in sums)


def cost_notes(project: Project, costs: JobCosts) -> tuple[str, ...]:
    """What every sum lacks, and what the hours rest on."""
    notes = []
    if not costs.is_complete:
        said = "A price of 0 says that it costs you nothing."
        notes.append(f"Not priced, so that every sum lacks it: {unpriced_words(costs)}. {said}")
    if project.job.prices.finish is None:
        notes.append(NO_FINISH)
    if costs.hourly == HOURLY:
        notes.append(USUAL_HOURLY.format(money=price_text(HOURLY, project.job.money)))
    return (*notes, NOT_COUNTED, USUAL_PACE)


def unpriced_words(costs: JobCosts) -> str:
    """What has no price, with the entry of the job file that would give it one."""
    entries: dict[str, list[str]] = {}
    for line in costs.unpriced:
        entries.setdefault(line.enter, []).append(line.what)
    return "; ".join(f"{listed(what)} (enter {entry})" for entry, what in entries.items())
