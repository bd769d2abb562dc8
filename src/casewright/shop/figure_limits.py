"""What a shop's own figures and the plays of a case can be: beyond these they are slips."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files


@dataclass(frozen=True, slots=True)
class FigureLimits:
    """Limits of one figure, in inches: below `least` and above `asked` it is asked about, above `most` it is
    refused.

    `reason` says what is wrong with a figure that is too great.
    """

    reason: str
    least: Fraction = Fraction(0)
    asked: Fraction | None = None
    most: Fraction | None = None


@cache
def figure_limits() -> Mapping[str, Mapping[str, FigureLimits]]:
    """The limits that come with the program, by the name of each figure: of `deviations` and of `plays`."""
    text = files("casewright.shop").joinpath("data", "limits.toml").read_text(encoding="utf-8")
    return {
        kind: {name: _limits(given) for name, given in every.items()}
        for kind, every in tomllib.loads(text).items()
    }


def _limits(given: Mapping[str, str]) -> FigureLimits:
    numbers = {name: Fraction(said) for name, said in given.items() if name != "reason"}
    return FigureLimits(given["reason"], **numbers)
