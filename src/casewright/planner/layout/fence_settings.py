"""Which settings bring which parts to size; split match groups; rips beyond the fence."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...findings import Finding
from ..plan import Piece, Purpose, SheetPlan
from ..plan_wording import Write, fence_too_short, length_text, split_group
from ..problem import Direction, Problem
from .plan_figures import FenceSetting


@dataclass(frozen=True)
class PartSettings:
    """A part with the settings that its length and its width come from; None for a side that no cut made,
    because it is what was left of the sheet."""

    sheet: int
    piece: Piece
    by_length: FenceSetting | None
    by_width: FenceSetting | None


def part_settings(sheets: Iterable[SheetPlan]) -> Iterator[PartSettings]:
    """Every part of these sheets with its settings."""
    for sheet in sheets:
        yield from _below(sheet.number, sheet.root, None, None)


def _below(
    number: int, piece: Piece, by_x: FenceSetting | None, by_y: FenceSetting | None
) -> Iterator[PartSettings]:
    if piece.item is not None:
        lengthwise, widthwise = (by_y, by_x) if piece.turned else (by_x, by_y)
        yield PartSettings(number, piece, lengthwise, widthwise)
    if not piece.cuts:
        return
    sizing = {cut.at: cut for cut in piece.cuts if cut.purpose is not Purpose.TRIM}
    along_x = piece.cuts[0].direction is Direction.CROSSCUT
    for child in piece.children:
        cut = sizing.get(child.x + child.length if along_x else child.y + child.width)
        setting = None if cut is None else (cut.tool, cut.direction, cut.setting)
        yield from _below(number, child, *((setting, by_y) if along_x else (by_x, setting)))


def split_groups(problem: Problem, sheets: Iterable[SheetPlan]) -> tuple[Finding, ...]:
    """A finding for every match group whose equal sizes come from more than one setting."""
    items = {item.name: item for item in problem.items if item.match is not None}
    if not items:
        return ()
    ways: dict[tuple[str, str, Fraction], set[FenceSetting | None]] = defaultdict(set)
    for part in part_settings(sheets):
        item = items.get(part.piece.item or "")
        if item is not None and item.match is not None:
            ways[item.match, "length", item.length].add(part.by_length)
            ways[item.match, "width", item.width].add(part.by_width)
    split: dict[str, list[str]] = defaultdict(list)
    for (group, side, _), settings in ways.items():
        if len(settings) > 1:
            split[group].append(side)
    return tuple(split_group(group, set(sides)) for group, sides in split.items())


def beyond_reach(
    problem: Problem, sheets: Iterable[SheetPlan], write: Write = length_text
) -> tuple[Finding, ...]:
    """A finding for every sheet with a cut that is left to the table saw though its fence does not reach: a
    rip, or a crosscut that the hand-held saw would make if there were room for it."""
    saw = problem.table_saw
    reach = saw.reach
    if reach is None:
        return ()
    by_hand = problem.hand_saw is not None
    found = []
    for sheet in sheets:
        far = [
            (cut, piece)
            for piece in sheet.root.walk()
            for cut in piece.cuts
            if cut.tool == saw.name
            and (cut.direction is Direction.RIP or by_hand)
            and cut.purpose is Purpose.SIZE
            and cut.setting > reach
        ]
        if far:
            cut, piece = max(far, key=lambda entry: entry[0].setting)
            rip = cut.direction is Direction.RIP
            end = piece.y + piece.width if rip else piece.x + piece.length
            other = end - cut.at - cut.kerf
            found.append(fence_too_short(f"sheet {sheet.number}", cut, reach, other, by_hand, write))
    return tuple(found)
