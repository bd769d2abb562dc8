"""The cuts that come before all others where a sheet has a fault: the wood clear of it sawn out, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..casework.project import Project
from ..planner.plan import Plan
from .facts import Blank, Facts
from .sound_wood import around_fault, sound_pieces

Names = Mapping[tuple[str, str], str]
"""What each sound piece that is used is chalked, by its material and its own name."""


def saw_out_faults(project: Project, facts: Facts, plans: Mapping[str, Plan]) -> tuple[str, ...]:
    """How the sound pieces that `plans` use are sawn out of the wood with a fault, and what each is then
    called; nothing where none is used."""
    names = {
        (material, sheet.bin): f"{material} {sheet.number}"
        for material, plan in plans.items()
        for sheet in plan.sheets
    }
    return tuple(words for blank in facts.blanks for words in _sawn(project, blank, names, blank.name))


def _sawn(project: Project, blank: Blank, names: Names, called: str) -> Iterator[str]:
    around = around_fault(blank)
    kept = [piece for piece in around.pieces if _is_used(piece, names)] if around else []
    if around is None or not kept:
        return
    left, near = blank.corner
    first: set[Fraction] = set()
    second: set[Fraction] = set()
    for piece in kept:
        x, y = piece.corner
        first |= {y - near, y + piece.width - near} if around.rip else {x - left, x + piece.length - left}
        # What lies in line with the fault is cut off the strip between the first cuts.
        if piece.width < blank.width and piece.length < blank.length:
            second |= (
                {x - left, x + piece.length - left} if around.rip else {y - near, y + piece.width - near}
            )
    rip, cross = ("Rip", "near edge", blank.width), ("Crosscut", "left end", blank.length)
    one, other = (rip, cross) if around.rip else (cross, rip)
    yield f"{_cut(project, one, first, called)} Nothing trims these edges again: saw them clean."
    if second - {0, other[2]}:
        yield _cut(project, other, second, "the strip with the fault in it")
    for piece in kept:
        size = f"{project.printed(piece.length)} × {project.printed(piece.width)}"
        lies = piece.name.removeprefix(blank.name).strip(", ")
        name = names.get((piece.material, piece.name))
        if name:
            yield f"Chalk what lies {lies}, {size}, {name}: it is cut up under that name."
        else:
            yield from _sawn(project, piece, names, f"what lies {lies}, {size},")


def _is_used(piece: Blank, names: Names) -> bool:
    return any((one.material, one.name) in names for one in sound_pieces(piece))


def _cut(project: Project, how: tuple[str, str, Fraction], at: set[Fraction], called: str) -> str:
    verb, edge, across = how
    lines = " and at ".join(project.printed(one) for one in sorted(at - {Fraction(0), across}))
    return f"{verb} {called} at {lines} from its {edge}, the blade on the side of the fault."
