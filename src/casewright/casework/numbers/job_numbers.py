"""The numbers of one job: what each of its sizes is set to, and the bias that this leaves in its chains."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from ...lengths.chosen_marks import ChosenMarks
from ...lengths.length import Mark
from ...sizes.affine import Affine
from ...sizes.ledger import Given, Sizes
from ..build.case import Case
from .chain_sums import ChainSum, chain_sum
from .choose_marks import choose_marks
from .set_sizes import SetSizes, set_sizes


@dataclass(frozen=True)
class RunChain:
    """What a run leaves of its opening, and how much wider its cases may come out before they pass it."""

    spare: Affine
    room: Fraction


@dataclass(frozen=True, eq=False)
class JobNumbers:
    """What every size of a job is set to. `rule` prints it.

    `forms` are the gaps of all chains, by name, over the sizes that have a number; `sums` what they come to.
    """

    sizes: Sizes
    set_sizes: SetSizes
    forms: Mapping[str, Affine]
    sums: Mapping[str, ChainSum]
    rule: ChosenMarks

    @cached_property
    def biases(self) -> Mapping[str, Fraction]:
        """By the name of each chain, how much wider its gap comes out than designed when every saw is set
        exactly to its number, in inches; narrower if negative."""
        return {name: one.bias(self.rule.numbers) for name, one in self.sums.items()}

    def set_to(self, name: str) -> Fraction:
        """What the size called `name` is set to, in inches: its number, or the exact size where the stock or
        the cutter gives it, or where it is a fact already."""
        exact = self.sizes.values[name]
        return self.rule.number(exact) if name in self.set_sizes.numbered else exact

    def given(self, sizes: Sizes, runs: Mapping[str, RunChain]) -> JobNumbers:
        """The numbers after some sizes were measured. Those chosen already stay: they are printed, and parts
        may be cut to them. Only lengths that are new get a number."""
        facts = {name for name in self.set_sizes.numbered if isinstance(sizes.ledger[name].definition, Given)}
        how = self.set_sizes.without(facts)
        was, now = self.sizes.values, sizes.values
        moved = facts | {name for name in how.numbered if now[name] != was[name]}
        again = {
            name: _sum_of(form, sizes, how, self.rule.mark, runs.get(name))
            for name, form in self.forms.items()
            if name in runs or not moved.isdisjoint(form.names)
        }
        return _chosen(self.rule.mark, sizes, how, self.forms, {**self.sums, **again}, self.rule.numbers)


def job_numbers(
    mark: Mark,
    sizes: Sizes,
    cases: Iterable[Case],
    runs: Mapping[str, RunChain],
    thicknesses: frozenset[str],
) -> JobNumbers:
    """Choose the numbers of a job. `runs` are the chains of its runs, by name, `thicknesses` the names of its
    sheets' thicknesses."""
    drawn = tuple(cases)
    how = set_sizes(drawn, sizes, thicknesses)
    gaps = {chain.name: chain.gap for case in drawn for chain in case.chains}
    gaps |= {name: run.spare for name, run in runs.items()}
    forms = {name: sizes.ledger.over(gap, how.numbered) for name, gap in gaps.items()}
    sums = {name: _sum_of(form, sizes, how, mark, runs.get(name)) for name, form in forms.items()}
    return _chosen(mark, sizes, how, forms, sums, {})


def _sum_of(form: Affine, sizes: Sizes, how: SetSizes, mark: Mark, run: RunChain | None) -> ChainSum:
    return chain_sum(form, sizes, how.numbered, mark.step, run.room if run else None)


def _chosen(
    mark: Mark,
    sizes: Sizes,
    how: SetSizes,
    forms: Mapping[str, Affine],
    sums: Mapping[str, ChainSum],
    kept: Mapping[Fraction, Fraction],
) -> JobNumbers:
    numbers = choose_marks(sums.values(), mark.step, _down(how, sizes, sums), kept)
    return JobNumbers(sizes, how, forms, sums, ChosenMarks(mark, {**kept, **numbers}))


def _down(how: SetSizes, sizes: Sizes, sums: Mapping[str, ChainSum]) -> frozenset[Fraction]:
    """The exact lengths that must not come out long: housed between floors that other sizes keep apart.

    A bottom that itself keeps the sides apart, and a top or shelf of its very length, press on nothing.
    """
    return frozenset(
        exact
        for name, mates in how.housed.items()
        for mate in mates
        if (closed := sums.get(mate)) and (exact := sizes.values[name]) in dict(closed.terms)
    )
