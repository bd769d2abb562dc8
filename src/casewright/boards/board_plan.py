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
    its `panel`. One that was cut and is no good any more is `spent`: it is wanted no longer, but its wood is
    gone."""

    name: str
    x: Fraction
    length: Fraction
    panel: str = ""
    spent: bool = False

    @property
    def of_part(self) -> str:
        """The part that this is, or is a strip of."""
        return self.panel or self.name


@dataclass(frozen=True)
class BoardStrip:
    """A strip ripped from a length of board, with the parts that are crosscut from it, left to right.

    `later` is 0 for what is cut in one go with the rest. A strip that is cut from what was left once the
    others had been, because a part was spoiled, is of a later round, with steps of its own.
    """

    y: Fraction
    width: Fraction
    parts: tuple[RoughPart, ...]
    later: int = 0

    @property
    def wanted(self) -> tuple[RoughPart, ...]:
        """The parts that it still is to give, or gave for good."""
        return tuple(part for part in self.parts if not part.spent)

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

    @property
    def later(self) -> int:
        """The round in which it is crosscut: that of its first strip."""
        return min(strip.later for strip in self.strips)


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
        """The parts that it gives; those that are spent are none."""
        return tuple(part for length in self.lengths for strip in length.strips for part in strip.wanted)

    @property
    def marks(self) -> frozenset[str]:
        """The marks of the parts that it gives; of one that is glued up the part's own, not its strips'."""
        return frozenset(part.of_part for part in self.parts)

    def strips_in_turn(self) -> tuple[tuple[int, BoardLength, BoardStrip], ...]:
        """Its strips with their numbers from 1: those of each round from left to right, so that a strip cut
        later changes no other's number."""
        every = [(length, strip) for length in self.lengths for strip in length.strips]
        every.sort(key=lambda one: one[1].later)
        return tuple((number, *one) for number, one in enumerate(every, 1))

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

    @property
    def marks(self) -> frozenset[str]:
        """The marks of the parts that its boards give."""
        return frozenset(mark for one in self.boards for mark in one.marks)

    @cached_property
    def board_of(self) -> dict[str, int]:
        """The number of the board that each part comes from, or each strip of one that is glued up."""
        return {part.name: one.number for one in self.boards for part in one.parts}

    @cached_property
    def glued(self) -> dict[str, tuple[str, ...]]:
        """The parts that are glued up, each with its strips in their order."""
        found: dict[str, list[str]] = {}
        for one in self.boards:
            for part in one.parts:
                if part.panel:
                    found.setdefault(part.panel, []).append(part.name)
        return {panel: tuple(sorted(strips)) for panel, strips in found.items()}

    @property
    def has_spent(self) -> bool:
        """Whether a part was cut from its boards that is no good any more."""
        return any(strip.wanted != strip.parts for _, _, strip in self.strips())

    def strips(self) -> Iterator[tuple[CutBoard, BoardLength, BoardStrip]]:
        for one in self.boards:
            for length in one.lengths:
                for strip in length.strips:
                    yield one, length, strip


def boards_renumbered(plan: BoardPlan, numbers: Sequence[int]) -> BoardPlan:
    """The plan with these numbers on its boards, in their order."""
    boards = (replace(one, number=number) for one, number in zip(plan.boards, numbers, strict=True))
    return replace(plan, boards=tuple(boards))
