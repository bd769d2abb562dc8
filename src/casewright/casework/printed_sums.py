"""Sums as they are printed: what rounding to the rule's marks leaves between the terms and the total."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction

from ..lengths.fractions_text import mixed
from ..lengths.length import MM, Unit
from ..sizes.ledger import SizeExplanation
from .project import Project


@dataclass(frozen=True)
class SumRounding:
    """The line that makes the printed terms of a sum come to its printed total: an `amount` in inches, above
    or below zero, and `words` that say where it comes from."""

    amount: Fraction
    words: str

    @property
    def added(self) -> bool:
        """Whether it is added to the sum; otherwise it is taken off."""
        return self.amount > 0

    @property
    def size(self) -> Fraction:
        """How much it is, without its sign."""
        return abs(self.amount)


def sum_rounding(
    project: Project, total: Fraction, terms: Iterable[tuple[Fraction, Fraction]]
) -> SumRounding | None:
    """What is left between `total` and `terms`, each a factor and a length, as the job prints them; None
    where they add up as they stand."""
    number = project.rule.number
    amount = number(total) - sum((times * number(length) for times, length in terms), Fraction(0))
    if not amount:
        return None
    beyond = number(total) - project.job.mark.number(total)
    if beyond > 0:
        return SumRounding(amount, "rounded up to the mark so that the run is not short")
    if beyond < 0:
        return SumRounding(amount, "rounded down to the mark so that the run is not long")
    return SumRounding(amount, "rounding to the marks")


def rounding_in(project: Project, why: SizeExplanation, total: Fraction) -> SumRounding | None:
    """What is left between a `total` and the terms that explain a size, which come to it."""
    fixed = (Fraction(1) if why.constant > 0 else Fraction(-1), abs(why.constant))
    return sum_rounding(project, total, (fixed, *((times, length) for times, _, _, length in why.terms)))


def explained_sum(project: Project, why: SizeExplanation, show: Callable[[Fraction], str]) -> str:
    """The sentence that explains a size, lengths printed by `show`. Where it is a sum, what is printed adds
    up: what rounding leaves is a term of its own."""
    rounded = rounding_in(project, why, why.value) if why.how == "sum" else None
    if rounded is None:
        return why.sentence(show)
    text = in_full(project, rounded.size, show)
    return why.sentence(show, f"{'+' if rounded.added else '-'} {rounded.words} {text}")


def in_full(project: Project, amount: Fraction, show: Callable[[Fraction], str]) -> str:
    """What rounding leaves, printed by `show` if it is on a mark of the rule, or else exactly: the halves of
    two sizes leave half a mark, which rounded again would not add up."""
    if project.job.mark.number(amount) == amount:
        return show(amount)
    return mixed(amount) if project.job.unit is Unit.INCH else f"{float(amount / MM):g}"
