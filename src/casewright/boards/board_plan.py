"""A board plan: each board crosscut into lengths, each length ripped into strips, each strip cut into parts.

Nothing is decided here; drawings, steps and labels read this. Places are measured on the rough board, from
its left end and its near edge; parts stand in their rough sizes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from ..shop.rough_boards import RoughBoard, feet_of


@dataclass(frozen=True)
class RoughPart:
    """A part's place along its strip, in its rough length; a strip of a part that is glued up names that as
    its `panel`."""

    name: str
    x: Fraction
    length: Fraction
    panel: str = ""


@dataclass(frozen=True)
class BoardStrip:
    """A strip ripped from a length of board, with the parts that are crosscut from it, left to right."""

    y: Fraction
    width: Fraction
    parts: tuple[RoughPart, ...]

    @property
    def is_glued(self) -> bool:
        """Whether it gives strips of parts that are glued up; then it gives nothing else."""
        return any(part.panel for part in self.parts)


@dataclass(frozen=True)
class BoardLength:
    """A rough length crosscut from a board, with its strips from the near edge to the far one."""

    x: Fraction
    length: Fraction
    strips: tuple[BoardStrip, ...]

    @property
    def end(self) -> Fraction:
        return self.x + self.length


@dataclass(frozen=True)
class CutBoard:
    """One board with its cuts; `number` counts from 1 over the plan. `to_buy` tells a board that is still
    to be bought, and so is of the size taken as usual, from one at hand."""

    number: int
    board: RoughBoard
    to_buy: bool
    lengths: tuple[BoardLength, ...]

    @property
    def parts(self) -> tuple[RoughPart, ...]:
        return tuple(part for length in self.lengths for strip in length.strips for part in strip.parts)

    def needed(self, trim: Fraction) -> tuple[Fraction, Fraction]:
        """Length and width of the smallest board that would do in its place, with that trim at its end."""
        widths = [strip.y + strip.width for length in self.lengths for strip in length.strips]
        return self.lengths[-1].end + trim, max(widths)


@dataclass(frozen=True)
class BoardPlan:
    """The answer. `bound` is the least board feet to buy that any way of cutting needs (where nothing is
    bought, the least to use), and `bound_boards` the fewest boards to buy; `unplaced` are parts that no
    board was found for."""

    boards: tuple[CutBoard, ...]
    bound: Fraction
    bound_boards: int
    unplaced: tuple[str, ...] = ()

    @property
    def to_buy(self) -> tuple[CutBoard, ...]:
        return tuple(one for one in self.boards if one.to_buy)

    @property
    def feet_to_buy(self) -> Fraction:
        return feet_of(one.board for one in self.to_buy)

    @property
    def feet_used(self) -> Fraction:
        return feet_of(one.board for one in self.boards)

    @property
    def gap(self) -> Fraction:
        """The share that a better plan could save at most: of the board feet to buy or, where nothing is
        bought, of those used."""
        feet = self.feet_to_buy or self.feet_used
        return (feet - self.bound) / feet if feet else Fraction(0)

    def numbered(self, number: int) -> CutBoard:
        """The board of that number; KeyError where none has it."""
        return {one.number: one for one in self.boards}[number]

    @cached_property
    def glued(self) -> dict[str, tuple[str, ...]]:
        """The parts that are glued up, each with its strips in their order."""
        found: dict[str, list[str]] = {}
        for one in self.boards:
            for part in one.parts:
                if part.panel:
                    found.setdefault(part.panel, []).append(part.name)
        return {panel: tuple(sorted(strips)) for panel, strips in found.items()}

    def strips(self) -> Iterator[tuple[CutBoard, BoardLength, BoardStrip]]:
        for one in self.boards:
            for length in one.lengths:
                for strip in length.strips:
                    yield one, length, strip


def boards_renumbered(plan: BoardPlan, numbers: Sequence[int]) -> BoardPlan:
    """The plan with these numbers on its boards, in their order."""
    boards = (replace(one, number=number) for one, number in zip(plan.boards, numbers, strict=True))
    return replace(plan, boards=tuple(boards))
