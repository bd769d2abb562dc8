"""Which pieces of the sheets are more than one person carries to the table saw, and what they weigh."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.parts.weights import sheet_weight
from ...casework.project import Project
from ...findings import Finding, Weight
from ...lengths.quantities import weighed
from ...shop.machines import Carry
from ..operations import Operation

LIGHT = Fraction(1, 2)
"""A long piece of no more than this share of the weight limit is carried alone without a word: a long filler
is awkward, not heavy. Common practice, no source."""


def weight_of_piece(project: Project, material: str, length: Fraction, width: Fraction) -> Fraction | None:
    """Pounds of a piece of a material, its sides in inches; None where the sheet's weight is not known."""
    good = project.job.sheets[material]
    return sheet_weight(length, width, good.weight) if good.weight else None


def is_for_two(carry: Carry, pounds: Fraction | None, length: Fraction) -> bool:
    """Whether a piece of this weight and longer side is carried by two: too heavy, or long and not light."""
    if pounds is None:
        return length > carry.length
    return pounds > carry.weight or (length > carry.length and pounds > LIGHT * carry.weight)


@dataclass(frozen=True)
class CarriedLift:
    """A piece that goes to the table saw: the number of its sheet, pounds (None where unknown), its longer
    side."""

    sheet: int
    pounds: Fraction | None
    length: Fraction


def lifts(project: Project, material: str, operations: Iterable[Operation]) -> Iterator[CarriedLift]:
    """Every piece of a material that is carried to the table saw, whole sheets among them: what its first cut
    there finds, once the hand-held saw has done with it."""
    for piece in dict.fromkeys(one.carried for one in operations if one.carried):
        if piece.material == material:
            pounds = weight_of_piece(project, material, piece.length, piece.width)
            yield CarriedLift(piece.number, pounds, max(piece.length, piece.width))


def lifts_beyond(project: Project, material: str, operations: Iterable[Operation]) -> int:
    """How many pieces of a material go to the table saw over the project's carrying limits, too long ones
    only if they are not light."""
    carry = project.job.shop.carry
    return sum(
        (one.pounds is not None and one.pounds > carry.weight)
        or (one.length > carry.length and (one.pounds is None or one.pounds > LIGHT * carry.weight))
        for one in lifts(project, material, operations)
    )


def lifts_for_two(project: Project, material: str, operations: Iterable[Operation]) -> Iterator[Finding]:
    """What is too heavy for one person, and what is too long and not light: one finding for each."""
    carry, job = project.job.shop.carry, project.job
    name = job.sheets[material].name
    for_two = [
        one for one in lifts(project, material, operations) if is_for_two(carry, one.pounds, one.length)
    ]
    heavy = [one for one in for_two if one.pounds is not None and one.pounds > carry.weight]
    if heavy:
        most = weighed(max(one.pounds for one in heavy if one.pounds is not None), job.unit)
        text = (
            f"up to {most} goes to the table saw in one piece, over your {weighed(carry.weight, job.unit)}."
        )
        yield _for_two(name, heavy, text)
    long = [one for one in for_two if one not in heavy]
    if long:
        longest = project.printed(max(one.length for one in long))
        alone = project.printed(carry.length)
        known = [one.pounds for one in long if one.pounds is not None]
        weighing = f", weighing up to {weighed(max(known), job.unit)}" if known else ""
        text = f"pieces up to {longest} long go to the table saw{weighing}; you carry {alone} alone."
        yield _for_two(name, long, text)


def _for_two(name: str, of: list[CarriedLift], text: str) -> Finding:
    numbers = sorted({one.sheet for one in of})
    which = f"sheet {numbers[0]}" if len(numbers) == 1 else f"sheets {', '.join(map(str, numbers))}"
    return Finding("lift-for-two", f"{name}, {which}", text, "Carry it with a helper.", Weight.WARN)
