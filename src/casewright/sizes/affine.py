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
        _set_constant(self, Fraction(constant) if constant else ZERO)
        _set_terms(self, _merged(terms))

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
        terms = self.terms
        return len(terms) == 1 and terms[0][1] == 1 and not self.constant

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
        total, terms = self.constant, self.terms
        if len(terms) == 1 and total is ZERO and terms[0][1] is ONE:  # most forms are one size
            return sizes[terms[0][0]]
        for name, coefficient in terms:
            size = sizes[name]
            if coefficient is MINUS_ONE:
                total = _minus(total, size)
            else:
                total = _plus(total, size if coefficient is ONE else coefficient * size)
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
            return _made(constant, _joined(self.terms, other.terms))
        if isinstance(other, int | Fraction):
            return _made(_plus(self.constant, Fraction(other)), self.terms)
        return NotImplemented

    __radd__ = __add__

    def __neg__(self) -> Affine:
        return _made(_minus(ZERO, self.constant), _negated(self.terms))

    def __sub__(self, other: Affine | Number) -> Affine:
        if isinstance(other, Affine):
            constant = _minus(self.constant, other.constant)
            return _made(constant, _joined(self.terms, _negated(other.terms)))
        if isinstance(other, int | Fraction):
            return _made(_minus(self.constant, Fraction(other)), self.terms)
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


_new = object.__new__
_set_constant = Affine.__dict__["constant"].__set__
_set_terms = Affine.__dict__["terms"].__set__


def _made(constant: Fraction, terms: tuple[Term, ...]) -> Affine:
    """A form whose terms are already merged, so that the constructor need not merge them again."""
    form = _new(Affine)
    _set_constant(form, constant)
    _set_terms(form, terms)
    return form


# Nearly every coefficient is ONE or MINUS_ONE itself and nearly every constant ZERO itself. Skipping the
# general arithmetic for these three more than halves the time to draw up a job.


def _plus(a: Fraction, b: Fraction) -> Fraction:
    if b is ZERO:
        return a
    return b if a is ZERO else a + b


def _minus(a: Fraction, b: Fraction) -> Fraction:
    if b is ZERO:
        return a
    return -b if a is ZERO else a - b


def _times(a: Fraction, b: Fraction) -> Fraction:
    if b is ONE:
        return a
    if a is ONE:
        return b
    if a is MINUS_ONE and b is MINUS_ONE:
        return ONE
    return a * b


def _negated(terms: tuple[Term, ...]) -> tuple[Term, ...]:
    return tuple([(name, _times(MINUS_ONE, k)) for name, k in terms])


def _joined(first: tuple[Term, ...], second: tuple[Term, ...]) -> tuple[Term, ...]:
    """The terms of a sum of two forms."""
    if not second:
        return first
    return _merged((*first, *second)) if first else second


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
