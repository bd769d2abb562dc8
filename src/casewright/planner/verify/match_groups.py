"""The checker's rule for match groups: parts that must be alike are cut on one setting."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction

from ...findings import Finding
from ..plan import Piece, Plan, Purpose
from ..problem import Direction, Problem

Setting = tuple[str, Direction, Fraction] | None


def match_findings(problem: Problem, plan: Plan) -> Iterator[Finding]:
    """Groups split over several settings without the plan saying so.

    Within a group, all parts having a certain length must have it from cuts of one tool,
    direction and setting; the same for widths. A size that no cut made (what was left over)
    counts as a setting of its own.
    """
    group_of = {item.name: item.match for item in problem.items if item.match is not None}
    size_of = {item.name: (item.length, item.width) for item in problem.items}
    if not group_of:
        return
    settings: dict[tuple[str, str, Fraction], set[Setting]] = defaultdict(set)
    for sheet in plan.sheets:
        for piece, by_x, by_y in _sized(sheet.root):
            group = group_of.get(piece.item or "")
            if group is None or piece.item is None:
                continue
            length, width = size_of[piece.item]
            by_length, by_width = (by_y, by_x) if piece.turned else (by_x, by_y)
            settings[group, "length", length].add(by_length)
            settings[group, "width", width].add(by_width)
    said = {finding.place for finding in plan.findings if finding.code == "match-split"}
    for (group, side, size), ways in sorted(settings.items(), key=lambda entry: entry[0]):
        if len(ways) > 1 and group not in said:
            text = f"The {side} {size} of its parts is cut on {len(ways)} different settings."
            yield Finding("match-split", group, text)


def _sized(root: Piece) -> Iterator[tuple[Piece, Setting, Setting]]:
    """Every part with the setting that brought it to its size along x and along y."""
    stack: list[tuple[Piece, Setting, Setting]] = [(root, None, None)]
    while stack:
        piece, by_x, by_y = stack.pop()
        if not piece.children:
            if piece.item is not None:
                yield piece, by_x, by_y
            continue
        crosscut = bool(piece.cuts) and piece.cuts[0].direction is Direction.CROSSCUT
        for child in piece.children:
            end = child.x + child.length if crosscut else child.y + child.width
            size = child.length if crosscut else child.width
            setting: Setting = None
            for cut in piece.cuts:
                if cut.at == end and cut.setting == size and cut.purpose is not Purpose.TRIM:
                    setting = (cut.tool, cut.direction, cut.setting)
            stack.append((child, setting, by_y) if crosscut else (child, by_x, setting))
