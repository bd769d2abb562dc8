"""What can be sawn out of a piece of wood clear of its faults."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from .facts import CLEAR, Blank
from .flaws import Flaw


def sound_pieces(blank: Blank) -> tuple[Blank, ...]:
    """What can be sawn out of a piece of wood clear of its faults; the piece itself where it has none."""
    flaw = next((one for one in blank.flaws if one.reaches(*blank.corner, blank.length, blank.width)), None)
    if flaw is None:
        return (blank,)
    # The two ways to saw around a fault: ripped or crosscut first. The one with the largest piece is taken.
    ways = [list(_around(blank, flaw, rip)) for rip in (True, False)]
    best = max(ways, key=lambda pieces: max((one.length * one.width for one in pieces), default=Fraction(0)))
    return tuple(sound for piece in best for sound in sound_pieces(piece))


def _around(blank: Blank, flaw: Flaw, rip: bool) -> Iterator[Blank]:
    left, near = blank.corner
    right, far = left + blank.length, near + blank.width
    low, high = max(left, flaw.x), min(right, flaw.x + flaw.length)
    bottom, top = max(near, flaw.y), min(far, flaw.y + flaw.width)
    outer = (near, far) if not rip else (bottom, top)
    across = (left, right) if rip else (low, high)
    for words, x, y, end, edge in (
        ("left of", left, outer[0], low, outer[1]),
        ("right of", high, outer[0], right, outer[1]),
        ("nearer than", across[0], near, across[1], bottom),
        ("beyond", across[0], top, across[1], far),
    ):
        if end > x and edge > y:
            name = f"{blank.name}{CLEAR}{words} the fault"
            trim = replace(
                blank.trim,
                left=blank.trim.left if x == left else Fraction(0),
                right=blank.trim.right if end == right else Fraction(0),
                near=blank.trim.near if y == near else Fraction(0),
                far=blank.trim.far if edge == far else Fraction(0),
            )
            yield replace(blank, name=name, corner=(x, y), length=end - x, width=edge - y, trim=trim)
