"""Which part takes which of the equal places, so that parts that belong together come from one board.

Grain and colour run through a board; a door whose stiles come from two boards shows it. The places are given:
each board has room for so many parts of each size. Groups are given places one after another, the largest
first, each on the board that holds most of what is left of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .fill_board import PartKind


@dataclass(frozen=True)
class SharedOut:
    """For each board the names of its parts by their kind, and the names that no place is left for."""

    by_board: tuple[dict[int, list[str]], ...]
    left: tuple[str, ...]


def share_out(kinds: Sequence[PartKind], rooms: Sequence[Sequence[int]]) -> SharedOut:
    """The parts of these kinds shared out over boards with room for so many of each."""
    room = [list(counts) for counts in rooms]
    by_board: tuple[dict[int, list[str]], ...] = tuple({at: [] for at in range(len(kinds))} for _ in rooms)
    left: list[str] = []
    for group in _groups(kinds):
        while group:
            counts = [sum(min(len(names), free[kind]) for kind, names in group.items()) for free in room]
            # Of equal boards the one that is left with least other room: larger rooms are kept for larger
            # groups.
            at = max(range(len(room)), key=lambda at: (counts[at], -sum(room[at])), default=None)
            if at is None or not counts[at]:
                left += [name for names in group.values() for name in names]
                break
            for kind in list(group):
                take = min(len(group[kind]), room[at][kind])
                by_board[at][kind] += group[kind][:take]
                room[at][kind] -= take
                group[kind] = group[kind][take:]
                if not group[kind]:
                    del group[kind]
    return SharedOut(by_board, tuple(left))


def _groups(kinds: Sequence[PartKind]) -> list[dict[int, list[str]]]:
    """The names of each group by kind, the largest group first; parts that belong with nothing come last."""
    found: dict[str, dict[int, list[str]]] = {}
    single: dict[int, list[str]] = {}
    for at, kind in enumerate(kinds):
        for part in kind.parts:
            group = found.setdefault(part.together, {}) if part.together else single
            group.setdefault(at, []).append(part.name)
    ordered = sorted(found.values(), key=lambda group: -sum(map(len, group.values())))
    return [*ordered, single] if single else ordered
