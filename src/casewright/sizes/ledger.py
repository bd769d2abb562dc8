"""The ledger: every named size of a job, with its definition.

Most entries are affine in earlier ones. The few steps that are not (the greater of two sizes, a count of
holes, whole steps, a rounded share) have entries of their own, so that an explanation can stop at
them and name them. Entries are in an order in which they can be worked out.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor
from types import MappingProxyType

from ..errors import LedgerError
from ..lengths.length import apportion
from .affine import Affine, size


@dataclass(frozen=True, slots=True)
class Given:
    """A size from outside: measured, chosen, or printed on a label."""

    value: Fraction

    def needs(self) -> tuple[str, ...]:
        return ()

    def work_out(self, sizes: Mapping[str, Fraction]) -> Fraction:
        return self.value


@dataclass(frozen=True, slots=True)
class Combination:
    """An affine combination of other sizes."""

    form: Affine

    def needs(self) -> tuple[str, ...]:
        return self.form.names

    def work_out(self, sizes: Mapping[str, Fraction]) -> Fraction:
        return self.form.value(sizes)


@dataclass(frozen=True, slots=True)
class Greatest:
    """The greatest of several forms."""

    forms: tuple[Affine, ...]

    def needs(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(name for form in self.forms for name in form.names))

    def work_out(self, sizes: Mapping[str, Fraction]) -> Fraction:
        return max(form.value(sizes) for form in self.forms)


@dataclass(frozen=True, slots=True)
class Least:
    """The least of several forms."""

    forms: tuple[Affine, ...]

    def needs(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(name for form in self.forms for name in form.names))

    def work_out(self, sizes: Mapping[str, Fraction]) -> Fraction:
        return min(form.value(sizes) for form in self.forms)


@dataclass(frozen=True, slots=True)
class HowMany:
    """How many whole `step`s fit into `room`, at least zero: a count, not a length."""

    room: Affine
    step: Affine

    def needs(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*self.room.names, *self.step.names)))

    def work_out(self, sizes: Mapping[str, Fraction]) -> Fraction:
        step = self.step.value(sizes)
        if step <= 0:
            return Fraction(0)
        return Fraction(max(0, floor(self.room.value(sizes) / step)))


@dataclass(frozen=True, slots=True)
class WholeSteps:
    """The length of the whole `step`s that fit into `room`, at least zero."""

    room: Affine
    step: Affine

    def needs(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*self.room.names, *self.step.names)))

    def work_out(self, sizes: Mapping[str, Fraction]) -> Fraction:
        return HowMany(self.room, self.step).work_out(sizes) * self.step.value(sizes)


@dataclass(frozen=True, slots=True)
class Share:
    """One of several shares of `whole`, in the ratio of `weights`, each rounded to `mark` of the rule, or
    exact where `mark` is None.

    The shares always add up to the whole. What rounding takes from one it gives to another, unless the
    last weight is zero: then every share is rounded down, equal weights get equal shares, and the last
    share is what that leaves, less than a mark for each of the others.
    """

    whole: Affine
    weights: tuple[Fraction, ...]
    index: int
    mark: Fraction | None = None

    @property
    def all_weights(self) -> Fraction:
        return sum(self.weights, Fraction(0))

    @property
    def rounded_down(self) -> bool:
        """Whether the shares are rounded down, and the last one is what that leaves."""
        return self.weights[-1] == 0

    @property
    def is_remainder(self) -> bool:
        """Whether this one is what the others leave when they are rounded down."""
        return self.weights[self.index] == 0

    def needs(self) -> tuple[str, ...]:
        return self.whole.names

    def work_out(self, sizes: Mapping[str, Fraction]) -> Fraction:
        whole = self.whole.value(sizes)
        all_weights = self.all_weights
        exact = [whole * weight / all_weights for weight in self.weights]
        if self.mark is None:
            return exact[self.index]
        if self.rounded_down:
            on_mark = tuple(floor(share / self.mark) * self.mark for share in exact)
        else:
            on_mark = apportion(exact, self.mark)
        # If the whole is not on a mark itself, what is left over goes to the last share.
        spare = whole - sum(on_mark, Fraction(0))
        return on_mark[self.index] + (spare if self.index == len(exact) - 1 else 0)


Definition = Given | Combination | Greatest | Least | HowMany | WholeSteps | Share


@dataclass(frozen=True, slots=True)
class LedgerEntry:
    """One named size: what a maker calls it, and its definition."""

    name: str
    words: str
    definition: Definition


class Ledger(Mapping[str, LedgerEntry]):
    """Immutable entries by name, in an order in which each needs only earlier ones."""

    def __init__(
        self, entries: Mapping[str, LedgerEntry], users: dict[str, tuple[str, ...]] | None = None
    ) -> None:
        self._entries = MappingProxyType(dict(entries))
        self._expanded: dict[str, Affine] = {}
        self._users = users

    def __getitem__(self, name: str) -> LedgerEntry:
        return self._entries[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._entries)

    def __len__(self) -> int:
        return len(self._entries)

    def expand(self, form: Affine | str) -> Affine:
        """The form in terms of given sizes and non-affine steps only."""
        if isinstance(form, str):
            return self._expand_name(form)
        return form.substitute({name: self._expand_name(name) for name in form.names})

    def over(self, form: Affine, names: Container[str]) -> Affine:
        """The form over `names`, as far as other sizes only add up sizes and can be replaced by those."""
        while True:
            deeper = {
                name: definition.form
                for name in form.names
                if name not in names and isinstance(definition := self._entries[name].definition, Combination)
            }
            if not deeper:
                return form
            form = form.substitute(deeper)

    def _expand_name(self, name: str) -> Affine:
        known = self._expanded.get(name)
        if known is not None:
            return known
        definition = self._entries[name].definition
        if isinstance(definition, Combination):
            form = definition.form.substitute({n: self._expand_name(n) for n in definition.form.names})
        else:
            form = size(name)
        self._expanded[name] = form
        return form

    def users_of(self, name: str) -> tuple[str, ...]:
        """The entries that need `name` directly."""
        if self._users is None:
            users: dict[str, list[str]] = {entry: [] for entry in self._entries}
            for entry in self._entries.values():
                for needed in entry.definition.needs():
                    users[needed].append(entry.name)
            self._users = {entry: tuple(found) for entry, found in users.items()}
        return self._users[name]

    def downstream(self, names: frozenset[str]) -> tuple[str, ...]:
        """`names` and every size that depends on them, in the order to work them out."""
        reached = set(names)
        waiting = list(names)
        while waiting:
            for user in self.users_of(waiting.pop()):
                # A size that was replaced by a measurement no longer depends on anything.
                if user not in reached and not isinstance(self._entries[user].definition, Given):
                    reached.add(user)
                    waiting.append(user)
        return tuple(name for name in self._entries if name in reached) if reached else ()

    def redefined(self, anew: Mapping[str, Given | Combination]) -> Ledger:
        """The ledger with each size in `anew` defined so; a combination adds up sizes that stay as they are.

        Raises LedgerError for a name that is not in the ledger.
        """
        for name in anew:
            if name not in self._entries:
                raise LedgerError(f"{name} is not a size of this job; measure one of its parts or inputs.")
        entries = dict(self._entries)
        for name, definition in anew.items():
            entries[name] = LedgerEntry(name, entries[name].words, definition)
        return Ledger(entries, self._users)


@dataclass(frozen=True)
class Sizes:
    """The values of a ledger's entries; `worked` is how many were worked out to get them."""

    ledger: Ledger
    values: Mapping[str, Fraction]
    worked: int

    def of(self, form: Affine | str) -> Fraction:
        """The value of a form or of a named size, in inches."""
        return self.values[form] if isinstance(form, str) else form.value(self.values)

    def given(self, facts: Mapping[str, Fraction]) -> Sizes:
        """The sizes with `facts` as given; only sizes that depend on them are worked out again."""
        return self.redefined({name: Given(value) for name, value in facts.items()})

    def redefined(self, anew: Mapping[str, Given | Combination]) -> Sizes:
        """The sizes with those in `anew` defined so; only what depends on one that moves is worked out
        again."""
        ledger = self.ledger.redefined(anew)
        values = dict(self.values)
        moved = {name for name, one in anew.items() if one.work_out(values) != values[name]}
        touched = ledger.downstream(frozenset(moved))
        for name in touched:
            values[name] = ledger[name].definition.work_out(values)
        return Sizes(ledger, MappingProxyType(values), len(touched))


class Book:
    """A ledger that is still being written. Each entry has its value as soon as it is entered."""

    def __init__(self) -> None:
        self._entries: dict[str, LedgerEntry] = {}
        self._values: dict[str, Fraction] = {}

    def given(self, single: Affine, value: Fraction | int, words: str) -> Affine:
        """Enter a size from outside."""
        return self.enter(single, Given(Fraction(value)), words)

    def form(self, single: Affine, form: Affine, words: str) -> Affine:
        """Enter a size that is affine in earlier ones."""
        return self.enter(single, Combination(form), words)

    def enter(self, single: Affine, definition: Definition, words: str) -> Affine:
        """Enter any definition of a `single` size, and give that size back.

        LedgerError if the size is already defined or one it needs is not yet entered.
        """
        name = single.name
        if name in self._entries:
            raise LedgerError(f"{name} is defined twice.")
        try:
            self._values[name] = definition.work_out(self._values)
        except KeyError as missing:
            raise LedgerError(f"{name} needs {missing.args[0]}, which is not defined yet.") from None
        self._entries[name] = LedgerEntry(name, words, definition)
        return single

    def value(self, form: Affine) -> Fraction:
        """The value of a form over the entries so far."""
        return form.value(self._values)

    def close(self) -> Sizes:
        """The finished ledger with its values."""
        return Sizes(Ledger(self._entries), MappingProxyType(dict(self._values)), len(self._entries))


@dataclass(frozen=True)
class SizeExplanation:
    """How a size is worked out: its definition, one level down, with values."""

    name: str
    words: str
    value: Fraction
    how: str  # "given", "sum", "greatest", "least", "count", "whole steps", "share", "remainder"
    constant: Fraction
    terms: tuple[tuple[Fraction, str, str, Fraction], ...]  # coefficient, name, words, value

    def sentence(self, show: Callable[[Fraction], str], *more: str) -> str:
        """`back width 34 1/2 = opening 34 + 2 x groove depth 1/4`, lengths printed by `show`.

        `more` are further terms of the sum as they are printed, signs first, such as what printing rounded.
        """
        head = f"{self.words} {show(self.value)}"
        if self.how == "given":
            return f"{head} (given)"
        pieces: list[str] = []
        if self.constant:
            pieces.append(("- " if self.constant < 0 else "+ ") + show(abs(self.constant)))
        for coefficient, _, words, value in self.terms:
            sign = "- " if coefficient < 0 else "+ "
            times = "" if abs(coefficient) == 1 else f"{abs(coefficient)} x "
            pieces.append(f"{sign}{times}{words} {show(value)}")
        pieces += more
        pieces.sort(key=lambda piece: piece.startswith("- "))
        body = " ".join(pieces).removeprefix("+ ") or show(Fraction(0))
        return f"{head} = {body}" if self.how == "sum" else f"{head} = {self.how} of {body}"


_HOW = {
    Given: "given",
    Combination: "sum",
    Greatest: "greatest",
    Least: "least",
    HowMany: "count",
    WholeSteps: "whole steps",
    Share: "share",
}


def explain(sizes: Sizes, name: str) -> SizeExplanation:
    """One level of explanation of the size called `name`; KeyError when there is none."""
    entry = sizes.ledger[name]
    definition = entry.definition
    form, how = None, _HOW[type(definition)]
    if isinstance(definition, Combination):
        form = definition.form
    elif isinstance(definition, Share):
        form = definition.whole
        how = "remainder" if definition.is_remainder else "share" if len(definition.weights) > 1 else "sum"
    terms = form.terms if form else tuple((needed, Fraction(1)) for needed in definition.needs())
    return SizeExplanation(
        name,
        entry.words,
        sizes.values[name],
        how,
        form.constant if form else Fraction(0),
        tuple((k, other, sizes.ledger[other].words, sizes.values[other]) for other, k in terms),
    )
