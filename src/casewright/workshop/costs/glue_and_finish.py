"""The glue and the finish that a job takes, in bottles and cans as far as it tells what one covers."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ...casework.project import Project
from ...lengths.quantities import large_area, price_text, tenth
from ..assembly.joining import GlueUp
from .cost_lines import cents
from .finish_area import cans_to_buy, cans_used, finish_area, none_on_faced
from .glue_area import glued_in_joints, glued_under_edging


@dataclass(frozen=True, slots=True)
class Supply:
    """Glue or finish for a job: what it is called, the square inches it covers there, all coats counted, and
    what those follow from.

    `number` is how many of what it is `sold_in` that takes, None where the job does not tell; `price` is for
    one, None where it is not told. `told` says whether the job gives a price or a coverage, or asks for a
    finish at all; glue is counted even where it says nothing.
    """

    name: str
    sold_in: str
    area: Fraction
    follows: str
    told: bool
    price: Fraction | None
    number: Fraction | None

    @property
    def money(self) -> Fraction | None:
        """What it comes to; None where the job does not tell enough. A price of zero is the maker's word."""
        if self.price == 0:
            return Fraction(0)
        return None if self.price is None or self.number is None else cents(self.number * self.price)

    def amount(self, project: Project) -> str:
        """How much it is: `0.31 bottles at $10`; the area where the job does not tell what one covers."""
        if self.number is None:
            return large_area(self.area, project.job.unit)
        many = f"{self.figure} {self.sold_in if self.number == 1 else f'{self.sold_in}s'}"
        return f"{many} at {price_text(self.price, project.job.money)}" if self.price else many

    @property
    def figure(self) -> str:
        """The number: whole, or to a hundredth; empty where it is not known."""
        if self.number is None:
            return ""
        return f"{self.number}" if self.number.denominator == 1 else f"{float(self.number):.2f}"


def glue_for(project: Project, glue_ups: Iterable[GlueUp]) -> Supply | None:
    """The share of a bottle: the rest of it glues the next job. None where nothing is glued."""
    joints, edges = glued_in_joints(glue_ups), glued_under_edging(project)
    unit, glue = project.job.unit, project.job.prices.glue
    if not joints + edges:
        return None
    follows = f"{large_area(joints, unit)} of joints, spread on one side"
    if edges:
        follows += f", and {large_area(edges, unit)} under edging"
    area, told = joints + edges, glue.price is not None or glue.covers is not None
    number = area / glue.covers if glue.covers else None
    return Supply("glue", "bottle", area, follows, told, glue.price, number)


def finish_for(project: Project) -> Supply | None:
    """Whole cans; None where the job has no finish."""
    finish = project.job.prices.finish
    if finish is None:
        return None
    area, unit = finish_area(project, finish), project.job.unit
    coats = f"{finish.coats} {'coat' if finish.coats == 1 else 'coats'}"
    follows, number = f"{large_area(area, unit)} {finish.surfaces.value}, {coats}", None
    if finish.covers:
        used = cans_used(area, finish.coats, finish.covers)
        number = Fraction(cans_to_buy(used))
        follows += f": {tenth(used)} cans"
    if none := none_on_faced(project, finish):
        follows += f"; {none}"
    return Supply(finish.name, "can", area * finish.coats, follows, True, finish.price, number)
