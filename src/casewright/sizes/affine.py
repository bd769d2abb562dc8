"""Affine forms `c + k1*x1 + k2*x2 + ...` over named sizes, with exact coefficients.

Every size in a job is one of these, so it can be explained, differentiated, corrected by a measurement
and solved backwards.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

Number = int | Fraction
Term = tuple[str, Fraction]

ZERO = Fraction(0)
ONE = Fraction(1)
MINUS_ONE = Fraction(-1)


@dataclass(frozen=True, slots=True)
class Addend:
    """One line of a sum: `times` of the size called `name`, added or taken away.

    For a form's constant the name is empty and `times` its inches. `times` is never negative.
    """

    added: bool
    times: Fraction
    name: str = ""


class Affine:
    """An immutable affine form. Terms keep the order in which they were written.

    `constant` is in inches; coefficients are per unit of the named size. Two forms are equal if they are
    the same function, whatever the order of their terms.
    """

    __slots__ = ("constant", "terms")

    constant: Fraction
    terms: tuple[Term, ...]

    def __init__(self, constant: Number = 0, terms: Iterable[Term] = ()) -> None:
        self._set(Fraction(constant), _merged(terms))

    def _set(self, constant: Fraction, terms: tuple[Term, ...]) -> None:
        object.__setattr__(self, "constant", constant)
        object.__setattr__(self, "terms", terms)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError("an affine form cannot be changed")

    def __reduce__(self) -> tuple[type[Affine], tuple[Fraction, tuple[Term, ...]]]:
        return (Affine, (self.constant, self.terms))

    @property
    def names(self) -> tuple[str, ...]:
        """The sizes it depends on directly."""
        return tuple(name for name, _ in self.terms)

    @property
    def is_size(self) -> bool:
        """Whether the form is a single size and nothing else."""
        return not self.constant and len(self.terms) == 1 and self.terms[0][1] == 1

    @property
    def name(self) -> str:
        """The name of the size, if the form is a single one; ValueError for any other form."""
        if not self.is_size:
            raise ValueError(f"{self!r} is not a single size")
        return self.terms[0][0]

    @property
    def addends(self) -> tuple[Addend, ...]:
        """The form as the lines of a sum, its constant last, what is added before what is taken away."""
        lines = [Addend(factor >= 0, abs(factor), name) for name, factor in self.terms]
        if self.constant:
            lines.append(Addend(self.constant > 0, abs(self.constant)))
        return tuple(sorted(lines, key=lambda line: not line.added))

    def coefficient(self, name: str) -> Fraction:
        """The derivative with respect to `name`."""
        return dict(self.terms).get(name, ZERO)

    def value(self, sizes: Mapping[str, Fraction]) -> Fraction:
        """The value of the form in inches; KeyError names the first missing size."""
        total = self.constant
        for name, coefficient in self.terms:
            size = sizes[name]
            if coefficient == 1:
                total += size
            elif coefficient == -1:
                total -= size
            else:
                total += coefficient * size
        return total

    def substitute(self, forms: Mapping[str, Affine]) -> Affine:
        """The form with each name in `forms` replaced by its form; other names stay."""
        constant = self.constant
        terms: list[Term] = []
        for name, coefficient in self.terms:
            inner = forms.get(name)
            if inner is None:
                terms.append((name, coefficient))
                continue
            constant += coefficient * inner.constant
            terms += [(deeper, _times(coefficient, factor)) for deeper, factor in inner.terms]
        return _made(constant, _merged(terms))

    def __add__(self, other: Affine | Number) -> Affine:
        if isinstance(other, Affine):
            constant = _plus(self.constant, other.constant)
            if not other.terms:
                return _made(constant, self.terms)
            return _made(constant, _merged((*self.terms, *other.terms)) if self.terms else other.terms)
        if isinstance(other, int | Fraction):
            return _made(_plus(self.constant, Fraction(other)), self.terms)
        return NotImplemented

    __radd__ = __add__

    def __neg__(self) -> Affine:
        constant = -self.constant if self.constant else self.constant
        return _made(constant, tuple([(name, _times(MINUS_ONE, k)) for name, k in self.terms]))

    def __sub__(self, other: Affine | Number) -> Affine:
        if isinstance(other, Affine | int | Fraction):
            return self + (-other)
        return NotImplemented

    def __rsub__(self, other: Number) -> Affine:
        return -self + other

    def __mul__(self, factor: Number) -> Affine:
        if isinstance(factor, int | Fraction):
            if not factor:
                return _made(ZERO, ())
            return _made(self.constant * factor, tuple((name, k * factor) for name, k in self.terms))
        return NotImplemented

    __rmul__ = __mul__

    def __truediv__(self, divisor: Number) -> Affine:
        return self * (ONE / Fraction(divisor))

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Affine):
            return NotImplemented
        return self.constant == other.constant and dict(self.terms) == dict(other.terms)

    def __hash__(self) -> int:
        return hash((self.constant, frozenset(self.terms)))

    def __repr__(self) -> str:
        written = [f"{k}*{name}" for name, k in self.terms]
        if self.constant or not written:
            written.insert(0, str(self.constant))
        return f"Affine({' + '.join(written)})"


def _made(constant: Fraction, terms: tuple[Term, ...]) -> Affine:
    """A form whose terms are already merged, so that the constructor need not merge them again."""
    form = Affine.__new__(Affine)
    form._set(constant, terms)
    return form


# Nearly every coefficient is 1 or -1 and nearly every constant 0. Skipping the general arithmetic in
# these cases halves the time to draw up a job.


def _plus(a: Fraction, b: Fraction) -> Fraction:
    if not b:
        return a
    return a + b if a else b


def _times(a: Fraction, b: Fraction) -> Fraction:
    if b is ONE:
        return a
    if a is ONE:
        return b
    if a is MINUS_ONE and b is MINUS_ONE:
        return ONE
    return a * b


def _merged(terms: Iterable[Term]) -> tuple[Term, ...]:
    """The terms with each name once, in order of first mention, without those that cancel."""
    merged: dict[str, Fraction] = {}
    cancelled = False
    for name, coefficient in terms:
        known = merged.get(name)
        if known is None:
            merged[name] = coefficient
        else:
            merged[name] = together = known + coefficient
            cancelled = cancelled or not together
    if cancelled:
        return tuple([term for term in merged.items() if term[1]])
    return tuple(merged.items())


def size(name: str) -> Affine:
    """The form that is the size called `name` alone."""
    return _made(ZERO, ((name, ONE),))


def total(forms: Iterable[Affine]) -> Affine:
    """The sum of `forms`; zero if there are none."""
    constant = ZERO
    terms: list[Term] = []
    for form in forms:
        constant += form.constant
        terms.extend(form.terms)
    return Affine(constant, terms)


NOTHING = Affine()
