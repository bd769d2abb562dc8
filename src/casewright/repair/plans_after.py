"""The sheet plans after a repair has been chosen.

Cuts already made keep their keys, so what was ticked off stays so. Pieces that the new plans use are
taken out of the current ones and come back as sheets of their own, numbered after the last;
everything else stays where it was.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from ..casework.project import Project
from ..planner.layout.leftovers import largest_leftover
from ..planner.layout.one_piece import breaks_of_grain
from ..planner.layout.plan_figures import distinct_settings, quarter_turns
from ..planner.plan import Cut, Figures, Piece, PieceRole, Plan, PlanStatus, SheetPlan
from ..planner.problem import Direction
from ..record.part_cut_sheets import standing_pieces
from ..workshop.operations import cut_key
from ..workshop.sheets.cut_problems import cut_problems
from .facts import SPOILED, Facts, LeftOver
from .sheets_begun import blank_name, whole_name
from .sound_wood import sound_pieces
from .ways.way import Buy, Forgo, GlueOn, KeepAsCut, Mend, Option, ServeAs, TrimTo


def plans_after(
    project: Project, plans: Mapping[str, Plan], done: Collection[str], facts: Facts, option: Option
) -> dict[str, Plan]:
    """All plans by material after the repair. `plans` are those so far, `done` the keys of cuts made."""
    made = {
        piece.item for plan in option.plans.values() for _, piece in plan.parts() if piece.item is not None
    }
    gone = made | {action.mark for action in option.actions if isinstance(action, Forgo)}
    cut_from = {sheet.bin for plan in option.plans.values() for sheet in plan.sheets}
    used = {blank.name for blank in facts.blanks if cut_from & {one.name for one in sound_pieces(blank)}}
    used |= cut_from
    worked = {mark for mark, cut in {**facts.spoiled, **facts.finished}.items() if cut.worked}
    waste = {name.removeprefix(SPOILED) for name in used} | worked
    kept = {
        action.mark for action in option.actions if isinstance(action, KeepAsCut | TrimTo | GlueOn | Mend)
    }
    takes = {action.piece: action.mark for action in option.actions if isinstance(action, ServeAs)}
    problems, after = cut_problems(project), dict[str, Plan]()
    for material in (*plans, *(key for key in option.plans if key not in plans)):
        old = plans.get(material)
        sheets: list[SheetPlan] = []
        for place in old.sheets if old else ():
            sheet = replace(place, root=_renamed(place.root, takes))
            pruned = _Pruning(material, sheet, done, gone - kept, used, waste).sheet()
            if pruned is not None:
                sheets.append(pruned)
        last = max((sheet.number for sheet in old.sheets), default=0) if old else 0
        if material in option.plans:
            names = {bin_.name for bin_ in option.problems[material].bins if not bin_.offcut}
            whole = {whole_name(place): place.bin for place in old.sheets} if old else {}
            good = project.job.sheets[material]
            left = {one.blank.name: one for one in facts.left_over}
            further = [one for one in option.plans[material].sheets if one.bin in left]
            for one in further:
                sheets = [_cut_further(sheet, left[one.bin], one) for sheet in sheets]
            new = [one for one in option.plans[material].sheets if one.bin not in left]
            for number, sheet in enumerate(new, last + 1):
                bin_ = whole.get(sheet.bin, good.name if sheet.bin in names else sheet.bin)
                sheets.append(replace(sheet, number=number, bin=bin_))
        bought = sum(
            one.sheets for one in option.actions if isinstance(one, Buy) and one.material == material
        )
        plan = _plan(project, material, old, tuple(sheets), bought)
        breaks = breaks_of_grain(problems[material], plan.sheets) if material in problems else ()
        after[material] = replace(plan, findings=breaks)
    return after


def _cut_further(sheet: SheetPlan, left: LeftOver, further: SheetPlan) -> SheetPlan:
    """The sheet with what it leaves over cut up too, after all its other cuts; another sheet as it is."""
    if sheet.number != left.sheet:
        return sheet
    x, y = left.blank.corner
    last = max((cut.order for cut in sheet.cuts), default=0)
    root = further.root
    moved = _moved(root, x - root.x, y - root.y, last)
    role = PieceRole.BLANK if root.role is PieceRole.SHEET else root.role
    return replace(sheet, root=_with_piece(sheet.root, replace(moved, role=role)))


def _with_piece(piece: Piece, new: Piece) -> Piece:
    """The piece with another one in the place of the offcut that lies where that does."""
    same = (piece.x, piece.y, piece.length, piece.width) == (new.x, new.y, new.length, new.width)
    if same and piece.role is PieceRole.OFFCUT:
        return new
    return replace(piece, children=tuple(_with_piece(child, new) for child in piece.children))


def _moved(piece: Piece, x: Fraction, y: Fraction, later: int) -> Piece:
    """The piece so far along and across, its cuts after so many others."""
    cuts = (
        replace(cut, at=cut.at + (x if cut.direction is Direction.CROSSCUT else y), order=cut.order + later)
        for cut in piece.cuts
    )
    children = tuple(_moved(child, x, y, later) for child in piece.children)
    return replace(piece, x=piece.x + x, y=piece.y + y, cuts=tuple(cuts), children=children)


def _renamed(piece: Piece, takes: Mapping[str, str]) -> Piece:
    """A piece of a plan with its places given to the parts that take them over."""
    item = takes.get(piece.item, piece.item) if piece.item else piece.item
    return replace(piece, item=item, children=tuple(_renamed(child, takes) for child in piece.children))


def _plan(
    project: Project, material: str, old: Plan | None, sheets: tuple[SheetPlan, ...], bought: int
) -> Plan:
    """The sheets as one plan. A proof about the plan before no longer holds, so nothing is proved."""
    spent = (old.figures.money if old else Fraction(0)) + bought * project.job.sheets[material].price
    area = sum((sheet.root.area for sheet in sheets), Fraction(0))
    parts = sum((piece.area for sheet in sheets for piece in sheet.parts), Fraction(0))
    figures = Figures(
        sheets=len(sheets),
        money=spent,
        leftover_worth=old.figures.leftover_worth if old else Fraction(0),
        largest_offcut=largest_leftover(sheets),
        settings=len(distinct_settings(sheets, project.job.shop.table_saw.name)),
        cuts=sum(len(sheet.cuts) for sheet in sheets),
        turns=sum(quarter_turns(sheet.root) for sheet in sheets),
        used=parts / area if area else Fraction(0),
    )
    return Plan(sheets, Fraction(0), 0, PlanStatus.OPEN, figures)


@dataclass(frozen=True)
class _Pruning:
    """A sheet of the current plan: parts in `gone` are made elsewhere, pieces in `used` cut elsewhere."""

    material: str
    on: SheetPlan
    done: Collection[str]
    gone: Collection[str]
    used: Collection[str]
    waste: Collection[str]

    def sheet(self) -> SheetPlan | None:
        """The sheet as it now is; None for a whole one that comes back under another number."""
        pieces = standing_pieces(self.material, (self.on,), self.done)
        taken = {
            (piece.x, piece.y, piece.length, piece.width)
            for number, piece in enumerate(pieces, 1)
            if blank_name(self.on, piece, number) in self.used
        }
        if len(pieces) == 1 and not pieces[0].begun and taken:
            return None
        return replace(self.on, root=self._piece(self.on.root, taken))

    def _piece(self, piece: Piece, taken: Collection[tuple[Fraction, ...]]) -> Piece:
        made = sorted(
            (cut for cut in piece.cuts if cut_key(self.material, self.on.number, cut.order) in self.done),
            key=lambda cut: cut.at,
        )
        if not made:
            return self._standing(piece, taken)
        crosscut = piece.cuts[0].direction is Direction.CROSSCUT
        cuts: list[Cut] = list(made)
        children: list[Piece] = []
        for low, high in _rooms(piece, made, crosscut):
            within = [child for child in piece.children if low <= (child.x if crosscut else child.y) < high]
            between = [cut for cut in piece.cuts if cut not in made and low <= cut.at < high]
            if not within:
                continue
            x, length = (low, high - low) if crosscut else (piece.x, piece.length)
            y, width = (piece.y, piece.width) if crosscut else (low, high - low)
            if len(within) == 1 and (within[0].length, within[0].width) == (length, width):
                children.append(self._piece(within[0], taken))
                continue
            whole = Piece(x, y, length, width, PieceRole.BLANK, cuts=tuple(between), children=tuple(within))
            stands = self._standing(whole, taken)
            if stands.children:
                cuts += between
                children += stands.children
            else:
                children.append(stands)
        cuts.sort(key=lambda cut: cut.order)
        return replace(piece, cuts=tuple(cuts), children=tuple(children))

    def _standing(self, piece: Piece, taken: Collection[tuple[Fraction, ...]]) -> Piece:
        """A piece in one: used, left over because its parts are made elsewhere, or as planned."""
        if (piece.x, piece.y, piece.length, piece.width) in taken:
            return _leaf(piece, PieceRole.WASTE)
        marks = [one.item for one in piece.walk() if one.role is PieceRole.PART and one.item]
        if marks and all(mark in self.gone for mark in marks):
            lost = len(marks) == 1 and piece.role is PieceRole.PART and marks[0] in self.waste
            return _leaf(piece, PieceRole.WASTE if lost else PieceRole.OFFCUT)
        return self._less(piece)

    def _less(self, piece: Piece) -> Piece:
        if piece.role is PieceRole.PART and piece.item in self.gone:
            return _leaf(piece, PieceRole.OFFCUT)
        return replace(piece, children=tuple(self._less(child) for child in piece.children))


def _leaf(piece: Piece, role: PieceRole) -> Piece:
    return Piece(piece.x, piece.y, piece.length, piece.width, role)


def _rooms(piece: Piece, made: list[Cut], crosscut: bool) -> Iterator[tuple[Fraction, Fraction]]:
    """The stretches between the cuts already made, from one end of the piece to the other."""
    low = piece.x if crosscut else piece.y
    end = low + (piece.length if crosscut else piece.width)
    starts = [low, *(cut.at + cut.kerf for cut in made)]
    ends = [*(cut.at for cut in made), end]
    yield from ((start, stop) for start, stop in zip(starts, ends, strict=True) if stop > start)
