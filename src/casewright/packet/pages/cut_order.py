"""A sheet's cuts as a list to work through: tool, setting, edge against the fence, what it makes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...planner.plan import Cut, Piece, PieceRole, Purpose, SheetPlan
from ...planner.problem import Direction, Edge

NAMED_MOST = 4


@dataclass(frozen=True)
class CutLine:
    """One or more consecutive cuts on one setting. `gives` lists the marks of the parts they size."""

    orders: tuple[int, ...]
    tool: str
    direction: Direction
    purpose: Purpose
    setting: Fraction
    reference: Edge
    gives: tuple[str, ...]

    @property
    def numbers(self) -> str:
        """`7` or `7-9`."""
        first, last = self.orders[0], self.orders[-1]
        return str(first) if first == last else f"{first}\u2013{last}"

    @property
    def result(self) -> str:
        """What the cut makes: a good edge, an offcut, or parts by their marks."""
        if self.purpose is Purpose.TRIM:
            return "a good edge"
        if not self.gives:
            return "frees an offcut"
        named = ", ".join(self.gives[:NAMED_MOST])
        more = len(self.gives) - NAMED_MOST
        return f"{named} and {more} more" if more > 0 else named


def cut_lines(sheet: SheetPlan) -> tuple[CutLine, ...]:
    """The sheet's cuts in order, with consecutive cuts on one setting in one line."""
    found: list[CutLine] = []
    for cut, gives in sorted(_cuts(sheet.root), key=lambda pair: pair[0].order):
        line = CutLine((cut.order,), cut.tool, cut.direction, cut.purpose, cut.setting, cut.reference, gives)
        if found and _same(found[-1], line):
            last = found[-1]
            gives = tuple(dict.fromkeys((*last.gives, *gives)))
            found[-1] = CutLine(
                (*last.orders, cut.order),
                cut.tool,
                cut.direction,
                cut.purpose,
                cut.setting,
                cut.reference,
                gives,
            )
        else:
            found.append(line)
    return tuple(found)


def _same(one: CutLine, other: CutLine) -> bool:
    return (one.tool, one.direction, one.purpose, one.setting, one.reference) == (
        other.tool,
        other.direction,
        other.purpose,
        other.setting,
        other.reference,
    )


def _cuts(root: Piece) -> Iterator[tuple[Cut, tuple[str, ...]]]:
    """Each cut with the marks of the parts in the piece it cuts to size."""
    for piece in root.walk():
        for cut in piece.cuts:
            kept = piece.sized_by(cut)
            marks = (
                [part.item for part in kept.walk() if part.role is PieceRole.PART and part.item]
                if kept
                else []
            )
            yield cut, tuple(marks)
