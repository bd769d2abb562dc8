"""What a chain comes to when its sizes are set to their numbers: its bias, as a sum over exact lengths."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...sizes.affine import ZERO, Affine
from ...sizes.ledger import Sizes


@dataclass(frozen=True, slots=True)
class ChainSum:
    """A chain as a sum over the exact lengths that it is made of, each once with its factor.

    Sizes of one exact length share one number, so those that stand against each other cancel: what is left
    is what numbers can put out. `room` is how much the cases of a run may grow in their opening; None for the
    chains of a case.
    """

    terms: tuple[tuple[Fraction, Fraction], ...]
    room: Fraction | None = None

    def bias(self, numbers: Mapping[Fraction, Fraction]) -> Fraction:
        """How much wider the gap comes out than designed, in inches, with these numbers by exact length."""
        return sum((k * (numbers[exact] - exact) for exact, k in self.terms), ZERO)


def chain_sum(
    form: Affine, sizes: Sizes, numbered: Container[str], step: Fraction, room: Fraction | None = None
) -> ChainSum:
    """The sum of a chain whose gap is `form`, over the sizes `numbered` that are not on a mark."""
    terms: dict[Fraction, Fraction] = {}
    for name, k in form.terms:
        if name in numbered:
            exact = sizes.values[name]
            terms[exact] = terms.get(exact, ZERO) + k
    off = ((exact, k) for exact, k in terms.items() if k and (exact / step).denominator != 1)
    return ChainSum(tuple(sorted(off)), room)
