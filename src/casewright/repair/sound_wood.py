"""What can be sawn out of a piece of wood clear of its faults."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from .facts import CLEAR, Blank
from .flaws import Flaw


@dataclass(frozen=True)
class AroundFault:
    """The `pieces` around a fault: sawn by ripping along both its sides first, or by crosscutting first."""

    rip: bool
    pieces: tuple[Blank, ...]


def sound_pieces(blank: Blank) -> tuple[Blank, ...]:
    """What can be sawn out of a piece of wood clear of its faults; the piece itself where it has none."""
    around = around_fault(blank)
    if around is None:
        return (blank,)
    return tuple(sound for piece in around.pieces for sound in sound_pieces(piece))


def around_fault(blank: Blank) -> AroundFault | None:
    """How the first fault of a piece of wood is sawn out; None where it has none."""
    flaw = next((one for one in blank.flaws if one.reaches(*blank.corner, blank.length, blank.width)), None)
    if flaw is None:
        return None
    # The two ways to saw around a fault: ripped or crosscut first. The one with the largest piece is taken.
    ways = [AroundFault(rip, tuple(_around(blank, flaw, rip))) for rip in (True, False)]
    return max(ways, key=lambda way: max((one.length * one.width for one in way.pieces), default=Fraction(0)))


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
