"""Which pieces of the sheets are more than one person carries to the table saw, and what they weigh."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.parts.weights import sheet_weight
from ...casework.project import Project
from ...findings import Finding, Weight
from ...lengths.in_a_sentence import with_capital
from ...lengths.quantities import weighed
from ..operations import Operation
from ..who_lifts import over_limit_words, piece_rule


def weight_of_piece(project: Project, material: str, length: Fraction, width: Fraction) -> Fraction | None:
    """Pounds of a piece of a material, its sides in inches; None where the sheet's weight is not known."""
    good = project.job.sheets[material]
    return sheet_weight(length, width, good.weight) if good.weight else None


@dataclass(frozen=True)
class CarriedLift:
    """A piece that goes to the table saw: the number of its sheet, what steps call it, pounds (None where
    unknown), its longer side."""

    sheet: int
    name: str
    pounds: Fraction | None
    length: Fraction


def lifts(project: Project, material: str, operations: Iterable[Operation]) -> Iterator[CarriedLift]:
    """Every piece of a material that is carried to the table saw, whole sheets among them: what its first cut
    there finds, once the hand-held saw has done with it."""
    for piece in dict.fromkeys(one.carried for one in operations if one.carried):
        if piece.material == material:
            pounds = weight_of_piece(project, material, piece.length, piece.width)
            yield CarriedLift(piece.number, piece.name, pounds, max(piece.length, piece.width))


def lifts_beyond(project: Project, material: str, operations: Iterable[Operation]) -> int:
    """How many pieces of a material go to the table saw that one person does not lift."""
    rule = piece_rule(project.job.shop.carry)
    return sum(not rule.lifters(one.pounds, one.length).alone for one in lifts(project, material, operations))


def lifts_for_two(project: Project, material: str, operations: Iterable[Operation]) -> Iterator[Finding]:
    """What is too heavy for one person, and what is too long and not light: one finding for each."""
    carry, job = project.job.shop.carry, project.job
    name, rule = job.sheets[material].name, piece_rule(carry)
    for_two = [
        one for one in lifts(project, material, operations) if not rule.lifters(one.pounds, one.length).alone
    ]
    heavy = [one for one in for_two if one.pounds is not None and one.pounds > rule.limit.one]
    if heavy:
        most = max(one.pounds for one in heavy if one.pounds is not None)
        text = (
            f"up to {weighed(most, job.unit)} goes to the table saw in one piece, over "
            f"{over_limit_words(carry, rule.limit, job.unit)}."
        )
        yield _for_two(name, heavy, text, rule.lifters(most, carry.length).words(job.unit))
    long = [one for one in for_two if one not in heavy]
    if long:
        longest = project.printed(max(one.length for one in long))
        alone = project.printed(carry.length)
        known = [one.pounds for one in long if one.pounds is not None]
        weighing = f", weighing up to {weighed(max(known), job.unit)}" if known else ""
        text = f"pieces up to {longest} long go to the table saw{weighing}; you carry {alone} alone."
        yield _for_two(name, long, text, "two lift it")


def _for_two(name: str, of: list[CarriedLift], text: str, who: str) -> Finding:
    numbers = sorted({one.sheet for one in of})
    which = f"sheet {numbers[0]}" if len(numbers) == 1 else f"sheets {', '.join(map(str, numbers))}"
    fix = f"{with_capital(who)}."
    return Finding("lift-for-two", f"{name}, {which}", text, fix, Weight.WARN)
