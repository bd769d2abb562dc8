"""A break-down plan: every sheet as a tree of pieces, every cut with its saw, setting and reference edge.

Nothing is decided here; drawings, settings, labels and the checker all read this tree. Positions are true
positions on the sheet, measured from its left near corner.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from ..findings import Finding
from ..lengths.quantities import with_cents
from .problem import Direction, Edge


class PieceRole(Enum):
    """What a piece is on its way from sheet to part."""

    SHEET = "sheet"
    CARRIED = "carried"  # cut by the hand-held saw, carried to the table saw
    STRIP = "strip"  # comes off a first rip or crosscut and is cut again
    BLANK = "blank"  # any other piece that is cut again
    PART = "part"
    OFFCUT = "offcut"  # left over and worth keeping
    WASTE = "waste"


class Purpose(Enum):
    """Why a cut is made."""

    TRIM = "trim"  # makes a good edge; takes off `setting`, the kerf within it
    SIZE = "size"  # brings a piece to `setting`, measured from the reference edge
    CARRY = "carry"  # divides a sheet so that the pieces can be carried


class PlanStatus(Enum):
    OPTIMAL = "optimal"  # the first goal is proved: no plan of this kind does better
    OPEN = "open"  # a better plan may exist; the bound says how much better at most
    IMPOSSIBLE = "impossible"  # some part could not be placed; see the findings


@dataclass(frozen=True)
class Cut:
    """One pass of a saw from edge to edge of a piece.

    `at` is where the kerf begins (its lower x for a crosscut, lower y for a rip). `setting` is
    the distance from the reference edge to the blade: the size of the piece kept against the
    fence or straightedge. `order` counts from 1 within the sheet.
    """

    order: int
    tool: str
    direction: Direction
    at: Fraction
    kerf: Fraction
    setting: Fraction
    reference: Edge
    purpose: Purpose


@dataclass(frozen=True)
class Piece:
    """A rectangle of a sheet. Its `cuts` are parallel and in the order they are made. They divide it into its
    `children`, which are in the order of their position."""

    x: Fraction
    y: Fraction
    length: Fraction
    width: Fraction
    role: PieceRole
    item: str | None = None
    turned: bool = False
    cuts: tuple[Cut, ...] = ()
    children: tuple[Piece, ...] = ()

    @property
    def area(self) -> Fraction:
        return self.length * self.width

    @property
    def as_part(self) -> tuple[Fraction, Fraction]:
        """Its length and width as those of the part that it is: exchanged where that lies turned."""
        return (self.width, self.length) if self.turned else (self.length, self.width)

    def sized_by(self, cut: Cut) -> Piece | None:
        """Which of its children one of its cuts cuts to size: the one on the reference edge's side."""
        return next((child for child in self.children if child._ends_at(cut)), None)

    def _ends_at(self, cut: Cut) -> bool:
        across = cut.direction is Direction.CROSSCUT
        low, size = (self.x, self.length) if across else (self.y, self.width)
        near = cut.reference in (Edge.LEFT, Edge.NEAR)
        return low + size == cut.at if near else low == cut.at + cut.kerf

    def walk(self) -> Iterator[Piece]:
        """This piece and all that is cut from it, parents first."""
        stack = [self]
        while stack:
            piece = stack.pop()
            yield piece
            stack.extend(reversed(piece.children))


@dataclass(frozen=True)
class SheetPlan:
    """One sheet: `number` counts from 1 over the plan, `bin` names its kind.

    The root is the whole sheet. It is itself a part if one fills the sheet exactly.
    """

    number: int
    bin: str
    root: Piece

    def pieces(self, role: PieceRole) -> tuple[Piece, ...]:
        return tuple(piece for piece in self.root.walk() if piece.role is role)

    @property
    def parts(self) -> tuple[Piece, ...]:
        return self.pieces(PieceRole.PART)

    @property
    def carried(self) -> tuple[Piece, ...]:
        return self.pieces(PieceRole.CARRIED)

    @property
    def offcuts(self) -> tuple[Piece, ...]:
        return self.pieces(PieceRole.OFFCUT)

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """Every cut of the sheet in the order it is made."""
        return tuple(sorted((c for piece in self.root.walk() for c in piece.cuts), key=lambda c: c.order))


@dataclass(frozen=True)
class Figures:
    """What the goals compare, and what a maker asks first.

    `money` is the cost of the bins used, `leftover_worth` see `leftovers.leftover_worth`, `settings` the
    distinct settings of the job (tool, direction and distance; trim and carrying cuts are not
    counted), `used` the parts' share of the area of the bins used.
    """

    sheets: int
    money: Fraction
    leftover_worth: Fraction
    largest_offcut: Fraction
    settings: int
    cuts: int
    turns: int
    used: Fraction


@dataclass(frozen=True)
class Unplaced:
    item: str
    count: int


@dataclass(frozen=True)
class Plan:
    """The answer. `bound` is the least money any plan of this kind must spend on sheets, and
    `bound_sheets` the least number of sheets."""

    sheets: tuple[SheetPlan, ...]
    bound: Fraction
    bound_sheets: int
    status: PlanStatus
    figures: Figures
    unplaced: tuple[Unplaced, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def gap(self) -> Fraction:
        """The share of the money that a better plan could save at most."""
        if self.figures.money == 0:
            return Fraction(0)
        return (self.figures.money - self.bound) / self.figures.money

    def parts(self) -> Iterator[tuple[SheetPlan, Piece]]:
        for sheet in self.sheets:
            for piece in sheet.parts:
                yield sheet, piece

    @property
    def fewest_sheets(self) -> bool:
        """Whether it is proved that no plan of this kind uses fewer sheets."""
        return self.status is PlanStatus.OPTIMAL and self.bound_sheets == self.figures.sheets

    def statement(self, sign: str = "") -> str:
        """How many sheets there are and what is proved, in one sentence."""
        count, proved = self.figures.sheets, self.proof(sign)
        return f"{count} {'sheet' if count == 1 else 'sheets'}; {proved[0].lower()}{proved[1:]}"

    def proof(self, sign: str = "") -> str:
        """What is proved, in one sentence; `sign` is the sign of the money."""
        count = self.figures.sheets
        if self.status is PlanStatus.IMPOSSIBLE:
            missing = sum(entry.count for entry in self.unplaced)
            return f"{missing} {'part' if missing == 1 else 'parts'} could not be placed."
        if self.fewest_sheets:
            return f"No plan of this kind uses fewer than {count}."
        if self.status is PlanStatus.OPTIMAL or (self.bound_sheets and self.gap == 0):
            return "No plan of this kind spends less on sheets."
        if not self.bound_sheets:
            return "How many are needed is not proved yet."
        # Where kinds of sheet are mixed, a sheet less may be a small piece from the rack less: money tells.
        if self.bound_sheets < count and len({sheet.bin for sheet in self.sheets}) <= 1:
            saved = count - self.bound_sheets
            return f"At least {self.bound_sheets} are needed, so up to {saved} might be saved."
        return f"At most {sign}{with_cents(self.figures.money - self.bound)} might still be saved on sheets."


def sheets_of_parts(plans: Mapping[str, Plan]) -> dict[str, tuple[str, int]]:
    """The sheet each part is cut from, by the part's name: the key of its plan and the sheet's number."""
    return {
        piece.item: (key, sheet.number)
        for key, plan in plans.items()
        for sheet, piece in plan.parts()
        if piece.item is not None
    }


def renumbered(plan: Plan, numbers: Sequence[int]) -> Plan:
    """The plan with `numbers[i]` for its i-th sheet, in the order of the numbers; its findings follow."""
    named = {
        f"sheet {sheet.number}": f"sheet {number}" for sheet, number in zip(plan.sheets, numbers, strict=True)
    }
    sheets = (replace(sheet, number=number) for sheet, number in zip(plan.sheets, numbers, strict=True))
    findings = (replace(one, place=named.get(one.place, one.place)) for one in plan.findings)
    return replace(
        plan, sheets=tuple(sorted(sheets, key=lambda sheet: sheet.number)), findings=tuple(findings)
    )
