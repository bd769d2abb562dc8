"""The hinges and drawer slides that a case is fitted with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from ...shop.hinges import Hinge
from ...shop.slides import Slide
from ..job import CaseSpec, Job

Fitting = TypeVar("Fitting")


@dataclass(frozen=True)
class FittingChoice:
    """The hinges and slides that a job knows. A case that names none takes the only one there is."""

    hinges: Mapping[str, Hinge]
    slides: Mapping[str, Slide]

    @classmethod
    def of(cls, job: Job) -> FittingChoice:
        return cls(job.hinges, job.slides)

    def hinge(self, spec: CaseSpec) -> Hinge | None:
        """The hinges of a case's doors; None where the job leaves that open."""
        return _chosen(self.hinges, spec.fitted.hinge)

    def slide(self, spec: CaseSpec) -> Slide | None:
        """The slides of a case's drawers; None where the job leaves that open."""
        return _chosen(self.slides, spec.fitted.slide)


def _chosen(known: Mapping[str, Fitting], key: str | None) -> Fitting | None:
    if key is not None:
        return known[key]
    return next(iter(known.values())) if len(known) == 1 else None
