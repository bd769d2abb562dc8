"""A new job from what a form sends: a name, a measured opening, and what sort of cases fill it."""

from __future__ import annotations

from ..measure.lengths import Unit
from .new import KINDS, Wish, new_job

__all__ = ["KINDS", "job_in_opening"]


def job_in_opening(name: str, unit: str, opening: str, kind: str) -> str:
    """The text of a job of equal cases that fill the opening; an unknown unit or kind is the usual one.

    Raises LengthError when the opening is no length, JobError when no cases can fill it.
    """
    counted = Unit.MM if unit == Unit.MM.value else Unit.INCH
    chosen = kind if kind in KINDS else KINDS[0]
    return new_job(Wish(name.strip() or "New job", counted, opening, chosen)).text
