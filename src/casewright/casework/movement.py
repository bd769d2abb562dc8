"""How much solid wood moves between the shop and the house: whole panels, and the parts of a job."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ..lengths.in_a_sentence import listed
from ..lengths.length import Mark, Unit, show
from ..lengths.quantities import short_number
from ..shop.materials import SheetGood
from ..shop.moisture import Climate
from ..shop.woods import change_of_width
from ..sizes.ledger import Sizes
from .job import BackKind, CaseSpec, Job
from .parts.part import Part, PartName
from .size_names import part_mark

STILL = Fraction(0)


@dataclass(frozen=True)
class Movement:
    """How much a width shrinks to the driest and swells to the dampest of the house, in inches; neither is
    below zero. `by_shrinkage` tells that the moisture goes beyond 6 to 14 %, where less is known of it."""

    shrinks: Fraction = STILL
    swells: Fraction = STILL
    by_shrinkage: bool = False


@dataclass(frozen=True)
class PartMovement:
    """A part of solid wood and how its `width` moves, in inches, from the size it has in the shop."""

    mark: str
    width: Fraction
    moves: Movement


def panel_movement(width: Fraction, stock: SheetGood, climate: Climate) -> Movement:
    """How much a panel of `stock` moves that is `width` inches wide across its grain when it is cut.

    Panels that are not solid wood keep their size.
    """
    if stock.wood is None:
        return Movement()
    dry, damp = (
        change_of_width(width, stock.wood, stock.sawn, climate.in_shop, there)
        for there in (climate.at_driest, climate.at_dampest)
    )
    beyond = dry.by_shrinkage or damp.by_shrinkage
    return Movement(max(STILL, -dry.amount), max(STILL, damp.amount), beyond)


def has_floating_back(job: Job, case: CaseSpec) -> bool:
    """Whether the back of a case is solid wood that is to move freely in its grooves."""
    own = job.sheet_of.get(part_mark(case.mark, PartName.BACK), case.materials.back)
    stock = job.sheets.get(own)
    return case.construction.back is BackKind.GROOVE and stock is not None and stock.wood is not None


def part_movements(job: Job, parts: Iterable[Part], sizes: Sizes) -> tuple[PartMovement, ...]:
    """How each of the parts moves that are of solid wood, in their order."""
    found = []
    for part in parts:
        stock = job.sheets[part.material]
        if stock.wood is not None:
            width = sizes.of(part.width)
            found.append(PartMovement(part.mark, width, panel_movement(width, stock, job.climate)))
    return tuple(found)


STILL_WORDS = "nothing"


def movement_text(job: Job, amount: Fraction) -> str:
    """How much something moves: to 1/64 in or 0.1 mm, `nothing`, or `a hair` where it is less than half
    that."""
    finest = Mark.SIXTY_FOURTH if job.unit is Unit.INCH else Mark.TENTH_MILLIMETRE
    if not amount:
        return STILL_WORDS
    written = show(amount, finest, unit=True)
    return written.plain if written.value else "a hair"


def moves_words(shrinks: str, swells: str) -> str:
    """`shrinks 1/16 in and does not swell`."""
    told = (("shrink", shrinks), ("swell", swells))
    return " and ".join(
        f"does not {verb}" if moved == STILL_WORDS else f"{verb}s {moved}" for verb, moved in told
    )


def climate_text(climate: Climate) -> str:
    """The moisture of the wood in shop and house: `8 % in the shop, 6 to 10 % in the house`."""
    shop, dry, damp = (short_number(one) for one in (climate.in_shop, climate.at_driest, climate.at_dampest))
    return f"{shop} % in the shop, {dry} to {damp} % in the house"


_WHERE = {
    "shop": "the shop",
    "house_dry": "the house at its driest",
    "house_damp": "the house at its dampest",
}


def where_assumed(climate: Climate) -> str:
    """Where nobody has measured the moisture, of a climate that is `assumed` in part or whole: `the shop and
    the house at its driest`."""
    return listed(_WHERE[name] for name in climate.left_out)


def as_usual(climate: Climate) -> str:
    """What stands in for what nobody has measured: `as is usual in most of the United States`."""
    usual = f"as is usual in {climate.usual.words}"
    if len(climate.left_out) == len(_WHERE):
        return usual
    figures = "figure" if len(climate.left_out) == 1 else "figures"
    return f"the {figures} for {where_assumed(climate)} {usual}"
