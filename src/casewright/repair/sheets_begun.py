"""The facts of a job by its sheet plans and the cuts that are made: free parts, and the other wood."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from ..casework.project import Project, is_used_as_cut
from ..planner.plan import PieceRole, Plan, Purpose, SheetPlan
from ..planner.problem import Direction, Trim
from ..record.part_cut_sheets import StandingPiece, standing_pieces
from ..workshop.operations import cut_key
from .facts import SPOILED, AsCut, Blank, Facts, LeftOver, Origin
from .flaws import Flaw, flaws_of, harms_of_flaw
from .harm import Harm


def facts_after(
    project: Project, plans: Mapping[str, Plan], done: Collection[str], flaws: Collection[Flaw] = ()
) -> Facts:
    """The facts once the cuts whose keys are in `done` are made as planned. `plans` are by material.

    Parts that have come free count as finished, as far as sawing goes; every other piece is a blank
    that still holds its parts. Where a sheet has `flaws`, a part that was cut there is spoiled, and one still
    to be cut has no place.
    """
    finished: dict[str, AsCut] = {}
    spoiled: dict[str, AsCut] = {}
    blanks: list[Blank] = []
    left_over: list[LeftOver] = []
    for material, plan in plans.items():
        for sheet in plan.sheets:
            faults = flaws_of(flaws, material, sheet.number)
            for number, piece in enumerate(standing_pieces(material, (sheet,), done), 1):
                if piece.role is PieceRole.WASTE:
                    continue
                if piece.role is PieceRole.PART:
                    for mark in piece.parts:
                        cut = _freed(project, mark, piece)
                        harms = _harms_there(project, mark, piece, faults)
                        (spoiled if harms else finished)[mark] = replace(cut, harms=harms)
                    continue
                blank = _blank(project, sheet, piece, number, done)
                hit = _hit(sheet, faults)
                kept = tuple(mark for mark in blank.planned if mark not in hit)
                blanks.append(replace(blank, planned=kept, corner=(piece.x, piece.y), flaws=faults))
                if kept and not faults:
                    left_over += _left_over(project, sheet, piece, blank)
    return Facts(finished, spoiled, tuple(blanks), left_over=tuple(left_over))


def _left_over(
    project: Project, sheet: SheetPlan, standing: StandingPiece, blank: Blank
) -> Iterator[LeftOver]:
    """What the plan leaves of a piece once its parts are cut from it."""
    every = {cut_key(standing.material, sheet.number, cut.order) for cut in sheet.cuts}
    within = (
        piece
        for piece in sheet.offcuts
        if standing.x <= piece.x < standing.x + standing.length
        and standing.y <= piece.y < standing.y + standing.width
    )
    for number, piece in enumerate(within, 1):
        size = (piece.x, piece.y, piece.length, piece.width)
        name = f"leftover {number} of {blank.name.removeprefix('whole ')}"
        free = StandingPiece(standing.material, sheet.number, *size, piece.role, (), True)
        trim = _trim(project, sheet, free, every)
        left = Blank(name, blank.material, *size[2:], Origin.OFFCUT, trim, corner=(piece.x, piece.y))
        yield LeftOver(left, blank.name, sheet.number)


def _hit(sheet: SheetPlan, faults: Iterable[Flaw]) -> frozenset[str]:
    """The parts of a sheet whose places a fault reaches."""
    return frozenset(
        piece.item
        for piece in sheet.parts
        if piece.item and any(one.reaches(piece.x, piece.y, piece.length, piece.width) for one in faults)
    )


def _harms_there(
    project: Project, mark: str, piece: StandingPiece, faults: Iterable[Flaw]
) -> tuple[Harm, ...]:
    place, size = (piece.x, piece.y), (piece.length, piece.width)
    return tuple(
        harm
        for one in faults
        if one.reaches(*place, *size)
        for harm in harms_of_flaw(project, project.parts[mark], one, place, size)
    )


def _freed(project: Project, mark: str, piece: StandingPiece) -> AsCut:
    """A part as it comes off its sheet; one that lies across the sheet has its length across it too."""
    lying = (piece.length, piece.width)
    if is_used_as_cut(project.job, mark):
        return AsCut(*project.dimensions(project.parts[mark])[:2])
    across = lying[::-1] == project.dimensions(project.parts[mark])[:2]
    return AsCut(*(lying[::-1] if across else lying))


def whole_name(sheet: SheetPlan) -> str:
    """The name of a sheet that nothing is cut from yet."""
    return f"whole {sheet.bin} sheet {sheet.number}"


def blank_name(sheet: SheetPlan, piece: StandingPiece, number: int) -> str:
    """The name of a piece of a sheet; `number` counts the pieces that the sheet is now in."""
    if not piece.begun:
        return whole_name(sheet)
    return f"{sheet.bin} sheet {sheet.number}, piece {number}"


def _blank(
    project: Project, sheet: SheetPlan, piece: StandingPiece, number: int, done: Collection[str]
) -> Blank:
    origin = Origin.PIECE if piece.parts else Origin.OFFCUT
    return Blank(
        blank_name(sheet, piece, number),
        piece.material,
        piece.length,
        piece.width,
        Origin.SHEET if not piece.begun and _is_sheet(project, piece.material, sheet.bin) else origin,
        _trim(project, sheet, piece, done),
        piece.parts,
    )


def _is_sheet(project: Project, material: str, kind: str) -> bool:
    """Whether a plan's bin is a sheet as it is bought, and no offcut."""
    good = project.job.sheets[material]
    return kind in (good.name, *(other.name for other in good.others))


def _trim(project: Project, sheet: SheetPlan, piece: StandingPiece, done: Collection[str]) -> Trim:
    """What must come off each edge: trim from the sheet's own edges, clean-up from those sawn by hand."""
    hand = project.job.shop.hand_saw
    sawn = [
        cut
        for cut in sheet.cuts
        if cut.purpose is Purpose.CARRY and cut_key(piece.material, sheet.number, cut.order) in done
    ]
    rough = {(cut.direction, at) for cut in sawn for at in (cut.at, cut.at + cut.kerf)}
    root, outer = sheet.root, _outer(project, piece.material, sheet.bin)

    def lost(direction: Direction, at: Fraction, edge: Fraction) -> Fraction:
        if at == edge:
            return outer
        return hand.clean_up if (direction, at) in rough else Fraction(0)

    return Trim(
        lost(Direction.CROSSCUT, piece.x, root.x),
        lost(Direction.CROSSCUT, piece.x + piece.length, root.x + root.length),
        lost(Direction.RIP, piece.y, root.y),
        lost(Direction.RIP, piece.y + piece.width, root.y + root.width),
    )


def _outer(project: Project, material: str, kind: str) -> Fraction:
    """What must come off the outer edges of a bin. A piece out of another sheet may be sawn by hand."""
    if _is_sheet(project, material, kind):
        return project.job.sheets[material].trim
    clean = {offcut.name for offcut in project.job.shop.rack}
    return Fraction(0) if kind in clean or kind.startswith(SPOILED) else project.job.shop.hand_saw.clean_up
