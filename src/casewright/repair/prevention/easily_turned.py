"""Before the mistake: parts that are easily turned the wrong way. Nearly square ones whose grain matters, and
lefts and rights that are cut on one setting.

That these are where hands go wrong, and what is done about it, is common practice without a source.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ...casework.parts.part import Hand, Part
from ...casework.project import Project
from ..piece_shape import piece_shape, turn_that_serves
from .saw_check import CLOSE


class WrongTurn(Enum):
    """How a part is easily turned wrong."""

    GRAIN = "nearly square, with a grain that must not be turned"
    HAND = "a left and a right, each the other's mirror image"


LIKE_A_BOOK = (
    "Open each pair like a book, the faces that look into the case up and the front edges together, and mark "
    "both front edges before anything is cut."
)


@dataclass(frozen=True)
class EasilyTurned:
    """Parts that are easily turned wrong: nearly square ones of one size (`second` is empty), or lefts and
    the rights that they pair with. `sizes` are their length and width; `advice` says how to mark them."""

    first: tuple[str, ...]
    second: tuple[str, ...]
    sizes: tuple[Fraction, Fraction]
    how: WrongTurn
    advice: str


def easily_turned(project: Project) -> tuple[EasilyTurned, ...]:
    """Every set of such parts, one to a size, those nearly square first."""
    square: dict[tuple[Fraction, Fraction], list[str]] = {}
    pairs: dict[tuple[Fraction, Fraction], list[tuple[str, str]]] = {}
    for part in project:
        length, width, _ = project.dimensions(part)
        if abs(length - width) <= CLOSE and not project.may_turn(part):
            square.setdefault((length, width), []).append(part.mark)
        if part.hand is Hand.LEFT and (mate := _mate(project, part)) is not None:
            pairs.setdefault((length, width), []).append((part.mark, mate.mark))
    return (
        *(
            EasilyTurned(tuple(marks), (), sizes, WrongTurn.GRAIN, _with_grain(project, marks, sizes[0]))
            for sizes, marks in square.items()
        ),
        *(
            EasilyTurned(
                tuple(left for left, _ in found),
                tuple(right for _, right in found),
                sizes,
                WrongTurn.HAND,
                LIKE_A_BOOK,
            )
            for sizes, found in pairs.items()
        ),
    )


def _mate(project: Project, left: Part) -> Part | None:
    """The right that the left pairs with: of its case and size, and no turn makes one of them the other."""
    for other in project.cases[left.case].parts:
        if other.hand is Hand.RIGHT and project.dimensions(other) == project.dimensions(left):
            here, there = piece_shape(project, left), piece_shape(project, other)
            if here and there and turn_that_serves(here, there, project.job.mark.step / 2) is None:
                return other
    return None


def _with_grain(project: Project, marks: list[str], length: Fraction) -> str:
    long = project.printed(length)
    each = "each leaves" if len(marks) > 1 else "it leaves"
    return f"Draw an arrow along the grain of {', '.join(marks)} before {each} the sheet ({long} that way)."
