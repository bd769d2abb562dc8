"""The hinges and slides that cases are fitted with, and what doors weigh."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from ...shop.hinges import Hinge
from ...shop.materials import SheetGood, per_square_inch
from ...shop.slides import Slide
from ..job import CaseSpec, Job

Fitting = TypeVar("Fitting", Hinge, Slide)


@dataclass(frozen=True)
class FittingChoice:
    """The hinges, slides and sheet goods that a job knows, by their keys."""

    hinges: Mapping[str, Hinge]
    slides: Mapping[str, Slide]
    sheets: Mapping[str, SheetGood]

    @classmethod
    def of(cls, job: Job) -> FittingChoice:
        return cls(job.hinges, job.slides, job.sheets)

    def hinge(self, spec: CaseSpec, on_divider: bool = False) -> Hinge | None:
        """The hinges of a case's doors, or of those that hang on a divider; None where the job leaves it
        open."""
        own = spec.fitted.divider_hinge if on_divider else None
        return _chosen(self.hinges, own or spec.fitted.hinge)

    def slide(self, spec: CaseSpec) -> Slide | None:
        """The slides of a case's drawers; None where the job leaves it open."""
        return _chosen(self.slides, spec.fitted.slide)

    def weight(self, material: str, area: Fraction) -> Fraction:
        """Pounds of so many square inches of a material; nothing where its weight is not known."""
        return area * per_square_inch(self.sheets[material].weight)


def _chosen(known: Mapping[str, Fitting], key: str | None) -> Fitting | None:
    """What a key names; a job's only one needs no naming."""
    if key is not None:
        return known[key]
    return next(iter(known.values())) if len(known) == 1 else None
